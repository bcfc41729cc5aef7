#include "firmware/recognition/inspection.hpp"

#include "firmware/recognition/half_wave_share.hpp"

namespace firmware {

namespace {

// One way only: what a lone thyristor lets through has nothing in the other half wave. A motor that
// is switched on at a voltage zero has at first 1.1 times as much in one as in the other.
constexpr Permille one_way{700};

// Two counts of the converter: anything smaller may be noise.
constexpr MilliAmperes smallest_current{300};

}  // namespace

Inspection::Inspection(const Settings& settings)
    : run_capacitor_fitted_(settings.run_capacitor_fitted != 0),
      unasked_(settings.unasked_current_mA),
      dead_level_(settings.start_terminal_dead_permille * 10),
      shorted_(settings.run_capacitor_shorted_permille),
      start_capacitor_share_(settings.start_capacitor_current_permille),
      swapped_impedance_permille_(settings.swapped_impedance_permille),
      unequal_(settings.half_wave_difference_permille) {}

void Inspection::begin() {
    dead_without_start_capacitor_ = false;
    start_capacitor_absent_ = false;
    start_terminal_alive_ = false;
}

bool Inspection::is_dead(const Readings& readings) const {
    return readings.start_terminal_level < dead_level_;
}

Reason Inspection::judge_dark(const Readings& readings) const {
    const HalfWaveMeans& current = readings.output_current;
    if (readings.output_current_rms <= unasked_) {
        return Reason::none;
    }
    if (half_waves_differ(current, one_way)) {
        return Reason::thyristor_shorted;
    }
    return current.leading.count() > 0 ? Reason::start_capacitor_stuck_in : Reason::output_conducts;
}

Reason Inspection::judge_pulses(const Readings& readings) {
    dead_without_start_capacitor_ = is_dead(readings);
    if (half_waves_differ(readings.output_current, unequal_)) {
        return Reason::half_waves_unequal;
    }
    const bool no_voltage_across =
        readings.run_capacitor_voltage_rms < portion(readings.line_voltage_rms, shorted_);
    return no_voltage_across ? Reason::run_capacitor_shorted : Reason::none;
}

Reason Inspection::judge_start_capacitor(const Readings& readings, MilliAmperes locked_rotor) {
    const MilliAmperes current = readings.output_current_rms;
    const bool dead = is_dead(readings);
    start_terminal_alive_ = !dead;
    start_capacitor_absent_ =
        current < portion(locked_rotor, start_capacitor_share_) || current < smallest_current;
    if (start_capacitor_absent_) {
        const bool silent = dead && dead_without_start_capacitor_ && run_capacitor_fitted_;
        return silent ? Reason::start_terminal_dead : Reason::none;
    }
    if (readings.output_current.leading.count() <= 0) {
        return Reason::output_conducts;
    }
    if (dead) {
        return Reason::start_terminal_dead;
    }
    if (dead_without_start_capacitor_ && run_capacitor_fitted_) {
        return Reason::run_capacitor_open;
    }
    return looks_swapped(readings, locked_rotor) ? Reason::windings_swapped : Reason::none;
}

bool Inspection::looks_swapped(const Readings& readings, MilliAmperes locked_rotor) const {
    // V_S * I_locked against V_line * I: below 2^20 * 2^18 * 2^11 and the like, far inside 64 bits.
    const std::int64_t at_s =
        static_cast<std::int64_t>(readings.start_terminal_voltage_rms.count()) *
        locked_rotor.count();
    const std::int64_t at_r = static_cast<std::int64_t>(readings.line_voltage_rms.count()) *
                              readings.output_current_rms.count();
    return at_s * 1000 < at_r * swapped_impedance_permille_;
}

}  // namespace firmware
