#include "sim/controllers/library/library_process.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sched.h>
#include <signal.h>  // NOLINT(modernize-deprecated-headers): kill is POSIX
#include <spawn.h>
#include <sys/mman.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <chrono>
#include <cstring>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <new>
#include <stdexcept>
#include <system_error>
#include <utility>

namespace sim {

namespace {

/// Descriptors of ours must not be one of those that the host is given.
constexpr int first_free_descriptor = 10;
constexpr int exchange_descriptor = 3;
constexpr off_t most_printed_bytes = 65536;
constexpr std::size_t most_shown_bytes = 60;

constexpr std::int64_t first_wait_ns = 2'000'000;
constexpr std::int64_t longest_wait_ns = 20'000'000;

[[noreturn]] void fail(const char* what) {
    throw std::runtime_error(
        fmt::format("the process of a controller library cannot be started: {} ({})", what,
                    std::generic_category().message(errno)));
}

/// Memory with a descriptor, which goes with it.
class SharedMemory {
  public:
    SharedMemory(const char* name, off_t bytes, unsigned flags) {
        const int made = ::memfd_create(name, MFD_CLOEXEC | flags);
        descriptor_ = made < 0 ? -1 : ::fcntl(made, F_DUPFD_CLOEXEC, first_free_descriptor);
        if (made >= 0) {
            ::close(made);
        }
        if (descriptor_ < 0 || ::ftruncate(descriptor_, bytes) != 0) {
            fail("no shared memory");
        }
    }
    ~SharedMemory() {
        if (descriptor_ >= 0) {
            ::close(descriptor_);
        }
    }
    SharedMemory(const SharedMemory&) = delete;
    SharedMemory& operator=(const SharedMemory&) = delete;

    int descriptor() const { return descriptor_; }
    int release() { return std::exchange(descriptor_, -1); }

  private:
    int descriptor_ = -1;
};

std::string host_program() {
    return (std::filesystem::read_symlink("/proc/self/exe").parent_path() / "runup_controller_host")
        .string();
}

class SpawnActions {
  public:
    SpawnActions(int exchange, int output) {
        posix_spawn_file_actions_init(&actions_);
        posix_spawn_file_actions_addopen(&actions_, STDIN_FILENO, "/dev/null", O_RDONLY, 0);
        posix_spawn_file_actions_adddup2(&actions_, output, STDOUT_FILENO);
        posix_spawn_file_actions_adddup2(&actions_, exchange, exchange_descriptor);
        posix_spawn_file_actions_addclosefrom_np(&actions_, exchange_descriptor + 1);
    }
    ~SpawnActions() { posix_spawn_file_actions_destroy(&actions_); }
    SpawnActions(const SpawnActions&) = delete;
    SpawnActions& operator=(const SpawnActions&) = delete;
    const posix_spawn_file_actions_t* get() const { return &actions_; }

  private:
    posix_spawn_file_actions_t actions_{};
};

/// A group of its own: an interrupt from the keyboard is for the bench, which then ends its hosts;
/// and whatever the library starts can be ended with it.
class SpawnAttributes {
  public:
    SpawnAttributes() {
        posix_spawnattr_init(&attributes_);
        sigset_t signals;
        sigemptyset(&signals);
        posix_spawnattr_setsigmask(&attributes_, &signals);
        sigfillset(&signals);
        posix_spawnattr_setsigdefault(&attributes_, &signals);
        posix_spawnattr_setpgroup(&attributes_, 0);
        posix_spawnattr_setflags(
            &attributes_, POSIX_SPAWN_SETPGROUP | POSIX_SPAWN_SETSIGMASK | POSIX_SPAWN_SETSIGDEF);
    }
    ~SpawnAttributes() { posix_spawnattr_destroy(&attributes_); }
    SpawnAttributes(const SpawnAttributes&) = delete;
    SpawnAttributes& operator=(const SpawnAttributes&) = delete;
    const posix_spawnattr_t* get() const { return &attributes_; }

