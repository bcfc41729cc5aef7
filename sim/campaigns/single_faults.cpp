#include "sim/campaigns/single_faults.hpp"

#include <algorithm>
#include <string_view>
#include <type_traits>
#include <utility>

#include "firmware/contract/sensor_scale.hpp"
#include "sim/bench/motor_curves.hpp"
#include "sim/scenario/fitting_together.hpp"

namespace sim {

namespace {

class List {
  public:
    explicit List(const Scenario& scenario) : scenario_(scenario) {}

    template <class F>
    void add(const F& what, const std::string& degree = "", double duration_s = 0.0) {
        SingleFault single;
        single.fault.what = what;
        single.fault.timing.duration_s = duration_s;
        single.name = std::string(F::kind) + (degree.empty() ? "" : " " + degree);
        single.only_from_the_beginning = std::is_same_v<F, WindingsSwapped>;
        if (misfit_of_fault(single.fault, scenario_).empty()) {
            all_.push_back(std::move(single));
        }
    }
    template <class F>
    void add_polarities() {
        for (const std::string_view polarity : {"positive", "negative", "both"}) {
            F fault;
            fault.polarity = polarity;
            add(fault, std::string(polarity));
        }
    }
    template <class F>
    void add_readings() {
        F fault;
        add(fault, "as it is");
        fault.counts = firmware::adc_midpoint;
        add(fault, "at zero");
        fault.counts = firmware::adc_maximum;
        add(fault, "at full scale");
    }
    std::vector<SingleFault> take() { return std::move(all_); }

  private:
    const Scenario& scenario_;
    std::vector<SingleFault> all_;
};

/// Enough to stall the motor on its full line, below what locks it there by itself.
double stalling_torque_Nm(const Scenario& scenario) {
    double largest_Nm = 0.0;
    for (const auto& point : motor_curves(scenario, {}).curve) {
        largest_Nm = std::max(largest_Nm, point.torque_Nm);
    }
    return 0.8 * largest_Nm;
}

}  // namespace

// Degrees: engineering judgement. The two voltages and frequencies lie beyond the default limits,
// an outage lasts longer than a cycle, a brown-out as long as a contactor's arc pulls a supply
// down.
std::vector<SingleFault> single_faults(const Scenario& scenario) {
    List list(scenario);
    list.add(SupplyVoltage{50.0}, "50 %");
    list.add(SupplyVoltage{130.0}, "130 %");
    list.add(SupplyFrequency{42.0}, "42 Hz");
    list.add(SupplyFrequency{68.0}, "68 Hz");
    list.add(SupplyChatter{200.0, 50.0}, "5 Hz");
    list.add(SupplyChatter{40.0, 25.0}, "25 Hz");
    list.add(SupplyChatter{1000.0, 100.0}, "0.3 s away", 0.3);
    list.add(CallRemoved{}, "for good");
    list.add(CallRemoved{}, "0.1 s", 0.1);
    list.add(ControllerUnpowered{}, "0.1 s", 0.1);
    list.add(ControllerUnpowered{}, "for good");
    list.add(MotorDisconnected{});
    list.add(WindingsSwapped{});
    list.add(RunCapacitorOpen{});
    list.add(RunCapacitorShorted{});
    list.add(RotorSeized{});
    list.add(ExtraLoad{stalling_torque_Nm(scenario)});
    list.add(BypassWelded{"at_next_touch"}, "at its next touch");
    list.add(BypassWelded{"at_once"}, "at once");
    list.add(BypassStuckOpen{});
    list.add(StartContactStuckIn{});
    list.add(StartContactStuckOut{});
    list.add_polarities<ThyristorShorted>();
    list.add_polarities<ThyristorDead>();
    list.add_readings<LineVoltageSensorStuck>();
    list.add_readings<OutputCurrentSensorStuck>();
    list.add_readings<StartTerminalSensorStuck>();
    return list.take();
}

}  // namespace sim
