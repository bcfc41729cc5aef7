// Runs several monitors side by side.
#pragma once

#include <tuple>
#include <vector>

#include "sim/monitors/monitor.hpp"

namespace sim {

template <class... Each>
class MonitorSet {
  public:
    explicit MonitorSet(const MonitorContext& context)
        // The context once per monitor.
        : all_((static_cast<void>(sizeof(Each)), context)...) {}

    void observe(const TickView& view, double line_voltage_rms_V) {
        std::apply([&](auto&... monitor) { (monitor.observe(view, line_voltage_rms_V), ...); },
                   all_);
    }

    /// The monitors that were broken, in the order of the list.
    std::vector<NamedViolation> broken() const {
        std::vector<NamedViolation> result;
        const auto collect = [&](const auto& monitor) {
            if (monitor.violation()) {
                result.push_back({monitor.name, *monitor.violation()});
            }
        };
        std::apply([&](const auto&... monitor) { (collect(monitor), ...); }, all_);
        return result;
    }

    /// For monitors that watch over several starts; what they have seen otherwise stays.
    void forget_violations() {
        std::apply([](auto&... monitor) { (monitor.forget_violation(), ...); }, all_);
    }

  private:
    std::tuple<Each...> all_;
};

}  // namespace sim
