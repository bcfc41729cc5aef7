#include "sim/regression/worker_pool.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <poll.h>
#include <signal.h>  // NOLINT(modernize-deprecated-headers): kill is POSIX
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <chrono>
#include <cstring>
#include <ctime>
#include <deque>
#include <stdexcept>
#include <string>
#include <system_error>
#include <utility>

#include "sim/regression/case_message.hpp"
#include "sim/regression/worker.hpp"

namespace sim {

namespace {

using Clock = std::chrono::steady_clock;

constexpr int look_around_every_ms = 200;
/// Below this share of a processor nothing is being computed.
constexpr double busy_share = 0.01;

double processor_s_of(pid_t process) {
    clockid_t clock = 0;
    timespec used{};
    if (::clock_getcpuclockid(process, &clock) != 0 || ::clock_gettime(clock, &used) != 0) {
        return 0.0;
    }
    return static_cast<double>(used.tv_sec) + 1e-9 * static_cast<double>(used.tv_nsec);
}

struct Pipe {
    Pipe() {
        if (::pipe2(ends.data(), O_CLOEXEC) != 0) {
            throw std::runtime_error("no pipe can be made: " +
                                     std::generic_category().message(errno));
        }
    }
    std::array<int, 2> ends{};
    int reading() const { return ends[0]; }
    int writing() const { return ends[1]; }
};

/// Given out to a worker.
struct Asked {
    std::int64_t id = 0;
    bool is_second_try = false;
};

std::string signal_name(int number) {
    const char* name = ::sigabbrev_np(number);
    return name != nullptr ? "SIG" + std::string(name) : fmt::format("signal_{}", number);
}

}  // namespace

class WorkerPool::Worker {
  public:
    bool is_alive() const { return process_ != 0; }
    const std::deque<Asked>& cases() const { return cases_; }
    int told() const { return told_; }

    void begin(pid_t process, int asked, int told) {
        *this = Worker();
        process_ = process;
        asked_ = asked;
        told_ = told;
    }
    /// In a worker that was forked later: the ends of this one's pipes.
    void close_ends() const {
        if (is_alive()) {
            ::close(asked_);
            ::close(told_);
        }
    }
    void ask(const Asked& one) {
        if (cases_.empty()) {
            await_beginning();
        }
        cases_.push_back(one);
        // One that is gone is found out when its answers end.
        write_whole(asked_, &one.id, sizeof one.id);
    }
    MessageStream& stream() { return stream_; }

    void case_has_begun(BegunCase begun) { begun_ = std::move(begun); }
    void case_has_ended() {
        is_used_up_ = is_used_up_ || begun_.holds_foreign_code;
        cases_.pop_front();
        await_beginning();
    }
    const BegunCase& begun() const { return begun_; }

    bool is_over(const CaseBudget& budget) const {
        const double used_s = processor_s_of(process_) - processor_s_before_;
        const double waited_s = std::chrono::duration<double>(Clock::now() - asked_at_).count();
        return used_s >
                   budget.processor_s + budget.processor_s_per_simulated_s * begun_.simulated_s ||
               (waited_s > budget.silence_s && used_s < busy_share * waited_s);
    }

    /// Why it is ended by us.
    enum class Fault { none, hung, damaged };
    void end_because(Fault fault) {
        fault_ = fault;
        ::kill(process_, SIGKILL);
    }
    Fault fault() const { return fault_; }
    /// It ends by itself after somebody else's code ran in it.
    bool is_used_up() const { return is_used_up_; }

    /// Closes and waits. Returns how the process ended.
    int end() {
        close_ends();
        int status = 0;
        while (::waitpid(process_, &status, 0) < 0 && errno == EINTR) {
        }
        *this = Worker();
        return status;
    }

  private:
    void await_beginning() {
        begun_ = {};
        asked_at_ = Clock::now();
        processor_s_before_ = processor_s_of(process_);
    }

