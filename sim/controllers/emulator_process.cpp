#include "sim/controllers/emulator_process.hpp"

#include <fcntl.h>
#include <poll.h>
#include <signal.h>  // NOLINT(modernize-deprecated-headers): kill is not in <csignal>
#include <sys/mman.h>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <system_error>
#include <thread>

namespace sim {

namespace {

constexpr int image_descriptor = 3;
constexpr int cannot_start = 127;

[[noreturn]] void fail_with_errno(const char* what) {
    throw std::system_error(errno, std::generic_category(), what);
}

struct Pipe {
    int reading = -1;
    int writing = -1;
};

Pipe make_pipe() {
    std::array<int, 2> ends{};
    // Of programs started by others at the same time, none shall hold our ends open.
    if (pipe2(ends.data(), O_CLOEXEC) != 0) {
        fail_with_errno("pipe");
    }
    return {ends[0], ends[1]};
}

void close_if_open(int& descriptor) {
    if (descriptor >= 0) {
        close(descriptor);
        descriptor = -1;
    }
}

int file_in_memory(const std::string& content) {
    const int file = memfd_create("controller", MFD_CLOEXEC);
    if (file < 0) {
        fail_with_errno("memfd_create");
    }
    std::size_t written = 0;
    while (written < content.size()) {
        const ssize_t part = write(file, content.data() + written, content.size() - written);
        if (part < 0) {
            close(file);
            fail_with_errno("write");
        }
        written += static_cast<std::size_t>(part);
    }
    return file;
}

/// In the child, between fork and exec: nothing here may allocate or lock.
[[noreturn]] void become(char* const* arguments, const std::array<int, 4>& descriptors,
                         pid_t parent) {
    prctl(PR_SET_PDEATHSIG, SIGKILL);
    if (getppid() != parent) {
        _exit(cannot_start);
    }
    // A Ctrl-C at the terminal is ours to answer.
    setpgid(0, 0);
    // Moved out of the way first: one may stand where another is to go.
    std::array<int, 4> moved{};
    for (std::size_t k = 0; k < descriptors.size(); ++k) {
        moved[k] = fcntl(descriptors[k], F_DUPFD_CLOEXEC, 16);
    }
    for (std::size_t k = 0; k < moved.size(); ++k) {
        if (dup2(moved[k], static_cast<int>(k)) < 0) {
            _exit(cannot_start);
        }
    }
    execvp(arguments[0], arguments);
    _exit(cannot_start);
}

std::string words_for(int status) {
    if (WIFSIGNALED(status)) {
        return "was killed by signal " + std::to_string(WTERMSIG(status));
    }
    return "ended with code " + std::to_string(WEXITSTATUS(status));
}

/// Leaves it to be waited for.
bool ends_within(pid_t process, std::chrono::milliseconds patience) {
    const auto until = std::chrono::steady_clock::now() + patience;
    for (;;) {
        siginfo_t ended{};
        if (waitid(P_PID, static_cast<id_t>(process), &ended, WEXITED | WNOHANG | WNOWAIT) == 0 &&
            ended.si_pid == process) {
            return true;
        }
        if (std::chrono::steady_clock::now() > until) {
            return false;
        }
        std::this_thread::sleep_for(std::chrono::milliseconds(1));
    }
}

}  // namespace

bool can_be_started(const std::string& program) {
    if (program.find('/') != std::string::npos) {
        return access(program.c_str(), X_OK) == 0;
    }
    const char* path = std::getenv("PATH");  // NOLINT(concurrency-mt-unsafe): nobody writes it
    std::string folders = path != nullptr ? path : "/usr/bin:/bin";
    folders += ':';
    for (std::size_t begin = 0; begin < folders.size();) {
        const std::size_t end = folders.find(':', begin);
        const std::string file = folders.substr(begin, end - begin) + "/" + program;
        if (access(file.c_str(), X_OK) == 0) {
            return true;
        }
        begin = end + 1;
    }
    return false;
}

std::string EmulatorProcess::image_path() {
    return "/proc/self/fd/" + std::to_string(image_descriptor);
}

EmulatorProcess::EmulatorProcess(const std::vector<std::string>& command,
                                 const std::string& image) {
    std::vector<std::string> words = command;
    std::vector<char*> arguments;
    arguments.reserve(words.size() + 1);
    for (std::string& word : words) {
        arguments.push_back(word.data());
    }
    arguments.push_back(nullptr);
    int file = file_in_memory(image);
    const Pipe requests = make_pipe();
    const Pipe answers = make_pipe();
    const Pipe complaints = make_pipe();
    to_process_ = requests.writing;
    requests_ = requests.reading;
    from_process_ = answers.reading;
    complaints_ = complaints.reading;
    fcntl(complaints_, F_SETFL, O_NONBLOCK);
    const pid_t parent = getpid();
    process_ = fork();
    if (process_ == 0) {
        become(arguments.data(), {requests.reading, answers.writing, complaints.writing, file},
               parent);
    }
    const int fork_error = errno;
    close(answers.writing);
    close(complaints.writing);
    close_if_open(file);
    if (process_ < 0) {
        end();
        errno = fork_error;
        fail_with_errno("fork");
    }
}

EmulatorProcess::~EmulatorProcess() {
    end();
}

EmulatorProcess::Delivery EmulatorProcess::send(const void* bytes, std::size_t count) {
    const auto* left = static_cast<const char*>(bytes);
    while (count > 0) {
        const ssize_t part = write(to_process_, left, count);
        if (part < 0 && errno == EINTR) {
            continue;
        }
        if (part <= 0) {
            return Delivery::ended;
        }
        left += part;
        count -= static_cast<std::size_t>(part);
    }
    return Delivery::whole;
}

EmulatorProcess::Delivery EmulatorProcess::receive(void* bytes, std::size_t count,
                                                   std::chrono::milliseconds patience) {
    auto* left = static_cast<char*>(bytes);
    while (count > 0) {
        pollfd waiting{from_process_, POLLIN, 0};
        const int ready = poll(&waiting, 1, static_cast<int>(patience.count()));
        if (ready < 0 && errno == EINTR) {
            continue;
        }
        if (ready == 0) {
            return Delivery::silent;
        }
        const ssize_t part = ready < 0 ? -1 : read(from_process_, left, count);
        if (part < 0 && errno == EINTR) {
            continue;
        }
        if (part <= 0) {
            hung_up_ = true;
            return Delivery::ended;
        }
        left += part;
        count -= static_cast<std::size_t>(part);
    }
    return Delivery::whole;
}

std::string EmulatorProcess::last_words() const {
    std::string said(4096, '\0');
    const ssize_t count = complaints_ >= 0 ? read(complaints_, said.data(), said.size()) : 0;
    said.resize(count > 0 ? static_cast<std::size_t>(count) : 0);
    // The first line names the fault; what follows are registers.
    said.resize(std::min(said.find('\n'), said.size()));
    while (!said.empty() && (said.back() == '.' || said.back() == '\r')) {
        said.pop_back();
    }
    return said;
}

std::string EmulatorProcess::end() {
    if (process_ > 0) {
        close_if_open(to_process_);
        close_if_open(from_process_);
        // One that has closed its end is about to end by itself, and how it does is worth knowing.
        if (!(hung_up_ && ends_within(process_, std::chrono::seconds(5)))) {
            kill(process_, SIGKILL);
        }
        int status = 0;
        while (waitpid(process_, &status, 0) < 0 && errno == EINTR) {
        }
        process_ = -1;
        how_ended_ = words_for(status);
        const std::string words = last_words();
        if (!words.empty()) {
            how_ended_ += ": " + words;
        }
    }
    close_if_open(to_process_);
    close_if_open(requests_);
    close_if_open(from_process_);
    close_if_open(complaints_);
    return how_ended_;
}

}  // namespace sim
