// Cases on several worker processes. A case that ends its process, or never ends, has that as its
// result, and the others go on.
//
// The pool's own process must have no other thread when it is used: workers are forked from it, and
// again whenever one is lost.
//
//   crashed   the process was ended by a signal or by an exit of its own. So that nobody is blamed
//             for what an earlier case left behind, the case is run once more, first in a new
//             process; the second result counts.
//   hung      it used more processor time than longest_processor_s() without an answer, or gave
//             none for longest_silence_s while it used next to none. It is ended.
//
// A case with somebody else's controller has a process that no other case runs in afterwards.
#pragma once

#include <signal.h>  // NOLINT(modernize-deprecated-headers): sigaction is POSIX

#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <vector>

#include "sim/regression/case_record.hpp"

namespace sim {

/// How long a case may take. An ordinary start needs a tenth of a second of processor time for a
/// simulated second, under sanitizers two (measured); so there is much room. (Engineering
/// judgement.)
struct CaseBudget {
    double processor_s = 120.0;                 ///< whatever it simulates
    double processor_s_per_simulated_s = 20.0;  ///< and this more
    double silence_s = 1800.0;                  ///< of waiting for something other than a processor
};

class WorkerPool {
  public:
    WorkerPool(const Suite& suite, int workers, const CaseBudget& budget = {});
    /// Ends all workers at once.
    ~WorkerPool();
    WorkerPool(const WorkerPool&) = delete;
    WorkerPool& operator=(const WorkerPool&) = delete;

    struct Work {
        /// The next case; none: there is none at present. Asked again after the next result.
        /// `ahead`: only to lie ready for a worker that is busy.
        std::function<std::optional<std::int64_t>(bool ahead)> next;
        /// A case is done; in the order in which they happen to end.
        std::function<void(CaseRecord)> take;
        /// Asked several times a second; false ends the work where it is.
        std::function<bool()> goes_on;
    };
    /// Returns whether all was done. Throws std::runtime_error if no process can be made.
    bool run(const Work& work);

  private:
    class Worker;

    bool give_out(const Work& work);
    void listen(const Work& work);
    void hear(Worker& worker, const Work& work);
    void bury(Worker& worker, const Work& work);
    void end_the_hung();
    void make(Worker& worker);

    const Suite& suite_;
    CaseBudget budget_;
    std::vector<std::unique_ptr<Worker>> workers_;
    struct sigaction on_broken_pipe_before_ = {};
};

}  // namespace sim
