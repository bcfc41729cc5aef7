#include "sim/explaining/in_parallel.hpp"

#include <algorithm>
#include <atomic>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>

namespace sim {

void in_parallel(std::size_t count, int threads, const std::function<void(std::size_t)>& piece) {
    std::atomic<std::size_t> next{0};
    std::mutex mutex;
    std::exception_ptr failure;
    const auto work = [&] {
        for (std::size_t k = next++; k < count; k = next++) {
            try {
                piece(k);
            } catch (...) {
                const std::lock_guard<std::mutex> lock(mutex);
                failure = failure ? failure : std::current_exception();
                next = count;
                return;
            }
        }
    };
    const std::size_t helpers =
        std::min(count, static_cast<std::size_t>(std::max(threads, 1))) - (count > 0 ? 1 : 0);
    std::vector<std::thread> pool;
    pool.reserve(helpers);
    for (std::size_t k = 0; k < helpers; ++k) {
        pool.emplace_back(work);
    }
    work();
    for (std::thread& thread : pool) {
        thread.join();
    }
    if (failure) {
        std::rethrow_exception(failure);
    }
}

}  // namespace sim
