#include "sim/commands/interrupt.hpp"

#include <signal.h>  // NOLINT(modernize-deprecated-headers): sigaction is POSIX

#include <csignal>

namespace sim {

namespace {

volatile std::sig_atomic_t asked_to_stop = 0;
struct sigaction before_interrupt = {};
struct sigaction before_terminate = {};

extern "C" void remember_and_step_back(int signal_number) {
    asked_to_stop = 1;
    ::sigaction(signal_number, signal_number == SIGINT ? &before_interrupt : &before_terminate,
                nullptr);
}

void take_over(int signal_number, struct sigaction& before) {
    ::sigaction(signal_number, nullptr, &before);
    if (before.sa_handler == SIG_IGN) {
        return;
    }
    struct sigaction action = {};
    action.sa_handler = remember_and_step_back;
    ::sigemptyset(&action.sa_mask);
    action.sa_flags = SA_RESTART;
    ::sigaction(signal_number, &action, nullptr);
}

}  // namespace

InterruptLatch::InterruptLatch() {
    asked_to_stop = 0;
    take_over(SIGINT, before_interrupt);
    take_over(SIGTERM, before_terminate);
}

InterruptLatch::~InterruptLatch() {
    ::sigaction(SIGINT, &before_interrupt, nullptr);
    ::sigaction(SIGTERM, &before_terminate, nullptr);
}

bool InterruptLatch::interrupted() {
    return asked_to_stop != 0;
}

}  // namespace sim
