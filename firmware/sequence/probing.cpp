#include "firmware/sequence/probing.hpp"

#include "firmware/gating/conduction.hpp"

namespace firmware {

Probing::Probing(const Settings& settings)
    : angle_(settings.probe_angle_mdeg),
      half_cycles_to_fire_(settings.probe_half_cycles),
      contactor_settle_(ticks_from_ms(settings.contactor_settle_ms)),
      start_capacitor_settle_(ticks_from_ms(settings.start_capacitor_settle_ms)),
      smallest_(settings.locked_rotor_min_mA),
      largest_(settings.locked_rotor_max_mA),
      half_cycles_to_inspect_(settings.inspection_half_cycles),
      inspection_(settings) {}

void Probing::begin(Orders& orders) {
    orders.contactor_permit = true;
    step_ = Step::contactor_travels;
    clock_.restart();
    half_cycles_ = 0;
    half_cycles_to_wait_ = 0;
    looked_again_ = false;
    inspection_.begin();
    locked_rotor_ = MilliAmperes{0};
}

Progress Probing::step(const Observation& seen, Orders& orders) {
    clock_.tick();
    if (half_cycles_to_wait_ > 0) {
        half_cycles_to_wait_ -= seen.readings_are_new ? 1 : 0;
        if (half_cycles_to_wait_ > 0) {
            return Progress::going();
        }
    }
    switch (step_) {
        case Step::contactor_travels:
            if (seen.readings_are_new && clock_.reached(contactor_settle_)) {
                step_ = Step::dark;
            }
            return Progress::going();
        case Step::dark:
            return dark(seen, orders);
        case Step::pulsing:
            if (!seen.readings_are_new) {
                return Progress::going();
            }
            ++half_cycles_;
            return half_cycles_ < half_cycles_to_fire_ ? Progress::going() : judge(seen, orders);
        case Step::start_capacitor_alone:
            return start_capacitor_alone(seen);
    }
    return Progress::going();
}

// A half cycle more than the contactor's travel, so that both half waves of an unasked current have
// been there. Beginning the pulses with a half cycle keeps their window free of a partial one.
Progress Probing::dark(const Observation& seen, Orders& orders) {
    if (!seen.readings_are_new) {
        return Progress::going();
    }
    const Reason found = inspection_.judge_dark(seen.readings);
    if (looks_again(found)) {
        return Progress::going();
    }
    if (found != Reason::none) {
        return Progress::failed(found);
    }
    orders.fire_at(angle_);
    step_ = Step::pulsing;
    return Progress::going();
}

Progress Probing::judge(const Observation& seen, Orders& orders) {
    const std::int64_t scaled =
        static_cast<std::int64_t>(seen.readings.output_current_rms.count()) * 10000;
    locked_rotor_ =
        MilliAmperes{static_cast<std::int32_t>(scaled / conducted_per_ten_thousand(angle_))};
    if (locked_rotor_ < smallest_) {
        return Progress::failed(Reason::no_motor);
    }
    if (locked_rotor_ > largest_) {
        return Progress::failed(Reason::current_too_large);
    }
    const Reason found = inspection_.judge_pulses(seen.readings);
    if (looks_again(found)) {
        return Progress::going();
    }
    // The start capacitor goes in with the main winding dark: its surge then meets no other.
    orders.stop_firing();
    if (found != Reason::none) {
        return Progress::failed(found);
    }
    orders.start_capacitor = true;
    step_ = Step::start_capacitor_alone;
    clock_.restart();
    half_cycles_ = 0;
    return Progress::going();
}

Progress Probing::start_capacitor_alone(const Observation& seen) {
    if (!seen.readings_are_new || !clock_.reached(start_capacitor_settle_)) {
        return Progress::going();
    }
    if (++half_cycles_ <= half_cycles_to_inspect_) {
        return Progress::going();
    }
    const Reason found = inspection_.judge_start_capacitor(seen.readings, locked_rotor_);
    if (looks_again(found)) {
        return Progress::going();
    }
    return found == Reason::none ? Progress::finished() : Progress::failed(found);
}

bool Probing::looks_again(Reason found) {
    if (looked_again_ || !forbids_another_try(found)) {
        return false;
    }
    looked_again_ = true;
    half_cycles_to_wait_ = 3;
    return true;
}

}  // namespace firmware
