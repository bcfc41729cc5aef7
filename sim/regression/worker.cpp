#include "sim/regression/worker.hpp"

#include <fcntl.h>
#include <signal.h>  // NOLINT(modernize-deprecated-headers): sigaction is POSIX
#include <sys/prctl.h>
#include <unistd.h>

#include <cerrno>
#include <cstdlib>
#include <string>

#include "sim/regression/case_message.hpp"

namespace sim {

namespace {

void set_signals() {
    for (const int deaf_to : {SIGINT, SIGTERM, SIGHUP, SIGPIPE}) {
        ::signal(deaf_to, SIG_IGN);
    }
    // Whoever embeds this may catch these; here they must end the process, so that it is seen.
    for (const int deadly : {SIGSEGV, SIGBUS, SIGILL, SIGFPE, SIGABRT, SIGCHLD}) {
        ::signal(deadly, SIG_DFL);
    }
}

/// Foreign code may print; that must not get between the campaign's own words.
void silence() {
    const int nowhere = ::open("/dev/null", O_RDWR | O_CLOEXEC);
    if (nowhere >= 0) {
        for (const int stream : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO}) {
            ::dup2(nowhere, stream);
        }
    }
}

bool tell(int told, const CaseMessage& message) {
    const std::string bytes = packed(message);
    return write_whole(told, bytes.data(), bytes.size());
}

}  // namespace

bool read_whole(int descriptor, void* bytes, std::size_t count) {
    auto* next = static_cast<char*>(bytes);
    while (count > 0) {
        const ssize_t got = ::read(descriptor, next, count);
        if (got == 0 || (got < 0 && errno != EINTR)) {
            return false;
        }
        if (got > 0) {
            next += got;
            count -= static_cast<std::size_t>(got);
        }
    }
    return true;
}

bool write_whole(int descriptor, const void* bytes, std::size_t count) {
    const auto* next = static_cast<const char*>(bytes);
    while (count > 0) {
        const ssize_t put = ::write(descriptor, next, count);
        if (put < 0 && errno != EINTR) {
            return false;
        }
        if (put > 0) {
            next += put;
            count -= static_cast<std::size_t>(put);
        }
    }
    return true;
}

void work(const Suite& suite, int asked, int told, int parent_process) {
    ::prctl(PR_SET_PDEATHSIG, SIGKILL);
    if (::getppid() != parent_process) {
        ::_exit(EXIT_SUCCESS);
    }
    set_signals();
    silence();
    std::int64_t id = 0;
    bool goes_on = true;
    while (goes_on && read_whole(asked, &id, sizeof id)) {
        bool is_used_up = false;
        CaseMessage ended;
        ended.has_ended = true;
        ended.begun.record = run_case(suite, id, [&](const BegunCase& begun) {
            is_used_up = begun.holds_foreign_code;
            goes_on = tell(told, {false, begun});
        });
        goes_on = goes_on && tell(told, ended) && !is_used_up;
    }
    ::_exit(EXIT_SUCCESS);
}

}  // namespace sim