    pid_t process_ = 0;
    int asked_ = -1;
    int told_ = -1;
    MessageStream stream_;
    std::deque<Asked> cases_;  ///< the first one runs
    BegunCase begun_;          ///< the first one, once it has begun
    Clock::time_point asked_at_;
    double processor_s_before_ = 0.0;
    Fault fault_ = Fault::none;
    bool is_used_up_ = false;
};

WorkerPool::WorkerPool(const Suite& suite, int workers, const CaseBudget& budget)
    : suite_(suite), budget_(budget) {
    // A worker that is gone must not take this process along when it is written to.
    struct sigaction ignored = {};
    ignored.sa_handler = SIG_IGN;
    ::sigaction(SIGPIPE, &ignored, &on_broken_pipe_before_);
    for (int k = 0; k < std::max(workers, 1); ++k) {
        workers_.push_back(std::make_unique<Worker>());
    }
}

WorkerPool::~WorkerPool() {
    for (const auto& worker : workers_) {
        if (worker->is_alive()) {
            if (!worker->cases().empty()) {
                worker->end_because(Worker::Fault::none);
            }
            worker->end();
        }
    }
    ::sigaction(SIGPIPE, &on_broken_pipe_before_, nullptr);
}

void WorkerPool::make(Worker& worker) {
    const Pipe asked;
    const Pipe told;
    const pid_t parent = ::getpid();
    const pid_t process = ::fork();
    if (process < 0) {
        throw std::runtime_error("no worker process can be made: " +
                                 std::generic_category().message(errno));
    }
    if (process == 0) {
        ::close(asked.writing());
        ::close(told.reading());
        for (const auto& other : workers_) {
            other->close_ends();
        }
        work(suite_, asked.reading(), told.writing(), parent);
    }
    ::close(asked.reading());
    ::close(told.writing());
    worker.begin(process, asked.writing(), told.reading());
}

/// Returns whether anybody has anything to do.
bool WorkerPool::give_out(const Work& work) {
    bool busy = false;
    for (const bool ahead : {false, true}) {
        for (const auto& worker : workers_) {
            if (worker->cases().size() == (ahead ? 1U : 0U) && !worker->is_used_up()) {
                if (const std::optional<std::int64_t> id = work.next(ahead)) {
                    if (!worker->is_alive()) {
                        make(*worker);
                    }
                    worker->ask({*id, false});
                }
            }
            busy = busy || !worker->cases().empty() || worker->is_used_up();
        }
    }
    return busy;
}

/// It has ended: the first case has that as its result, or one more try.
void WorkerPool::bury(Worker& worker, const Work& work) {
    std::deque<Asked> cases = worker.cases();
    const BegunCase begun = worker.begun();
    const Worker::Fault fault = worker.fault();
    const bool blames_nobody = worker.is_used_up();
    const int status = worker.end();
    if (!cases.empty() && !blames_nobody) {
        Asked& first = cases.front();
        if (fault == Worker::Fault::none && !first.is_second_try) {
            first.is_second_try = true;
        } else {
            CaseRecord record = begun.record;
            record.id = first.id;
            cases.pop_front();
            if (fault == Worker::Fault::hung) {
                record = ended_without_result(std::move(record), outcome_hung, "no_answer",
                                              begun.expected,
                                              "gave no answer within its processor time");
            } else {
                const std::string cause = fault == Worker::Fault::damaged ? "damaged_answer"
                                          : WIFSIGNALED(status)
                                              ? signal_name(WTERMSIG(status))
                                              : fmt::format("exit_{}", WEXITSTATUS(status));
                record =
                    ended_without_result(std::move(record), outcome_crashed, cause, begun.expected,
                                         "the process in which it ran ended (" + cause + ")");
            }
            work.take(std::move(record));
        }
    }
    if (!cases.empty()) {
        make(worker);
        for (const Asked& one : cases) {
            worker.ask(one);
        }
    }
}

/// Takes what a worker has told, or sees that it is gone.
void WorkerPool::hear(Worker& worker, const Work& work) {
    std::array<char, 65536> bytes;
    const ssize_t got = ::read(worker.told(), bytes.data(), bytes.size());
    if (got < 0 && errno == EINTR) {
        return;
    }
    if (got <= 0) {
        bury(worker, work);
        return;
    }
    try {
        worker.stream().add(bytes.data(), static_cast<std::size_t>(got));
        while (std::optional<CaseMessage> message = worker.stream().next()) {
            CaseRecord& record = message->begun.record;
            if (worker.cases().empty() || record.id != worker.cases().front().id) {
                throw DamagedAnswer();
            }
            if (message->has_ended) {
                worker.case_has_ended();
                work.take(std::move(record));
            } else {
                worker.case_has_begun(std::move(message->begun));
            }
        }
    } catch (const DamagedAnswer&) {
        worker.end_because(Worker::Fault::damaged);
        bury(worker, work);
    }
}

void WorkerPool::listen(const Work& work) {
    std::vector<pollfd> ears;
    std::vector<Worker*> whose;
    for (const auto& worker : workers_) {
        if (worker->is_alive()) {
            ears.push_back({worker->told(), POLLIN, 0});
            whose.push_back(worker.get());
        }
    }
    if (::poll(ears.data(), ears.size(), look_around_every_ms) <= 0) {
        return;
    }
    for (std::size_t k = 0; k < ears.size(); ++k) {
        if (ears[k].revents != 0) {
            hear(*whose[k], work);
        }
    }
}

void WorkerPool::end_the_hung() {
    for (const auto& worker : workers_) {
        if (worker->is_alive() && !worker->cases().empty() && worker->is_over(budget_)) {
            // Its end is heard like that of any other.
            worker->end_because(Worker::Fault::hung);
        }
    }
}

bool WorkerPool::run(const Work& work) {
    auto looked_around = Clock::now();
    while (work.goes_on()) {
        if (!give_out(work)) {
            return true;
        }
        listen(work);
        if (Clock::now() - looked_around > std::chrono::milliseconds(look_around_every_ms)) {
            looked_around = Clock::now();
            end_the_hung();
        }
    }
    return false;
}

}  // namespace sim
