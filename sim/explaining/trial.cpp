#include "sim/explaining/trial.hpp"

#include <algorithm>
#include <cmath>
#include <variant>

namespace sim {

namespace {

constexpr double up_to_speed_share = 0.90;
constexpr double looks_up_after_s = 0.5;

/// The last instant at which the scenario itself lets something happen; infinite where it is not
/// known, or where a protection may still open.
double last_known_event_s(const Scenario& scenario) {
    double last_s = std::max(scenario.run.call_on_s, scenario.run.call_off_s);
    if (const auto* grid = std::get_if<plant_models::GridParameters>(&scenario.source)) {
        last_s = std::max(last_s, grid->sag_begin_s + grid->sag_length_s);
    }
    for (const Fault& fault : scenario.faults) {
        if (fault.timing.waits_for_state()) {
            return HUGE_VAL;
        }
        last_s = std::max(last_s, fault.timing.at_s + fault.timing.duration_s);
    }
    const bool is_watched =
        !std::holds_alternative<plant_models::NoProtectionModule>(scenario.unit.protection_module);
    return is_watched ? HUGE_VAL : last_s;
}

class Decision final : public TickObserver {
  public:
    explicit Decision(const Scenario& scenario)
        : last_event_s_(last_known_event_s(scenario)),
          up_rad_per_s_(up_to_speed_share *
                        scenario.motor.synchronous_speed_rad_per_s(
                            plant_models::nominal_frequency_Hz(scenario.source))) {}

    void observe(const TickView& view) override {
        const plant_models::PlantOutputs& plant = view.plant;
        time_s_ = plant.time_s;
        const bool climbs_still =
            view.controller != nullptr && view.controller->state != firmware::State::running;
        if (plant.speed_rad_per_s < up_rad_per_s_ || climbs_still) {
            up_since_s_ = plant.time_s;
        }
        // A controller that a fault robs of its power may forget that it has locked out.
        has_failed_ = !plant.supply_trip.empty() ||
                      (view.controller != nullptr && plant.time_s > last_event_s_ &&
                       view.controller->state == firmware::State::locked_out);
        looks_up_ = plant.time_s - std::max(up_since_s_, last_event_s_) >= looks_up_after_s;
    }
    bool wants_more() const override { return !has_failed_ && !looks_up_; }
    bool looks_up() const { return looks_up_ && !has_failed_; }
    double time_s() const { return time_s_; }

  private:
    double last_event_s_;
    double up_rad_per_s_;
    double up_since_s_ = 0.0;
    double time_s_ = 0.0;
    bool has_failed_ = false;
    bool looks_up_ = false;
};

}  // namespace

bool comes_up(const StartResult& result) {
    return result.outcome == Outcome::running && result.monitors.empty();
}

Trial try_start(const Scenario& scenario, Patience patience) {
    Decision decision(scenario);
    const StartResult result =
        run_start(scenario, patience == Patience::until_decided ? &decision : nullptr);
    Trial trial;
    trial.comes_up = comes_up(result);
    trial.outcome = result.outcome;
    trial.cause = result.cause;
    if (trial.cause.empty() && !result.monitors.empty()) {
        trial.cause = std::string(result.monitors.front().monitor);
    }
    trial.was_guessed = patience == Patience::until_decided && decision.looks_up();
    trial.seconds =
        patience == Patience::until_decided ? decision.time_s() : scenario.run.duration_s;
    return trial;
}

}  // namespace sim
