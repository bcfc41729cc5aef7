#include "firmware/recognition/fed_watch.hpp"

#include "firmware/recognition/half_wave_share.hpp"

namespace firmware {

namespace {

// A difference below this share of the locked-rotor current harms nobody: a light motor at speed
// draws so little that one torque pulsation makes its half waves unequal.
constexpr Permille harmless_difference{50};

constexpr Ticks half_cycles(std::int32_t count) {
    return Ticks{static_cast<std::uint32_t>(count)};
}

}  // namespace

FedWatch::FedWatch(const Settings& settings)
    : lost_fraction_(settings.lost_current_permille),
      climb_difference_(settings.half_wave_difference_permille),
      difference_share_(climb_difference_),
      beyond_(settings.beyond_order_permille),
      dead_level_(settings.start_terminal_dead_permille * 10),
      lost_(half_cycles(settings.fault_half_cycles)),
      dead_(half_cycles(settings.fault_half_cycles)),
      unequal_(half_cycles(settings.fault_half_cycles)),
      beyond_order_(half_cycles(settings.fault_half_cycles)) {}

void FedWatch::begin(MilliAmperes locked_rotor, bool start_terminal_alive) {
    locked_rotor_ = locked_rotor;
    difference_share_ = climb_difference_;
    start_terminal_alive_ = start_terminal_alive;
    lost_.restart();
    dead_.restart();
    unequal_.restart();
    beyond_order_.restart();
}

bool FedWatch::unequal(const Readings& readings) const {
    // A reading that does not move is no current of one half wave: it is a stuck sensor, and lost.
    const HalfWaveMeans& current = readings.output_current;
    return readings.output_current_rms >= portion(locked_rotor_, lost_fraction_) &&
           half_waves_differ(current, difference_share_) &&
           half_wave_difference(current) > portion(locked_rotor_, harmless_difference);
}

Reason FedWatch::half_cycle(const Readings& readings, Permille ordered) {
    // All four are asked every time: each has its own count.
    const MilliAmperes current = readings.output_current_rms;
    const bool lost = lost_.tick(current < portion(locked_rotor_, lost_fraction_));
    const bool dead =
        dead_.tick(start_terminal_alive_ && readings.start_terminal_level < dead_level_);
    const bool unequal_long = unequal_.tick(unequal(readings));
    const bool beyond = beyond_order_.tick(current > portion(locked_rotor_, ordered + beyond_));
    // A lost current and a dead S together are one open wire: the current is the root.
    if (lost) {
        return Reason::current_lost;
    }
    if (dead) {
        return Reason::start_terminal_dead;
    }
    if (unequal_long) {
        return Reason::half_waves_unequal;
    }
    return beyond ? Reason::current_beyond_order : Reason::none;
}

}  // namespace firmware
