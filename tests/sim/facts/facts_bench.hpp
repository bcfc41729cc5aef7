// What the tests of the trade's facts share: one change to a bundled scenario, what came of it, and
// what a channel showed meanwhile.
#pragma once

#include <functional>
#include <string_view>
#include <vector>

#include "bench/cases.hpp"
#include "plant_models/parameter_defaults.hpp"
#include "sim/bench/start_run.hpp"

namespace facts {

/// Points on the voltage's wave at which the contactor may close: half a cycle in six steps.
inline const std::vector<double> points_on_wave_deg = {0.0, 30.0, 60.0, 90.0, 120.0, 150.0};

plant_models::GridParameters& grid_of(sim::Scenario& scenario);
plant_models::ReciprocatingParameters& pistons_of(sim::Scenario& scenario);

/// A compressor's default parameters with size and friction of the scenario's reciprocating one.
template <class Load>
Load of_the_same_size(sim::Scenario scenario) {
    const plant_models::ReciprocatingParameters& pistons = pistons_of(scenario);
    Load load;
    load.displacement_cm3 = pistons.displacement_cm3;
    load.breakaway_torque_Nm = pistons.breakaway_torque_Nm;
    load.bearing_torque_Nm = pistons.bearing_torque_Nm;
    load.oil_torque_Nm = pistons.oil_torque_Nm;
    load.reference_speed_rpm = pistons.reference_speed_rpm;
    return load;
}

using plant_models::table_defaults;

/// The bakery's cold room (bakery_short_rest.toml) after another rest: a reciprocating compressor
/// on an orifice that equalises in 150 s.
sim::Scenario bakery_after(double rest_s);

/// Adds the built-in limiter with everything at its defaults.
sim::Scenario with_default_limiter(sim::Scenario scenario);

bool comes_up(const sim::Scenario& scenario);
/// Fails the test, and gives 1e9, if it does not come up.
double run_up_s(const sim::Scenario& scenario);
/// Over all points on the wave.
double mean_run_up_s(sim::Scenario scenario);

/// Looks at every tick of a run.
class Watch final : public sim::TickObserver {
  public:
    explicit Watch(std::function<void(const sim::TickView&)> look) : look_(std::move(look)) {}
    void observe(const sim::TickView& view) override { look_(view); }

  private:
    std::function<void(const sim::TickView&)> look_;
};

/// Place of a channel among PlantOutputs::model_channels. Throws if there is none of this name.
std::size_t channel(const sim::Scenario& scenario, std::string_view name);

}  // namespace facts
