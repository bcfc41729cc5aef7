#include "firmware/sequence/line_watch.hpp"

#include "firmware/arithmetic/extremes.hpp"

namespace firmware {

namespace {

// Of the rated voltage; settings.hpp says where from.
constexpr Permille lowest_of_rated{700};
constexpr Permille highest_of_rated{1190};

// Of the voltage before the start. [judgement] Half of what lies between a generator's voltage and
// its highest; a stiff supply rises by a hundredth.
constexpr Permille lifted_of_before{1100};

MilliVolts lowest_for(const Settings& settings) {
    const MilliVolts rated{settings.rated_voltage_V * 1000};
    return larger(MilliVolts{settings.line_voltage_min_V * 1000}, portion(rated, lowest_of_rated));
}

MilliVolts highest_for(const Settings& settings) {
    const MilliVolts limit{settings.line_voltage_max_V * 1000};
    const MilliVolts rated{settings.rated_voltage_V * 1000};
    return settings.rated_voltage_V == 0 ? limit : smaller(limit, portion(rated, highest_of_rated));
}

}  // namespace

LineWatch::LineWatch(const Settings& settings)
    : lowest_(lowest_for(settings)),
      highest_(highest_for(settings)),
      slowest_(settings.line_frequency_min_mHz),
      fastest_(settings.line_frequency_max_mHz),
      sag_limit_(settings.sag_limit_permille),
      patience_half_cycles_(settings.line_fault_half_cycles) {}

bool LineWatch::frequency_off(const Observation& seen) const {
    return seen.line_frequency < slowest_ || seen.line_frequency > fastest_;
}

Reason LineWatch::judge_for_start(const Observation& seen) const {
    if (!seen.line_locked) {
        return Reason::no_lock;
    }
    if (seen.readings.line_voltage_rms < lowest_) {
        return Reason::line_voltage_low;
    }
    if (seen.readings.line_voltage_rms > highest_) {
        return Reason::line_voltage_high;
    }
    return frequency_off(seen) ? Reason::line_frequency_off : Reason::none;
}

void LineWatch::begin(const Observation& seen) {
    sagged_below_ = portion(seen.readings.line_voltage_rms, sag_limit_);
    lifted_above_ = portion(seen.readings.line_voltage_rms, lifted_of_before);
    faulty_half_cycles_ = 0;
}

bool LineWatch::lifted(const Observation& seen) const {
    return seen.readings.line_voltage_rms > lifted_above_;
}

Reason LineWatch::judge_while_fed(const Observation& seen) {
    if (!seen.line_locked) {
        return Reason::line_lost;
    }
    if (!seen.readings_are_new) {
        return Reason::none;
    }
    // A voltage under the limit for starts is no fault while feeding: the supply bends under the
    // start itself. Only a sag against the voltage before it counts.
    Reason fault = Reason::none;
    if (seen.readings.line_voltage_rms < sagged_below_) {
        fault = Reason::line_sagged;
    } else if (seen.readings.line_voltage_rms > highest_) {
        fault = Reason::line_voltage_high;
    } else if (frequency_off(seen)) {
        fault = Reason::line_frequency_off;
    }
    faulty_half_cycles_ = fault == Reason::none ? 0 : faulty_half_cycles_ + 1;
    return faulty_half_cycles_ >= patience_half_cycles_ ? fault : Reason::none;
}

}  // namespace firmware
