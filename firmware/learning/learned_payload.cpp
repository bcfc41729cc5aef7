#include "firmware/learning/learned_payload.hpp"

namespace firmware {

namespace {

constexpr std::int32_t highest_permille = 1000;
constexpr std::int32_t lowest_permille = 50;
/// More than the current channel can show.
constexpr std::uint32_t most_mA = 450000;
constexpr std::uint32_t settled_bit = 1U << 16;

constexpr std::uint32_t halves(Permille lower, Permille upper) {
    return (static_cast<std::uint32_t>(lower.count()) & 0xFFFFU) |
           (static_cast<std::uint32_t>(upper.count()) << 16);
}
constexpr Permille lower_half(std::uint32_t word) {
    return Permille{static_cast<std::int32_t>(word & 0xFFFFU)};
}
constexpr Permille upper_half(std::uint32_t word) {
    return Permille{static_cast<std::int32_t>(word >> 16)};
}

bool is_level(Permille value) {
    return value.count() == 0 ||
           (value.count() >= lowest_permille && value.count() <= highest_permille);
}

}  // namespace

Payload payload_of(const Learned& learned) {
    return {halves(learned.level, learned.good),
            halves(learned.weak, learned.sure),
            static_cast<std::uint32_t>(learned.inrush_at_good.count()),
            static_cast<std::uint32_t>(learned.inrush_of_settings.count()),
            static_cast<std::uint32_t>(learned.locked_rotor.count()),
            static_cast<std::uint32_t>(learned.starts) |
                (static_cast<std::uint32_t>(learned.misses) << 8) |
                (learned.settled ? settled_bit : 0U)};
}

bool learned_from(const Payload& payload, Learned& learned) {
    Learned read;
    read.level = lower_half(payload[0]);
    read.good = upper_half(payload[0]);
    read.weak = lower_half(payload[1]);
    read.sure = upper_half(payload[1]);
    const bool levels =
        is_level(read.level) && is_level(read.good) && is_level(read.sure) && is_level(read.weak);
    const bool currents = payload[2] <= most_mA && payload[3] <= most_mA && payload[4] <= most_mA;
    // A level without a motor, or with nothing to fall back on, was never saved.
    const bool has_fallback =
        read.level.count() == 0 || read.good.count() > 0 || read.sure.count() > 0;
    if (!levels || !currents || payload[4] == 0 || !has_fallback || payload[5] >= 2 * settled_bit) {
        return false;
    }
    read.inrush_at_good = MilliAmperes{static_cast<std::int32_t>(payload[2])};
    read.inrush_of_settings = MilliAmperes{static_cast<std::int32_t>(payload[3])};
    read.locked_rotor = MilliAmperes{static_cast<std::int32_t>(payload[4])};
    read.starts = static_cast<std::uint8_t>(payload[5] & 0xFFU);
    read.misses = static_cast<std::uint8_t>((payload[5] >> 8) & 0xFFU);
    read.settled = (payload[5] & settled_bit) != 0;
    learned = read;
    return true;
}

}  // namespace firmware
