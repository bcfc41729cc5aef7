#include "sim/metrics/winding_heat.hpp"

#include "firmware/contract/frames.hpp"

namespace sim {

namespace {
using plant_models::HeatNetwork;
/// Windings take minutes: a millisecond is short enough.
constexpr int ticks_per_step = 10;
}  // namespace

WindingHeat::WindingHeat(const plant_models::HeatParameters& heat,
                         const plant_models::MotorParameters& motor,
                         const plant_models::Conditions& conditions)
    : network_(heat, motor, conditions), motor_(motor), temperatures_C_(network_.initial_state()) {
    hottest_C_ = std::max(temperatures_C_[HeatNetwork::main_winding],
                          temperatures_C_[HeatNetwork::aux_winding]);
}

void WindingHeat::observe(const plant_models::PlantOutputs& plant) {
    if (plant.has_winding_temperature) {
        hottest_C_ = plant.hotter_winding_C;
        return;
    }
    main_A2_ += plant.main_current_A * plant.main_current_A;
    aux_A2_ += plant.aux_current_A * plant.aux_current_A;
    speed_rad_per_s_ = plant.speed_rad_per_s;
    if (++ticks_ == ticks_per_step) {
        step();
    }
}

void WindingHeat::step() {
    const plant_models::WindingFactors warm = network_.resistance_factors(temperatures_C_.data());
    plant_models::UnitSignals signals;
    signals.main_copper_W = warm.main * motor_.main_resistance_ohm * main_A2_ / ticks_per_step;
    signals.aux_copper_W = warm.aux * motor_.aux_resistance_ohm * aux_A2_ / ticks_per_step;
    signals.speed_rad_per_s = speed_rad_per_s_;
    std::array<double, HeatNetwork::state_count> rate{};
    network_.derivatives(temperatures_C_.data(), rate.data(), signals);
    constexpr double step_s = static_cast<double>(ticks_per_step) / firmware::ticks_per_second;
    for (std::size_t k = 0; k < HeatNetwork::state_count; ++k) {
        temperatures_C_[k] += step_s * rate[k];
    }
    hottest_C_ = std::max(temperatures_C_[HeatNetwork::main_winding],
                          temperatures_C_[HeatNetwork::aux_winding]);
    main_A2_ = 0.0;
    aux_A2_ = 0.0;
    ticks_ = 0;
}

void WindingHeat::rest(double duration_s) {
    network_.cool(temperatures_C_.data(), network_.cooling(duration_s));
    hottest_C_ = std::max(temperatures_C_[HeatNetwork::main_winding],
                          temperatures_C_[HeatNetwork::aux_winding]);
}

}  // namespace sim
