// A monitor holds one safety property against the plant's truth, or one rule of the store, in every
// run of every command.
//
// A monitor class M has:
//   static constexpr std::string_view name        as it appears in results
//   explicit M(const MonitorContext&)
//   void observe(const TickView&, double line_voltage_rms_V)
//   const std::optional<Violation>& violation() const
// It reports the first violation only. Adding one: write its file here, name it in
// monitor_list.hpp.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "sim/bench/tick_view.hpp"
#include "sim/scenario/safety_limits.hpp"

namespace sim {

struct MonitorContext {
    SafetyLimits limits;
    double synchronous_speed_rad_per_s = 0.0;  ///< at the supply's nominal frequency
    double nominal_frequency_Hz = 0.0;         ///< of the supply
    double rated_voltage_V = 0.0;
    bool has_limiter = false;
};

/// What was seen, against what is allowed, in the same unit.
struct Violation {
    double time_s = 0.0;
    double seen = 0.0;
    double allowed = 0.0;
    std::string_view unit;
};

struct NamedViolation {
    std::string_view monitor;
    Violation violation;
};

}  // namespace sim
