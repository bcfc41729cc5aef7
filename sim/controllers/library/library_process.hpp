// The process that a controller library runs in: the program runup_controller_host beside this one,
// one process per controller and power-up. Whatever the library does there, this program goes on:
// it sees a reply, or a failure that says what happened instead.
//
// The library's standard output leads to a place of its own; what it says on standard error appears
// on ours. Processes that it starts end with it.
#pragma once

#include <sys/types.h>

#include <cstdint>
#include <memory>
#include <optional>
#include <string>

#include "sim/controllers/controller_failure.hpp"
#include "sim/controllers/library/exchange.hpp"

namespace sim {

/// How long a reply may take. Processor time is the measure, so that a machine that is busy with
/// other things changes no result; the clock on the wall is there for a library that sleeps. A
/// library that somebody holds in a debugger has all the time in the world.
struct LibraryPatience {
    std::int64_t processor_ns = 1'000'000'000;
    std::int64_t wall_ns = 30'000'000'000;
};

class LibraryProcess {
  public:
    /// Throws std::runtime_error if the process cannot be started at all.
    explicit LibraryProcess(const LibraryPatience& patience = {});
    ~LibraryProcess();
    LibraryProcess(const LibraryProcess&) = delete;
    LibraryProcess& operator=(const LibraryProcess&) = delete;

    /// What goes along with a request, and what came back with the last reply. Believe none of it.
    Exchange& exchange() { return *exchange_; }

    /// None: the host has replied (`exchange().reply`). Else the process is no more; the failure's
    /// sentence begins behind the library's name, and `during` says what it was asked for ("while
    /// it was loaded").
    template <class During>
    std::optional<ControllerFailure> ask(HostRequest request, During during) {
        if (reply_comes(request)) {
            return std::nullopt;
        }
        return why_not(during());
    }

    /// What the library has printed: how many bytes, and how they begin.
    struct Printed {
        std::int64_t bytes = 0;
        std::string beginning;
    };
    Printed printed() const;

    pid_t number() const { return process_; }

  private:
    void start();
    bool reply_comes(HostRequest request);
    void follow_to_processor();
    bool wait_longer();
    bool has_ended() const;
    std::int64_t processor_time_ns() const;
    ControllerFailure why_not(const std::string& during);
    void end();

    LibraryPatience patience_;
    Exchange* exchange_ = nullptr;  ///< shared memory
    int output_ = -1;
    pid_t process_ = 0;
    int processor_ = -1;  ///< that it was last told to run on
    std::uint32_t asked_ = 0;
    enum class Hung { no, computing, asleep };
    Hung hung_ = Hung::no;
};

}  // namespace sim
