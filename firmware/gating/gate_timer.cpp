#include "firmware/gating/gate_timer.hpp"

#include "firmware/contract/frames.hpp"
#include "firmware/gating/output_delay.hpp"

namespace firmware {

namespace {

constexpr HalfTurn latest_pulse_end = half_turn_from(MilliDegrees{175000});

constexpr MicroSeconds tick_start{0};
constexpr MicroSeconds tick_end{tick_length_us};

// When in the tick a phase `distance` ahead of its start is reached, to the nearest microsecond.
// The product fits 32 bits up to 100 Hz, far above what the tracker follows.
MicroSeconds time_to(std::uint32_t distance, PhaseStep step) {
    const std::uint32_t scaled = distance * static_cast<std::uint32_t>(tick_length_us);
    return MicroSeconds{static_cast<std::int32_t>((scaled + step.count() / 2) / step.count())};
}

}  // namespace

GateTimer::GateTimer(HalfTurn pulse_end)
    : pulse_end_(pulse_end > latest_pulse_end ? latest_pulse_end : pulse_end) {}

GateWindow GateTimer::step(Phase now, PhaseStep step, bool gated, HalfTurn firing) {
    const Phase start = now.advanced(PhaseStep{step.count() * output_delay_ticks});
    if (start.second_half() != second_half_) {
        second_half_ = start.second_half();
        half_cycle_ = HalfCycle::armed;
    }
    if (!gated) {
        if (half_cycle_ == HalfCycle::on) {
            half_cycle_ = HalfCycle::done;
        }
        return GateWindow{};
    }

    // Both angles lie at least 5 degrees before the next voltage zero and a tick spans less than
    // 3 degrees, so no wrap can fall between `begin` and an edge inside this tick.
    const std::uint32_t begin = start.since_zero().count();
    const std::uint32_t end = begin + step.count();
    GateWindow window;
    if (half_cycle_ == HalfCycle::armed) {
        if (firing >= pulse_end_ || end <= firing.count() || begin >= pulse_end_.count()) {
            return window;
        }
        half_cycle_ = HalfCycle::on;
        window.on = begin >= firing.count() ? tick_start : time_to(firing.count() - begin, step);
    } else if (half_cycle_ == HalfCycle::done) {
        return window;
    }

    window.off = tick_end;
    if (end >= pulse_end_.count()) {
        half_cycle_ = HalfCycle::done;
        window.off =
            begin >= pulse_end_.count() ? tick_start : time_to(pulse_end_.count() - begin, step);
    }
    if (window.off <= window.on) {
        return GateWindow{};
    }
    return window;
}

}  // namespace firmware
