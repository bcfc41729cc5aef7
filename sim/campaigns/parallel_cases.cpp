#include "sim/campaigns/parallel_cases.hpp"

#include <algorithm>
#include <atomic>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>

namespace sim {

namespace {

class Workers {
  public:
    Workers(std::size_t count, const std::function<void(std::size_t)>& run_case,
            const CampaignProgress& progress)
        : count_(count), run_case_(run_case), progress_(progress) {}

    bool run(int threads) {
        std::vector<std::thread> pool;
        pool.reserve(static_cast<std::size_t>(threads));
        for (int k = 0; k < threads; ++k) {
            pool.emplace_back([this] { work(); });
        }
        for (std::thread& thread : pool) {
            thread.join();
        }
        if (failure_) {
            std::rethrow_exception(failure_);
        }
        return done_ == count_;
    }

  private:
    void work() {
        while (!stop_) {
            const std::size_t k = next_++;
            if (k >= count_) {
                return;
            }
            try {
                run_case_(k);
            } catch (...) {
                const std::lock_guard<std::mutex> lock(mutex_);
                failure_ = std::current_exception();
                stop_ = true;
                return;
            }
            const std::lock_guard<std::mutex> lock(mutex_);
            ++done_;
            if (progress_ && !progress_(static_cast<int>(done_), static_cast<int>(count_))) {
                stop_ = true;
            }
        }
    }

    std::size_t count_;
    const std::function<void(std::size_t)>& run_case_;
    const CampaignProgress& progress_;
    std::atomic<std::size_t> next_{0};
    std::atomic<bool> stop_{false};
    std::mutex mutex_;
    std::size_t done_ = 0;
    std::exception_ptr failure_;
};

}  // namespace

bool run_cases(std::size_t count, int threads, const std::function<void(std::size_t)>& run_case,
               const CampaignProgress& progress) {
    return Workers(count, run_case, progress).run(std::max(threads, 1));
}

}  // namespace sim
