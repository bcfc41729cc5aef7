// From reset to the main loop, and what a fault ends in.
//
// Freestanding: nothing has run before, so statics are set here. No interrupt is used; whoever adds
// one adds its stack to the bound (scripts/check_image counts one exception's frame).
#include <cstdint>

#include "firmware/board/board.hpp"

extern "C" {

// By the linker script, processor.ld.
extern std::uint32_t data_in_flash[];
extern std::uint32_t data_begin[];
extern std::uint32_t data_end[];
extern std::uint32_t zeroed_begin[];
extern std::uint32_t zeroed_end[];
extern std::uint32_t stack_limit[];
extern std::uint32_t stack_top[];

[[noreturn]] void run_controller();
[[noreturn]] void reset_handler();
[[noreturn]] void fault_handler();
}

namespace {

constexpr std::uint32_t paint = 0xA5A5A5A5U;

using Handler = void (*)();

/// As the processor reads it: the stack, then the handlers in the architecture's order.
struct VectorTable {
    std::uint32_t* stack;
    Handler reset;
    Handler exceptions[14];  ///< none but faults is enabled
};

std::uint32_t bytes_between(const std::uint32_t* from, const std::uint32_t* to) {
    return static_cast<std::uint32_t>(to - from) * static_cast<std::uint32_t>(sizeof *from);
}

}  // namespace

[[gnu::section(".vectors"), gnu::used]] extern const VectorTable vectors = {
    stack_top,
    reset_handler,
    {fault_handler, fault_handler, fault_handler, fault_handler, fault_handler, fault_handler,
     fault_handler, fault_handler, fault_handler, fault_handler, fault_handler, fault_handler,
     fault_handler, fault_handler}};

void reset_handler() {
    // Only registers so far: the whole stack is free to be painted. The compiler is kept from
    // making calls of these loops.
    for (volatile std::uint32_t* word = stack_limit; word != stack_top; ++word) {
        *word = paint;
    }
    const std::uint32_t* from = data_in_flash;
    for (volatile std::uint32_t* word = data_begin; word != data_end; ++word) {
        *word = *from++;
    }
    for (volatile std::uint32_t* word = zeroed_begin; word != zeroed_end; ++word) {
        *word = 0;
    }
    run_controller();
}

void fault_handler() {
    firmware::board::stop(firmware::board::Stop::fault);
}

namespace firmware::board {

std::uint32_t stack_reserved_bytes() {
    return bytes_between(stack_limit, stack_top);
}

std::uint32_t stack_used_bytes() {
    const volatile std::uint32_t* word = stack_limit;
    while (word != stack_top && *word == paint) {
        ++word;
    }
    return bytes_between(const_cast<const std::uint32_t*>(word), stack_top);
}

}  // namespace firmware::board
