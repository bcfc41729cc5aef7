#include "sim/explaining/start_capacitor_sizes.hpp"

#include <cmath>

#include "plant_models/numeric/units.hpp"

namespace sim {

namespace {

double round_size_uF(double size_uF) {
    return size_uF >= 10.0 ? std::round(size_uF) : std::round(10.0 * size_uF) / 10.0;
}

/// For a motor without a run capacitor; see the header.
double best_size_uF(const plant_models::MotorParameters& motor) {
    // With the rotor locked its impedance lies, nearly, in series with each winding's.
    const double turns_square = motor.turns_ratio * motor.turns_ratio;
    const double r_m = motor.main_resistance_ohm + motor.rotor_resistance_ohm;
    const double x_m = motor.main_leakage_reactance_ohm + motor.rotor_leakage_reactance_ohm;
    const double r_a = motor.aux_resistance_ohm + turns_square * motor.rotor_resistance_ohm;
    const double x_a =
        motor.aux_leakage_reactance_ohm + turns_square * motor.rotor_leakage_reactance_ohm;
    const double x_c = x_a + r_a * r_m / (std::hypot(r_m, x_m) + r_m);
    return 1e6 / (2.0 * plant_models::pi * motor.rated_frequency_Hz * x_c);
}

}  // namespace

std::vector<double> start_capacitor_sizes_uF(const plant_models::MotorParameters& motor) {
    std::vector<double> sizes;
    if (motor.run_capacitor_uF > 0.0) {
        for (const double times : {3.0, 2.0, 4.0, 5.0}) {
            sizes.push_back(round_size_uF(times * motor.run_capacitor_uF));
        }
    } else {
        for (const double share : {1.0, 0.5, 2.0}) {
            sizes.push_back(round_size_uF(share * best_size_uF(motor)));
        }
    }
    return sizes;
}

Change fit_start_capacitor(const char* name, const char* what, const Scenario& scenario) {
    Change change;
    change.name = name;
    change.what = what;
    change.unit = "uF";
    change.subject = "start aid";
    change.spacing = Spacing::steps;
    change.steps = start_capacitor_sizes_uF(scenario.motor);
    change.boldest = change.steps.front();
    return change;
}

}  // namespace sim
