#include "sim/fitting/motor_figures.hpp"

#include <algorithm>
#include <cmath>
#include <complex>

#include "plant_models/motor/steady_state.hpp"
#include "plant_models/numeric/units.hpp"

namespace sim {

namespace {

using plant_models::AuxiliaryConnection;
using plant_models::MotorParameters;
using plant_models::SinusoidalSupply;

/// So large that it passes the line's frequency freely: the branch is its series resistance.
constexpr double short_circuit_uF = 1e9;

/// How the auxiliary winding is connected while the rotor is locked.
AuxiliaryConnection starting_connection(const MotorParameters& motor, double thermistor_ohm) {
    AuxiliaryConnection connection = plant_models::run_connection(motor);
    if (connection.open()) {
        connection.start = plant_models::CapacitorBranch{short_circuit_uF, thermistor_ohm};
    }
    return connection;
}

/// Torque at the shaft as a function of slip.
class ShaftTorque {
  public:
    ShaftTorque(const MotorParameters& motor, const SinusoidalSupply& supply,
                const AuxiliaryConnection& connection)
        : motor_(motor), supply_(supply), connection_(connection) {}

    double at(double slip) const {
        const auto point = plant_models::steady_state(motor_, supply_, connection_, slip);
        return point.shaft_power_W / point.speed_rad_per_s;
    }

    /// A coarse look for the summit, then a golden-section search between its neighbours: the
    /// optimiser above needs a figure that changes smoothly with the motor.
    double largest(double from_slip) const {
        constexpr int coarse_steps = 12;
        const double growth = std::pow(0.9 / from_slip, 1.0 / coarse_steps);
        int best = 0;
        double best_Nm = at(from_slip);
        double slip = from_slip;
        for (int k = 1; k <= coarse_steps; ++k) {
            slip *= growth;
            if (const double torque_Nm = at(slip); torque_Nm > best_Nm) {
                best = k;
                best_Nm = torque_Nm;
            }
        }
        const double low = from_slip * std::pow(growth, std::max(best - 1, 0));
        const double high = from_slip * std::pow(growth, std::min(best + 1, coarse_steps));
        return summit_between(low, high);
    }

  private:
    double summit_between(double low, double high) const {
        constexpr double golden = 0.6180339887498949;
        double left = high - golden * (high - low);
        double right = low + golden * (high - low);
        double left_Nm = at(left);
        double right_Nm = at(right);
        // Torque is flat at the summit: an interval of 1e-3 of the slip leaves 1e-7 of the torque.
        for (int k = 0; k < 14; ++k) {
            if (left_Nm > right_Nm) {
                high = right;
                right = left;
                right_Nm = left_Nm;
                left = high - golden * (high - low);
                left_Nm = at(left);
            } else {
                low = left;
                left = right;
                left_Nm = right_Nm;
                right = low + golden * (high - low);
                right_Nm = at(right);
            }
        }
        return std::max(left_Nm, right_Nm);
    }

    const MotorParameters& motor_;
    const SinusoidalSupply& supply_;
    const AuxiliaryConnection& connection_;
};

}  // namespace

MotorFigures figures_of(const MotorParameters& motor, const OperatingPoint& operating) {
    const SinusoidalSupply supply{motor.rated_voltage_V, motor.rated_frequency_Hz, 0.0, 0.0};
    const AuxiliaryConnection running = plant_models::run_connection(motor);
    const auto locked = plant_models::locked_rotor(
        motor, supply, starting_connection(motor, operating.starting_resistance_ohm));
    const auto rated = plant_models::steady_state(motor, supply, running, operating.rated_slip);

    MotorFigures figures;
    figures.locked_rotor_current_A = std::abs(locked.line_current_A);
    figures.locked_rotor_power_factor = locked.power_factor;
    figures.locked_rotor_torque_Nm = locked.torque_Nm;
    figures.rated_slip = operating.rated_slip;
    figures.rated_speed_rpm = plant_models::rad_per_s_to_rpm(rated.speed_rad_per_s);
    figures.rated_load_current_A = std::abs(rated.line_current_A);
    figures.rated_power_factor = rated.power_factor;
    figures.rated_torque_Nm = rated.shaft_power_W / rated.speed_rad_per_s;
    figures.shaft_power_W = rated.shaft_power_W;
    figures.efficiency = rated.shaft_power_W / rated.input_power_W;
    if (!running.open()) {
        figures.capacitor_voltage_ratio =
            std::abs(rated.capacitor_voltage_V) / motor.rated_voltage_V;
    }
    figures.breakdown_torque_Nm = ShaftTorque(motor, supply, running).largest(operating.rated_slip);
    // A motor that cannot carry itself at this slip has no ratio that means anything; these stay
    // finite and far outside every band.
    const double torque_Nm = std::max(figures.rated_torque_Nm, 1e-6);
    figures.locked_rotor_torque_share = locked.torque_Nm / torque_Nm;
    figures.breakdown_ratio = figures.breakdown_torque_Nm / torque_Nm;
    if (operating.cooling_capacity_W > 0.0) {
        figures.cooling_ratio =
            operating.cooling_capacity_W / std::max(figures.shaft_power_W, 1e-3);
    }
    return figures;
}

}  // namespace sim
