// The process that a controller library runs in: it carries out one request after another of the
// bench that started it, and ends when it is told to or when the bench is gone.
//
// Descriptor 3 is the memory shared with the bench; everything else the bench has closed.
#include <pthread.h>
#include <signal.h>  // NOLINT(modernize-deprecated-headers): sigfillset is POSIX
#include <sys/mman.h>
#include <sys/resource.h>
#include <unistd.h>

#include <cstdio>
#include <ctime>
#include <exception>

#include "sim/controller_host/loaded_library.hpp"

#if defined(__SANITIZE_ADDRESS__)
// Signals of the library are for the bench to see, and its leaks are nobody's business here.
// NOLINTNEXTLINE(bugprone-reserved-identifier): the name that the sanitizer looks for
extern "C" const char* __asan_default_options() {
    return "handle_segv=0:handle_sigbus=0:handle_abort=0:handle_sigfpe=0:handle_sigill=0:"
           "detect_leaks=0:allow_user_segv_handler=1";
}
#endif

namespace {

constexpr int exchange_descriptor = 3;
constexpr std::int64_t idle_ns = 500'000'000;
#if !defined(__SANITIZE_ADDRESS__)
constexpr rlim_t most_memory_bytes = rlim_t{1} << 30U;
#endif

/// A library that computes for ever must not outlive a bench that was killed.
void* end_without_bench(void* bench_process) {
    const auto bench = static_cast<pid_t>(*static_cast<std::uint32_t*>(bench_process));
    const timespec idle = {0, idle_ns};
    while (::getppid() == bench) {
        ::nanosleep(&idle, nullptr);
    }
    ::_exit(0);
}

void start_watch(std::uint32_t& bench_process) {
    // The library's signals are not for this thread.
    sigset_t all;
    sigset_t before;
    sigfillset(&all);
    ::pthread_sigmask(SIG_SETMASK, &all, &before);
    pthread_t watch{};
    if (::pthread_create(&watch, nullptr, end_without_bench, &bench_process) == 0) {
        ::pthread_detach(watch);
    }
    ::pthread_sigmask(SIG_SETMASK, &before, nullptr);
}

void set_limits() {
    const rlimit no_core = {0, 0};
    ::setrlimit(RLIMIT_CORE, &no_core);
#if !defined(__SANITIZE_ADDRESS__)
    const rlimit memory = {most_memory_bytes, most_memory_bytes};
    ::setrlimit(RLIMIT_DATA, &memory);
#endif
}

sim::HostReply carry_out(sim::LoadedLibrary& library, sim::Exchange& exchange) {
    try {
        return library.carry_out(exchange.request);
    } catch (const std::exception& error) {
        sim::put_text(exchange.words, error.what());
    } catch (...) {
        exchange.words[0] = '\0';
    }
    return sim::HostReply::threw;
}

}  // namespace

int main() {
    void* shared = ::mmap(nullptr, sizeof(sim::Exchange), PROT_READ | PROT_WRITE, MAP_SHARED,
                          exchange_descriptor, 0);
    if (shared == MAP_FAILED) {
        std::fputs("runup starts this by itself, for scenarios with kind = \"library\"\n", stderr);
        return 2;
    }
    ::close(exchange_descriptor);
    auto& exchange = *static_cast<sim::Exchange*>(shared);
    static std::uint32_t bench_process = exchange.bench_process;
    start_watch(bench_process);
    set_limits();
    // What the library prints is seen line by line even if it crashes afterwards.
    std::setvbuf(stdout, nullptr, _IOLBF, BUFSIZ);

    sim::LoadedLibrary library(exchange);
    std::uint32_t next = 1;
    for (bool goes_on = true; goes_on; ++next) {
        while (!sim::wait_for(exchange.asked, next, exchange.host_sleeps, idle_ns)) {
        }
        goes_on = exchange.request != sim::HostRequest::destroy;
        exchange.reply = carry_out(library, exchange);
        sim::raise(exchange.answered, next, exchange.bench_sleeps);
    }
    ::_exit(0);
}
