// Keeps the coarse course of a start and every change of the controller's doing.
#pragma once

#include <vector>

#include "sim/bench/start_result.hpp"
#include "sim/bench/tick_view.hpp"

namespace sim {

class CourseRecorder {
  public:
    /// Reserves what a run of this length needs: up to 3000 rows, which are longer in a long run.
    explicit CourseRecorder(double duration_s);

    void observe(const TickView& view);
    const std::vector<ControllerStep>& controller_steps() const { return controller_steps_; }
    const std::vector<CoursePoint>& course() const { return course_; }

  private:
    static constexpr std::size_t most_rows = 3000;

    double current_square_ = 0.0;
    double voltage_square_ = 0.0;
    int samples_ = 0;
    Instant interval_ = course_interval;  ///< a multiple of it where a run is long
    Instant row_end_ = course_interval;
    std::vector<ControllerStep> controller_steps_;
    std::vector<CoursePoint> course_;
};

}  // namespace sim
