#include "firmware/measurement/line_tracker.hpp"

#include "firmware/arithmetic/arc_tangent.hpp"
#include "firmware/arithmetic/extremes.hpp"
#include "firmware/arithmetic/quotient.hpp"
#include "firmware/arithmetic/sine.hpp"
#include "firmware/arithmetic/square_root.hpp"
#include "firmware/measurement/meters.hpp"

namespace firmware {

namespace {

constexpr int step_fine_bits = 8;
constexpr int error_bits = 20;

constexpr std::int64_t fine_step_of(std::int32_t frequency_mHz) {
    return static_cast<std::int64_t>(phase_step_from(MilliHertz{frequency_mHz}).count())
           << step_fine_bits;
}
constexpr std::int64_t slowest = fine_step_of(42000);
constexpr std::int64_t fastest = fine_step_of(68000);
constexpr std::int64_t middle = fine_step_of(55000);

// Gains in counts per Q20 of error, for natural frequency w_n, damping z and tick T:
//   proportional 2 z w_n T * 2^32 / 2 pi / 2^20      integral (w_n T)^2 * 2^32 / 2 pi / 2^20 * 2^8
// Times the largest error, 2^20, they stay inside 32 bits.
struct Gains {
    std::int32_t proportional_q4;
    std::int32_t integral_q4;
};
// Until the lock, w_n = 140 rad/s and z = 1.0: from 55 to 50 or 60 Hz within three cycles.
constexpr Gains pulling_in = {292, 523};
// With the lock, w_n = 40 rad/s and z = 0.85: what a harmonic leaves at twice the line frequency is
// cut to a tenth, and a generator that drifts by 5 Hz per second is followed within a degree or so.
constexpr Gains holding = {71, 43};

// A refresh may wait for that long while the readings are worked out, and never longer: corrections
// can hold the phase before a zero.
constexpr std::uint32_t longest_wait_ticks = 12;
constexpr std::uint32_t refresh_interval_ticks = 32 + longest_wait_ticks;
// The generator needs most of a cycle.
constexpr std::uint32_t first_refresh_ticks = 128 + longest_wait_ticks;
// So much before the voltage zero the readings are begun: what is decided by them falls on the
// zero.
constexpr std::uint32_t ticks_from_end_to_zero = Meters::ticks_to_readings;
static_assert(longest_wait_ticks > ticks_from_end_to_zero + 1, "the zero, too, has passed by then");

// Size of the fundamental in counts * 8. 30 V RMS: under half of the lowest supply, 100 V, at a sag
// to 65 %.
constexpr std::uint32_t smallest_size = 1130;

// A sample is missing when, in the middle 120 degrees of the half cycle, it is under 0.3 of what
// the tracked phase and size let expect. A sag to half is thus followed, a lost cycle is not.
constexpr std::int32_t middle_of_half_cycle = sine_one / 2;
// Bridges the 60 degrees between two middles down to 45 Hz, yet ends before the next notch.
constexpr std::uint32_t coast_ticks = 45;
constexpr std::uint32_t longest_coast_ticks = 700;  // 70 ms: three cycles and a half
// Samples of the wrong sign in those middles are not missing: this is a line of another phase, as
// after a jump of frequency. A half cycle's middle of them is enough.
constexpr std::uint32_t opposed_ticks_to_lose = 60;

// Mean error over a half cycle; Q20 radians. Harmonics cancel in that mean.
constexpr std::int64_t lock_error = 42000;     // 2.3 degrees
constexpr std::int64_t unlock_error = 220000;  // 12 degrees
constexpr std::uint8_t good_half_cycles_to_lock = 3;
constexpr std::uint8_t bad_half_cycles_to_unlock = 5;
constexpr std::int32_t realign_beyond = 0x0B60B60B;  // 16 degrees of phase

// With the lock: how long the tracked phase may stay so far off before the lock is given up, in
// refreshes. 19 ms: a frequency that jumps by a tenth is told before the pulses have slipped out of
// their half cycle, and a sag's jump of phase has been followed by then.
constexpr std::uint8_t far_off_refreshes_to_lose = 6;

// A crossing that follows the last one sooner than this is jitter of the correction: 71 Hz.
constexpr std::uint32_t shortest_half_cycle_ticks = 70;

// Corrections at their limit can hold the phase where it is, for as long as they last.
constexpr std::uint32_t longest_half_cycle_ticks = 1000000;

}  // namespace

LineTracker::LineTracker() : fine_step_(middle), ticks_to_refresh_(first_refresh_ticks) {}

PhaseStep LineTracker::phase_step() const {
    return PhaseStep{static_cast<std::uint32_t>(fine_step_ >> step_fine_bits)};
}

void LineTracker::step(std::int32_t line_voltage_counts) {
    phase_ = phase_.advanced(phase_step());
    --ticks_to_refresh_;
    const bool may_refresh = ticks_to_refresh_ <= longest_wait_ticks && !half_cycle_ending_;
    if (may_refresh || ticks_to_refresh_ == 0) {
        ticks_to_refresh_ = refresh_interval_ticks;
        refresh_size();
    }
    const std::int32_t surprise = generator_.surprise(line_voltage_counts);
    const std::int32_t tracked_sine = sine(phase_);
    if (locked_ && coasts(surprise + generator_.in_phase(), tracked_sine)) {
        generator_.step(0, phase_step());
    } else {
        follow(tracked_sine);
        generator_.step(surprise, phase_step());
    }
    mark_half_cycles();
}

bool LineTracker::coasts(std::int32_t sample_without_offset, std::int32_t tracked_sine) {
    if (tracked_sine > middle_of_half_cycle || tracked_sine < -middle_of_half_cycle) {
        const std::int64_t threshold =
            static_cast<std::int64_t>(three_tenths_of_size_) * tracked_sine;
        const std::int64_t sample = static_cast<std::int64_t>(sample_without_offset) * (1 << 15);
        const bool upper_half = tracked_sine > 0;
        if (upper_half ? sample < threshold : sample > threshold) {
            coast_ticks_left_ = coast_ticks;
        }
        if (upper_half ? sample < -threshold : sample > -threshold) {
            ++opposed_ticks_;
        }
    }
    if (coast_ticks_left_ == 0) {
        coasted_ticks_ = 0;
        opposed_ticks_ = 0;
        return false;
    }
    --coast_ticks_left_;
    if (++coasted_ticks_ >= longest_coast_ticks || opposed_ticks_ >= opposed_ticks_to_lose) {
        lose();
        return false;
    }
    return true;
}

void LineTracker::lose() {
    locked_ = false;
    good_half_cycles_ = 0;
    far_off_refreshes_ = 0;
    coast_ticks_left_ = 0;
    coasted_ticks_ = 0;
    opposed_ticks_ = 0;
    generator_ = QuadratureGenerator{};
    reciprocal_size_ = 0;
    ticks_to_refresh_ = first_refresh_ticks;
}

void LineTracker::follow(std::int32_t tracked_sine) {
    if (reciprocal_size_ == 0) {
        return;
    }
    const std::int64_t in_phase = generator_.in_phase();
    const std::int64_t quadrature = generator_.quadrature();
    const std::int64_t cross = (in_phase * cosine(phase_) + quadrature * tracked_sine) >> 15;
    const std::int64_t error = (cross * static_cast<std::int64_t>(reciprocal_size_)) >> 20;
    constexpr std::int64_t limit = std::int64_t{1} << error_bits;
    correct(static_cast<std::int32_t>(error > limit ? limit : (error < -limit ? -limit : error)));
}

void LineTracker::correct(std::int32_t error) {
    const Gains& gains = locked_ ? holding : pulling_in;
    const std::int32_t shift = (gains.proportional_q4 * error) / 16;
    phase_ = phase_.advanced(PhaseStep{static_cast<std::uint32_t>(shift)});
    fine_step_ += (gains.integral_q4 * error) / 16;
    fine_step_ = fine_step_ < slowest ? slowest : (fine_step_ > fastest ? fastest : fine_step_);
    error_sum_ += error;
}

void LineTracker::refresh_size() {
    // Counts * 8 fit 32 bits when squared and summed, with a third of a thousandth to spare.
    constexpr int surplus_bits = QuadratureGenerator::fraction_bits - 3;
    std::int32_t in_phase = generator_.in_phase() >> surplus_bits;
    std::int32_t quadrature = generator_.quadrature() >> surplus_bits;
    constexpr std::int32_t largest = 32767;
    in_phase = in_phase > largest ? largest : (in_phase < -largest ? -largest : in_phase);
    quadrature = quadrature > largest ? largest : (quadrature < -largest ? -largest : quadrature);
    const std::uint32_t size = square_root(static_cast<std::uint32_t>(in_phase * in_phase) +
                                           static_cast<std::uint32_t>(quadrature * quadrature));
    if (size < smallest_size) {
        if (locked_) {
            lose();
        }
        reciprocal_size_ = 0;
        return;
    }
    reciprocal_size_ = (1U << 31) / size;
    three_tenths_of_size_ = static_cast<std::int32_t>(size * 3 / 10) << surplus_bits;

    const std::int32_t ahead = phase_of_vector(-quadrature, in_phase).ahead_of(phase_);
    const bool far_off = ahead > realign_beyond || ahead < -realign_beyond;
    // Phases that slip past each other meet now and then: that takes one off and not all. A
    // flywheel turns the generator with the tracked phase: it knows nothing of the line.
    const bool coasting = coasted_ticks_ > 0;
    if (locked_ && far_off) {
        ++far_off_refreshes_;
    } else if (far_off_refreshes_ > 0 && !coasting) {
        --far_off_refreshes_;
    }
    if (far_off_refreshes_ >= far_off_refreshes_to_lose) {
        lose();
        return;
    }
    if (!locked_ && far_off) {
        phase_ = phase_.advanced(PhaseStep{static_cast<std::uint32_t>(ahead)});
        error_sum_ = 0;
        good_half_cycles_ = 0;
    }
    constexpr std::int32_t quarter_turn = 0x40000000;
    against_the_line_ = ahead > quarter_turn || ahead < -quarter_turn;
}

void LineTracker::mark_half_cycles() {
    half_cycle_began_ = false;
    half_cycle_ends_ = false;
    ticks_in_half_cycle_ = smaller(ticks_in_half_cycle_ + 1, longest_half_cycle_ticks);
    const PhaseStep to_zero{phase_step().count() * ticks_from_end_to_zero};
    if (!half_cycle_ending_ && phase_.advanced(to_zero).second_half() != second_half_ &&
        ticks_in_half_cycle_ + ticks_from_end_to_zero >= shortest_half_cycle_ticks) {
        half_cycle_ends_ = true;
        half_cycle_ending_ = true;
    }
    if (phase_.second_half() != second_half_ && ticks_in_half_cycle_ >= shortest_half_cycle_ticks) {
        half_cycle_ending_ = false;
        second_half_ = phase_.second_half();
        half_cycle_began_ = true;
        judge_half_cycle();
        ticks_in_half_cycle_ = 0;
    }
}

void LineTracker::judge_half_cycle() {
    const std::int64_t mean = quotient(error_sum_, static_cast<std::int32_t>(ticks_in_half_cycle_));
    const std::int64_t size = mean < 0 ? -mean : mean;
    error_sum_ = 0;
    if (reciprocal_size_ == 0) {
        return;
    }
    const bool good = size < lock_error && !against_the_line_;
    const bool bad = size > unlock_error || against_the_line_;
    good_half_cycles_ = good ? static_cast<std::uint8_t>(good_half_cycles_ + 1) : std::uint8_t{0};
    bad_half_cycles_ = bad ? static_cast<std::uint8_t>(bad_half_cycles_ + 1) : std::uint8_t{0};
    if (good_half_cycles_ >= good_half_cycles_to_lock) {
        good_half_cycles_ = good_half_cycles_to_lock;
        locked_ = true;
    }
    if (bad_half_cycles_ >= bad_half_cycles_to_unlock) {
        bad_half_cycles_ = 0;
        locked_ = false;
    }
}

}  // namespace firmware
