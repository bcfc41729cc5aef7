// Follows the phase and frequency of a single-phase line.
//
// A phase-locked loop: the quadrature generator gives the line's fundamental (V sin p, -V cos p);
// turned back by the tracked phase p^ its cross part is
//
//     sin(p - p^) = (V sin p cos p^ + (-V cos p)(-1)(-sin p^)) / V
//
// and a proportional-integral law moves phase and frequency by it. The division by V is a
// multiplication with a reciprocal that is refreshed every 32 ticks. While there is no lock, the
// phase is set at those refreshes straight from the vector's direction, so a start never hangs at
// half a turn. Range 42 to 68 Hz; it starts at 55 Hz.
//
// With the lock, samples that are missing (under 0.3 of what is expected of them) are not followed:
// the loop runs on like a flywheel for 4.5 ms after the last of them. A notch or a lost cycle thus
// leaves phase and frequency alone. A flywheel that runs for 70 ms without a break means that the
// line is gone or another one: the lock is given up and the search begins anew, from the last
// frequency. So it is when the tracked phase stays 16 degrees off for 19 ms, or when the samples
// are not missing but of the wrong sign for a half cycle. A line below about 30 V RMS is no line.
#pragma once

#include <cstdint>

#include "firmware/measurement/quadrature_generator.hpp"
#include "firmware/units/phase.hpp"
#include "firmware/units/stopwatch.hpp"

namespace firmware {

class LineTracker {
  public:
    LineTracker();

    /// Takes the sample of this tick: -2048 to 2047 counts.
    void step(std::int32_t line_voltage_counts);

    /// At the instant of the sample last taken.
    Phase phase() const { return phase_; }
    PhaseStep phase_step() const;
    MilliHertz frequency() const { return frequency_from(phase_step()); }

    bool locked() const { return locked_; }

    /// True in the one tick in which the tracked phase passed a voltage zero.
    bool half_cycle_began() const { return half_cycle_began_; }

    /// True in the one tick before it that leaves time to work out the readings by then; when the
    /// zero comes unforeseen, in that tick itself.
    bool half_cycle_ends() const { return half_cycle_ends_; }
    /// From that tick on, up to the zero.
    bool half_cycle_ending() const { return half_cycle_ending_; }

  private:
    friend class Watch;

    void refresh_size();
    bool coasts(std::int32_t sample_without_offset, std::int32_t tracked_sine);
    void follow(std::int32_t tracked_sine);
    void correct(std::int32_t error);
    void lose();
    void judge_half_cycle();
    void mark_half_cycles();

    QuadratureGenerator generator_;
    Phase phase_;
    std::int64_t fine_step_;             // per tick, with 8 more bits than a PhaseStep
    std::uint32_t reciprocal_size_ = 0;  // 2^31 over the size in counts * 8; 0: no line
    std::uint32_t ticks_to_refresh_;
    std::int32_t three_tenths_of_size_ = 0;  // counts * 2^12
    std::uint32_t coast_ticks_left_ = 0;
    std::uint32_t coasted_ticks_ = 0;  // without a break
    std::uint32_t opposed_ticks_ = 0;  // of them, with a sample of the wrong sign
    std::uint32_t ticks_in_half_cycle_ = 0;
    std::int64_t error_sum_ = 0;     // over the half cycle under way, Q20
    bool against_the_line_ = false;  // the in-phase part is small or negative
    std::uint8_t good_half_cycles_ = 0;
    std::uint8_t bad_half_cycles_ = 0;
    std::uint8_t far_off_refreshes_ = 0;
    bool second_half_ = false;
    bool half_cycle_began_ = false;
    bool half_cycle_ends_ = false;
    bool half_cycle_ending_ = false;
    bool locked_ = false;
};

}  // namespace firmware
