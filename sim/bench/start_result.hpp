// What one start came to: the verdict, the figures, and how it went.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "plant_models/plant_outputs.hpp"
#include "sim/controllers/seen_doing.hpp"
#include "sim/metrics/start_metrics.hpp"
#include "sim/monitors/monitor.hpp"
#include "sim/scenario/outcome.hpp"

namespace sim {

/// A change of what the controller was doing.
struct ControllerStep {
    double time_s = 0.0;
    firmware::State state{};
    firmware::Reason reason{};
    int stage = 0;
    /// Of a controller that does not tell its states; `state` is then the nearest of ours.
    std::optional<SeenDoing> seen = std::nullopt;
    bool has_stage = true;  ///< no: it tells nothing of a stage
};

/// A coarse course of the start, for a picture in text: a row per `course_interval`, or a multiple.
struct CoursePoint {
    double time_s = 0.0;  ///< end of the interval
    double speed_rpm = 0.0;
    double line_current_rms_A = 0.0;  ///< over the interval
    double line_voltage_rms_V = 0.0;  ///< over the interval
};

/// One cycle at 50 Hz: close to a cycle at 60 Hz, too.
inline constexpr Instant course_interval{20'000'000};

struct StartResult {
    std::string scenario;
    std::string title;
    Outcome outcome = Outcome::not_started;
    bool as_expected = false;
    Outcome expected = Outcome::running;
    /// Why it did not come up, in one word; empty if it did.
    std::string cause;
    bool has_limiter = false;
    double synchronous_speed_rpm = 0.0;
    double supply_voltage_V = 0.0;
    StartFigures figures;
    double hottest_winding_C = 0.0;  ///< see sim/metrics/winding_heat.hpp
    plant_models::EnergyAudit energy;
    std::vector<NamedViolation> monitors;
    std::vector<std::string> warnings;  ///< of the scenario: parts that fit together badly
    std::vector<ControllerStep> controller_steps;
    std::vector<CoursePoint> course;
};

}  // namespace sim
