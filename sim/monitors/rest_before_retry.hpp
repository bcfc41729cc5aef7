// Never a retry before its rest: once the main winding has been without current for longer than a
// phase-control gap or a contact's travel (0.2 s), it must stay so for the minimum rest.
#pragma once

#include "sim/monitors/monitor.hpp"

namespace sim {

class RestBeforeRetry {
  public:
    static constexpr std::string_view name = "retry_before_rest";

    explicit RestBeforeRetry(const MonitorContext& context)
        : has_limiter_(context.has_limiter), rest_s_(context.limits.minimum_rest_s) {}

    void observe(const TickView& view, double /*line_voltage_rms_V*/) {
        if (!has_limiter_ || !view.plant.main_conducting || !view.plant.line_connected) {
            return;
        }
        const double now_s = view.plant.time_s;
        const double away_s = now_s - last_fed_s_;
        if (!violation_ && away_s > gap_s && away_s < rest_s_) {
            violation_ = Violation{now_s, away_s, rest_s_, "s"};
        }
        last_fed_s_ = now_s;
    }
    const std::optional<Violation>& violation() const { return violation_; }
    /// So that the next one is told, too.
    void forget_violation() { violation_.reset(); }

  private:
    static constexpr double gap_s = 0.2;

    bool has_limiter_;
    double rest_s_;
    double last_fed_s_ = -1e9;
    std::optional<Violation> violation_;
};

}  // namespace sim
