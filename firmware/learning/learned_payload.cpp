#include "firmware/learning/learned_payload.hpp"

#include "firmware/memory/rest_mark.hpp"
#include "firmware/settings/settings.hpp"

namespace firmware {

namespace {

/// More than the current channel can show.
constexpr std::uint32_t most_mA = 450000;
constexpr std::uint32_t settled_bit = 1U << 16;
constexpr unsigned stage_shift = 17;
constexpr std::uint32_t stage_mask = Settings::most_stages - 1;
static_assert(Settings::most_stages == 8, "three bits are kept for a stage");
/// Above the current at the good level: the last word's upper byte is the rest mark's.
constexpr unsigned strong_shift = 20;
constexpr std::uint32_t current_mask = (1U << strong_shift) - 1;
static_assert(most_mA <= current_mask, "twenty bits are kept for a current");
static_assert(highest_level.count() < 1 << (32 - strong_shift), "twelve bits are kept for a level");
static_assert((rest_mark_bits::all & (settled_bit | (stage_mask << stage_shift) | 0xFFFFU)) == 0,
              "what is learned leaves the rest mark's bits at 0");

constexpr std::uint32_t halves(std::int32_t lower, std::int32_t upper) {
    return (static_cast<std::uint32_t>(lower) & 0xFFFFU) |
           (static_cast<std::uint32_t>(upper) << 16);
}
constexpr std::int32_t lower_half(std::uint32_t word) {
    return static_cast<std::int32_t>(word & 0xFFFFU);
}
constexpr std::int32_t upper_half(std::uint32_t word) {
    return static_cast<std::int32_t>(word >> 16);
}
constexpr MilliAmperes current(std::uint32_t word) {
    return MilliAmperes{static_cast<std::int32_t>(word)};
}

bool is_level(Permille value) {
    return value >= lowest_level && value <= highest_level;
}

bool is_level_or_none(Permille value) {
    return value.count() == 0 || is_level(value);
}

}  // namespace

Payload payload_of(const Learned& learned) {
    return {halves(learned.level.count(), learned.good.count()),
            halves(learned.weak.count(), learned.climb_ms_at_good),
            static_cast<std::uint32_t>(learned.inrush_at_good.count()) |
                (static_cast<std::uint32_t>(learned.strong.count()) << strong_shift),
            static_cast<std::uint32_t>(learned.peak_at_good.count()),
            static_cast<std::uint32_t>(learned.locked_rotor.count()),
            static_cast<std::uint32_t>(learned.starts) |
                (static_cast<std::uint32_t>(learned.misses) << 8) |
                (learned.settled ? settled_bit : 0U) |
                (static_cast<std::uint32_t>(learned.stage_at_good) << stage_shift)};
}

bool learned_from(const Payload& payload, Learned& learned) {
    Learned read;
    read.level = Permille{lower_half(payload[0])};
    read.good = Permille{upper_half(payload[0])};
    read.weak = Permille{lower_half(payload[1])};
    read.climb_ms_at_good = upper_half(payload[1]);
    read.strong = Permille{static_cast<std::int32_t>(payload[2] >> strong_shift)};
    const bool levels = is_level(read.level) && is_level_or_none(read.good) &&
                        is_level_or_none(read.weak) && is_level_or_none(read.strong);
    const std::uint32_t inrush = payload[2] & current_mask;
    const bool currents = inrush <= most_mA && payload[3] <= most_mA && payload[4] <= most_mA;
    if (!levels || !currents || payload[4] == 0) {
        return false;
    }
    read.inrush_at_good = current(inrush);
    read.peak_at_good = current(payload[3]);
    read.locked_rotor = current(payload[4]);
    read.starts = static_cast<std::uint8_t>(payload[5] & 0xFFU);
    read.misses = static_cast<std::uint8_t>((payload[5] >> 8) & 0xFFU);
    read.settled = (payload[5] & settled_bit) != 0;
    read.stage_at_good = static_cast<std::uint8_t>((payload[5] >> stage_shift) & stage_mask);
    learned = read;
    return true;
}

}  // namespace firmware