  private:
    posix_spawnattr_t attributes_{};
};

std::string signal_words(int number) {
    const char* name = ::sigabbrev_np(number);
    const char* words = ::sigdescr_np(number);
    if (name == nullptr || words == nullptr) {
        return fmt::format("signal {}", number);
    }
    return fmt::format("SIG{} ({})", name, words);
}

/// Stopped by a debugger, or about to be.
bool is_being_debugged(pid_t process) {
    std::ifstream status(fmt::format("/proc/{}/status", process));
    const std::string key = "TracerPid:\t";
    for (std::string line; std::getline(status, line);) {
        if (line.compare(0, key.size(), key) == 0) {
            return line.substr(key.size()) != "0";
        }
    }
    return false;
}

}  // namespace

LibraryProcess::LibraryProcess(const LibraryPatience& patience) : patience_(patience) {
    start();
}

void LibraryProcess::start() {
    const SharedMemory shared("controller exchange", sizeof(Exchange), 0);
    SharedMemory output("controller output", most_printed_bytes, MFD_ALLOW_SEALING);
    // A library that prints without end fills this, and no more.
    ::fcntl(output.descriptor(), F_ADD_SEALS, F_SEAL_GROW | F_SEAL_SHRINK);
    void* memory = ::mmap(nullptr, sizeof(Exchange), PROT_READ | PROT_WRITE, MAP_SHARED,
                          shared.descriptor(), 0);
    if (memory == MAP_FAILED) {
        fail("no shared memory");
    }
    exchange_ = new (memory) Exchange;
    exchange_->bench_process = static_cast<std::uint32_t>(::getpid());

    const std::string program = host_program();
    std::string name = "runup_controller_host";
    const std::array<char*, 2> arguments = {name.data(), nullptr};
    const SpawnActions actions(shared.descriptor(), output.descriptor());
    const SpawnAttributes attributes;
    errno = ::posix_spawn(&process_, program.c_str(), actions.get(), attributes.get(),
                          arguments.data(), environ);
    if (errno != 0) {
        const int error = errno;
        ::munmap(exchange_, sizeof(Exchange));
        process_ = 0;
        errno = error;
        fail(program.c_str());
    }
    output_ = output.release();
}

LibraryProcess::~LibraryProcess() {
    end();
    ::munmap(exchange_, sizeof(Exchange));
    ::close(output_);
}

/// The whole group, while the process that gives it its number is still there to keep it.
void LibraryProcess::end() {
    if (process_ == 0) {
        return;
    }
    ::kill(-process_, SIGKILL);
    while (::waitpid(process_, nullptr, 0) < 0 && errno == EINTR) {
    }
    process_ = 0;
}

bool LibraryProcess::reply_comes(HostRequest request) {
    if (process_ == 0) {
        return false;
    }
    follow_to_processor();
    exchange_->request = request;
    ++asked_;
    raise(exchange_->asked, asked_, exchange_->host_sleeps);
    return wait_for(exchange_->answered, asked_, exchange_->bench_sleeps, first_wait_ns) ||
           wait_longer();
}

/// The two take turns, so they are quickest on one processor: there a change of turns costs no
/// wake-up of another one.
void LibraryProcess::follow_to_processor() {
    const int here = ::sched_getcpu();
    if (here == processor_ || here < 0) {
        return;
    }
    processor_ = here;
    cpu_set_t only;
    CPU_ZERO(&only);
    CPU_SET(static_cast<unsigned>(here), &only);
    // Where it is not allowed, it is only slower.
    ::sched_setaffinity(process_, sizeof only, &only);
}

/// Off the beaten track: the reply is late.
bool LibraryProcess::wait_longer() {
    using Clock = std::chrono::steady_clock;
    auto began = Clock::now();
    std::int64_t used_before_ns = processor_time_ns();
    std::int64_t wait_ns = first_wait_ns;
    while (true) {
        const bool ended = has_ended();
        if (wait_for(exchange_->answered, asked_, exchange_->bench_sleeps, ended ? 0 : wait_ns)) {
            return true;
        }
        if (ended) {
            return false;
        }
        wait_ns = std::min(2 * wait_ns, longest_wait_ns);
        const std::int64_t used_ns = processor_time_ns() - used_before_ns;
        const std::chrono::nanoseconds waited = Clock::now() - began;
        if (used_ns < patience_.processor_ns && waited.count() < patience_.wall_ns) {
            continue;
        }
        if (!is_being_debugged(process_)) {
            hung_ = used_ns < patience_.processor_ns ? Hung::asleep : Hung::computing;
            return false;
        }
        began = Clock::now();
        used_before_ns = processor_time_ns();
    }
}

bool LibraryProcess::has_ended() const {
    siginfo_t state = {};
    return ::waitid(P_PID, static_cast<id_t>(process_), &state, WEXITED | WNOHANG | WNOWAIT) == 0 &&
           state.si_pid == process_;
}

/// 0 if it has ended meanwhile.
std::int64_t LibraryProcess::processor_time_ns() const {
    clockid_t clock{};
    timespec used{};
    if (::clock_getcpuclockid(process_, &clock) != 0 || ::clock_gettime(clock, &used) != 0) {
        return 0;
    }
    return std::int64_t{1'000'000'000} * used.tv_sec + used.tv_nsec;
}

ControllerFailure LibraryProcess::why_not(const std::string& during) {
    if (process_ == 0) {
        return {"crashed", "was asked again after it had ended"};
    }
    siginfo_t state = {};
    if (hung_ == Hung::no) {
        ::waitid(P_PID, static_cast<id_t>(process_), &state, WEXITED | WNOWAIT);
    }
    end();
    if (hung_ != Hung::no) {
        const bool computes = hung_ == Hung::computing;
        const std::int64_t limit_ns = computes ? patience_.processor_ns : patience_.wall_ns;
        return {"hung",
                fmt::format("hung {}: it has {} for {:g} s", during,
                            computes ? "computed" : "slept", 1e-9 * static_cast<double>(limit_ns))};
    }
    if (state.si_code == CLD_EXITED) {
        return {"ended_itself",
                fmt::format("ended its process with exit code {} {}", state.si_status, during)};
    }
    return {"crashed", fmt::format("crashed with {} {}", signal_words(state.si_status), during)};
}

LibraryProcess::Printed LibraryProcess::printed() const {
    Printed printed;
    // The position is one for both processes.
    printed.bytes = std::max<off_t>(::lseek(output_, 0, SEEK_CUR), 0);
    printed.beginning.resize(std::min(static_cast<std::size_t>(printed.bytes), most_shown_bytes));
    const ssize_t got = ::pread(output_, printed.beginning.data(), printed.beginning.size(), 0);
    printed.beginning.resize(static_cast<std::size_t>(std::max<ssize_t>(got, 0)));
    printed.beginning.resize(std::min(printed.beginning.find('\n'), printed.beginning.size()));
    return printed;
}

}  // namespace sim
