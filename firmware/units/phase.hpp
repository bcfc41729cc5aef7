// Phase of the line voltage: an angle that wraps by itself.
//
// One full turn is 2^32 counts, so unsigned overflow is the wrap and no phase is out of range. Zero
// is the rising zero crossing of the line's fundamental at L1; half a turn is the falling one.
// A `PhaseStep` is the advance per tick. `HalfTurn` is an angle counted from the latest voltage
// zero (0 to 2^31), in which firing angles live: both half cycles look alike there.
#pragma once

#include <cstdint>

#include "firmware/arithmetic/wrapping.hpp"
#include "firmware/units/units.hpp"

namespace firmware {

using PhaseStep = Quantity<struct PhaseStepTag, std::uint32_t>;  ///< per tick, 2^32 = full turn
using HalfTurn = Quantity<struct HalfTurnTag, std::uint32_t>;    ///< 2^31 = half a turn

class Phase {
  public:
    constexpr Phase() = default;
    explicit constexpr Phase(std::uint32_t count) : count_(count) {}

    constexpr std::uint32_t count() const { return count_; }

    /// False in the half cycle that begins with the rising zero, true in the other one.
    constexpr bool second_half() const { return (count_ >> 31) != 0; }

    /// Angle since the latest voltage zero.
    constexpr HalfTurn since_zero() const { return HalfTurn{count_ & 0x7FFFFFFFU}; }

    constexpr Phase advanced(PhaseStep step) const {
        return Phase{wrapping_sum(count_, step.count())};
    }

    /// Signed distance `this - other` by the short way round, in counts.
    constexpr std::int32_t ahead_of(Phase other) const {
        return static_cast<std::int32_t>(wrapping_difference(count_, other.count_));
    }

  private:
    std::uint32_t count_ = 0;
};

/// 0 to 180,000 millidegrees; exact to a millionth of a degree.
constexpr HalfTurn half_turn_from(MilliDegrees angle) {
    return HalfTurn{
        static_cast<std::uint32_t>((static_cast<std::uint64_t>(angle.count()) << 32) / 360000U)};
}

constexpr MilliDegrees milli_degrees_from(HalfTurn angle) {
    const std::uint64_t scaled = static_cast<std::uint64_t>(angle.count()) * 360000U;
    return MilliDegrees{static_cast<std::int32_t>((scaled + (1ULL << 31)) >> 32)};
}

/// Frequency to advance per tick, and back.
constexpr PhaseStep phase_step_from(MilliHertz frequency) {
    constexpr std::uint64_t millihertz_per_turn_per_tick = 1000ULL * ticks_per_second;
    return PhaseStep{static_cast<std::uint32_t>(
        (static_cast<std::uint64_t>(frequency.count()) << 32) / millihertz_per_turn_per_tick)};
}

constexpr MilliHertz frequency_from(PhaseStep step) {
    const std::uint64_t scaled = static_cast<std::uint64_t>(step.count()) * 1000U *
                                 static_cast<std::uint64_t>(ticks_per_second);
    return MilliHertz{static_cast<std::int32_t>((scaled + (1ULL << 31)) >> 32)};
}

}  // namespace firmware
