// The mark that survives a power cut: the motor has been fed, and its rest is not known to be over.
//
// It is written before a start feeds the motor, with the tries made so far, and taken away when the
// rest is over and nobody calls. A controller that finds it at power-up rests in full first: it
// cannot know how long it was without power. The mark can only ask for more rest than the settings,
// never for less, and never for another limit.
//
// In the record it is the upper byte of the payload's word 4, a current that never reaches there.
#pragma once

#include <cstddef>
#include <cstdint>

#include "firmware/memory/record.hpp"

namespace firmware {

struct RestMark {
    bool owed = false;
    std::uint8_t tries_made = 0;  ///< 0 to 31; meaningful while owed

    friend constexpr bool operator==(const RestMark& a, const RestMark& b) {
        return a.owed == b.owed && a.tries_made == b.tries_made;
    }
};

namespace rest_mark_bits {
constexpr std::size_t word = 4;
constexpr std::uint32_t owed = 1U << 31;
constexpr std::uint32_t tries_shift = 24;
constexpr std::uint32_t tries_mask = 0x1FU;
constexpr std::uint32_t all = 0xFF000000U;
}  // namespace rest_mark_bits

constexpr Payload without_rest_mark(Payload payload) {
    payload[rest_mark_bits::word] &= ~rest_mark_bits::all;
    return payload;
}

constexpr Payload with_rest_mark(const Payload& payload, const RestMark& mark) {
    Payload marked = without_rest_mark(payload);
    if (mark.owed) {
        marked[rest_mark_bits::word] |=
            rest_mark_bits::owed |
            ((mark.tries_made & rest_mark_bits::tries_mask) << rest_mark_bits::tries_shift);
    }
    return marked;
}

constexpr RestMark rest_mark_of(const Payload& payload) {
    const std::uint32_t last = payload[rest_mark_bits::word];
    if ((last & rest_mark_bits::owed) == 0) {
        return {};
    }
    return {true, static_cast<std::uint8_t>((last >> rest_mark_bits::tries_shift) &
                                            rest_mark_bits::tries_mask)};
}

}  // namespace firmware
