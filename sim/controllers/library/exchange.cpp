#include "sim/controllers/library/exchange.hpp"

#include <linux/futex.h>
#include <sys/syscall.h>
#include <unistd.h>

#include <ctime>

namespace sim {

namespace {

constexpr long ns_per_s = 1'000'000'000;

/// The kernel's sleep on a number in shared memory; there is no function for it in the C library.
long futex(const std::atomic<std::uint32_t>& number, int operation, std::uint32_t value,
           const timespec* most) {
    return ::syscall(SYS_futex, &number, operation, value, most, nullptr, 0);
}

}  // namespace

void raise(std::atomic<std::uint32_t>& number, std::uint32_t value,
           const std::atomic<std::uint32_t>& sleeps) {
    number.store(value);
    if (sleeps.load() != 0) {
        futex(number, FUTEX_WAKE, 1, nullptr);
    }
}

bool wait_for(const std::atomic<std::uint32_t>& number, std::uint32_t value,
              std::atomic<std::uint32_t>& sleeps, std::int64_t most_ns) {
    sleeps.store(1);
    const std::uint32_t seen = number.load();
    if (seen != value) {
        const timespec most = {static_cast<time_t>(most_ns / ns_per_s),
                               static_cast<long>(most_ns % ns_per_s)};
        futex(number, FUTEX_WAIT, seen, &most);
    }
    sleeps.store(0);
    return number.load(std::memory_order_acquire) == value;
}

}  // namespace sim
