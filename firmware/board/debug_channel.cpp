// The board in an emulator, or at a debug probe: the wire is the debug channel that ARM documents
// as semihosting (BKPT 0xAB with an operation in r0 and its arguments at r1; "Semihosting for
// AArch32 and AArch64", operations by number below). Whole messages cross in one stop of the
// processor, and while it is stopped no time passes for it.
#include <cstddef>
#include <cstdint>

#include "firmware/board/board.hpp"

namespace firmware::board {

namespace {

enum class Operation : std::uint32_t {
    open = 0x01,
    write = 0x05,
    read = 0x06,
    exit = 0x18,
};

// Modes of `open`, as of fopen: "rb" and "wb".
constexpr std::uint32_t reading = 1;
constexpr std::uint32_t writing = 5;

// Reasons of `exit`.
constexpr std::uint32_t ended_well = 0x20026;
constexpr std::uint32_t ended_by_error = 0x20023;

std::uint32_t from_bench;
std::uint32_t to_bench;

std::uint32_t ask(Operation operation, std::uint32_t argument) {
    register std::uint32_t r0 asm("r0") = static_cast<std::uint32_t>(operation);
    register std::uint32_t r1 asm("r1") = argument;
    asm volatile("bkpt 0xAB" : "+r"(r0) : "r"(r1) : "memory");
    return r0;
}

std::uint32_t address_of(const void* place) {
    return reinterpret_cast<std::uintptr_t>(place);
}

std::uint32_t open(const char* path, std::uint32_t length, std::uint32_t mode) {
    const std::uint32_t arguments[] = {address_of(path), mode, length};
    return ask(Operation::open, address_of(arguments));
}

/// Reads or writes may come in parts; what is left of them is what the operation returns. None of
/// what was asked for means that the other end is gone.
void move_all(Operation operation, std::uint32_t wire, std::uint32_t place, std::uint32_t count) {
    while (count > 0) {
        const std::uint32_t arguments[] = {wire, place, count};
        const std::uint32_t left = ask(operation, address_of(arguments));
        if (left >= count) {
            stop(Stop::wire_closed);
        }
        place += count - left;
        count = left;
    }
}

// The architecture's own timer (SysTick), the same on every Cortex-M.
volatile std::uint32_t& timer_control = *reinterpret_cast<volatile std::uint32_t*>(0xE000E010U);
volatile std::uint32_t& timer_reload = *reinterpret_cast<volatile std::uint32_t*>(0xE000E014U);
volatile std::uint32_t& timer_value = *reinterpret_cast<volatile std::uint32_t*>(0xE000E018U);
constexpr std::uint32_t enabled_at_processor_clock = 5;

}  // namespace

void open_wire() {
    from_bench = open("/dev/stdin", 10, reading);
    to_bench = open("/dev/stdout", 11, writing);
}

void receive(void* bytes, std::size_t count) {
    move_all(Operation::read, from_bench, address_of(bytes), count);
}

void send(const void* bytes, std::size_t count) {
    move_all(Operation::write, to_bench, address_of(bytes), count);
}

void install(const void* place, std::size_t count) {
    move_all(Operation::read, from_bench, address_of(place), count);
}

void start_timer() {
    timer_reload = timer_mask;
    timer_value = 0;
    timer_control = enabled_at_processor_clock;
}

std::uint32_t timer_counts() {
    return timer_value;
}

void stop(Stop why) {
    for (;;) {
        ask(Operation::exit, why == Stop::fault ? ended_by_error : ended_well);
    }
}

}  // namespace firmware::board
