#include "sim/bench/course_recorder.hpp"

#include <algorithm>
#include <cmath>

#include "plant_models/numeric/units.hpp"

namespace sim {

CourseRecorder::CourseRecorder(double duration_s) {
    const double rows = duration_s / plant_models::to_seconds(course_interval) + 1.0;
    const double intervals_a_row = std::ceil(rows / static_cast<double>(most_rows));
    interval_ = course_interval * static_cast<Instant::rep>(intervals_a_row);
    row_end_ = interval_;
    course_.reserve(static_cast<std::size_t>(rows / intervals_a_row) + 1);
    controller_steps_.reserve(most_rows);
}

void CourseRecorder::observe(const TickView& view) {
    current_square_ += view.plant.line_current_A * view.plant.line_current_A;
    voltage_square_ += view.plant.line_voltage_V * view.plant.line_voltage_V;
    ++samples_;
    const bool row_ends = view.time >= row_end_;
    if (row_ends && course_.size() < course_.capacity()) {
        const double count = samples_;
        course_.push_back({view.plant.time_s,
                           plant_models::rad_per_s_to_rpm(view.plant.speed_rad_per_s),
                           std::sqrt(current_square_ / count), std::sqrt(voltage_square_ / count)});
    }
    if (row_ends) {
        row_end_ += interval_;
        current_square_ = 0.0;
        voltage_square_ = 0.0;
        samples_ = 0;
    }
    if (view.controller == nullptr || controller_steps_.size() == controller_steps_.capacity()) {
        return;
    }
    const firmware::Telemetry& now = *view.controller;
    const bool changed = controller_steps_.empty() || controller_steps_.back().state != now.state ||
                         controller_steps_.back().stage != now.stage ||
                         controller_steps_.back().seen != view.seen;
    if (changed) {
        controller_steps_.push_back({view.plant.time_s, now.state, now.reason, now.stage, view.seen,
                                     !view.tells_only_states});
    }
}

}  // namespace sim
