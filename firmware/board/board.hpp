// What the controller's main loop needs of the board under it. Another board is another source file
// that fills this in.
#pragma once

#include <cstddef>
#include <cstdint>

#include "firmware/contract/store.hpp"
#include "firmware/settings/settings.hpp"

namespace firmware::board {

/// Both directions of the wire. Once, before anything is sent.
void open_wire();
/// All of it, or the processor stops: the other end is gone.
void receive(void* bytes, std::size_t count);
void send(const void* bytes, std::size_t count);

/// The pages of flash that a programmer fills before the controller begins.
extern "C" const Settings installed_settings;
extern "C" const StorePages installed_store;
/// Fills one of them from the wire. Code cannot: to it they are flash.
void install(const void* place, std::size_t count);

/// A timer that counts down and wraps at 24 bits.
void start_timer();
std::uint32_t timer_counts();
inline constexpr std::uint32_t timer_mask = 0xFFFFFFU;

enum class Stop : std::uint32_t {
    wire_closed,  ///< as the bench ends it
    fault         ///< the processor met an instruction or an address that it cannot carry out
};
[[noreturn]] void stop(Stop why);

/// The stack was painted before the first function was called.
std::uint32_t stack_reserved_bytes();
std::uint32_t stack_used_bytes();

}  // namespace firmware::board
