#include "plant_models/motor/motor_parameters.hpp"

#include "plant_models/numeric/units.hpp"

namespace plant_models {

double MotorParameters::rated_angular_frequency_rad_per_s() const {
    return 2.0 * pi * rated_frequency_Hz;
}

double MotorParameters::synchronous_speed_rad_per_s(double frequency_Hz) const {
    return 4.0 * pi * frequency_Hz / static_cast<double>(poles);
}

const ParameterTable<MotorParameters>& MotorParameters::table() {
    using M = MotorParameters;
    static const ParameterTable<M> rows = {
        {"poles", &M::poles, 2, 16, {}, "number of poles, even"},
        {"rated_voltage_V", &M::rated_voltage_V, 100, 250, {}, "rated voltage, RMS"},
        {"rated_frequency_Hz", &M::rated_frequency_Hz, 45, 65, {}, "rated frequency"},
        {"main_resistance_ohm", &M::main_resistance_ohm, 0.01, 200, {}, "main winding, copper"},
        {"main_leakage_reactance_ohm",
         &M::main_leakage_reactance_ohm,
         0.01,
         500,
         {},
         "main winding, leakage, at rated frequency"},
        {"aux_resistance_ohm", &M::aux_resistance_ohm, 0.01, 500, {}, "auxiliary winding, copper"},
        {"aux_leakage_reactance_ohm",
         &M::aux_leakage_reactance_ohm,
         0.01,
         1000,
         {},
         "auxiliary winding, leakage, at rated frequency"},
        {"turns_ratio", &M::turns_ratio, 0.2, 5, {}, "effective turns, auxiliary / main"},
        {"rotor_resistance_ohm",
         &M::rotor_resistance_ohm,
         0.01,
         200,
         {},
         "rotor cage, referred to the main winding"},
        // Zero is physical here: a model may carry all the leakage on the stator side.
        {"rotor_leakage_reactance_ohm",
         &M::rotor_leakage_reactance_ohm,
         0,
         500,
         {},
         "rotor leakage, referred to the main winding, at rated frequency"},
        {"magnetizing_reactance_ohm",
         &M::magnetizing_reactance_ohm,
         0.5,
         5000,
         {},
         "magnetizing reactance seen from the main winding, at rated frequency"},
        {"inertia_kg_m2", &M::inertia_kg_m2, 1e-5, 10, {}, "rotor plus coupled load"},
        {"run_capacitor_uF",
         &M::run_capacitor_uF,
         0,
         500,
         {},
         "run capacitor; 0: a thermistor feeds the auxiliary winding while starting"},
        {"run_capacitor_esr_ohm", &M::run_capacitor_esr_ohm, 0, 20, 0.0,
         "series resistance of the run capacitor"},
        {"iron_loss_W", &M::iron_loss_W, 0, 2000, 0.0, "iron loss at rated voltage"},
        {"friction_loss_W", &M::friction_loss_W, 0, 2000, 0.0,
         "bearing friction loss at synchronous speed (a constant torque)"},
        {"windage_loss_W", &M::windage_loss_W, 0, 2000, 0.0,
         "windage loss at synchronous speed (a torque with the square of the speed)"},
    };
    return rows;
}

std::string_view MotorParameters::inconsistency() const {
    // A smaller one is no run capacitor: it would ring with the winding at kilohertz.
    if (run_capacitor_uF > 0.0 && run_capacitor_uF < 0.5) {
        return "run_capacitor_uF must be 0 or at least 0.5";
    }
    // Real windings lie between 0.2 and 5. Beyond 50 currents die within microseconds, which no
    // motor's do and no step follows.
    constexpr double most = 50.0;
    const double rotor = rotor_leakage_reactance_ohm;
    if (main_resistance_ohm > most * (main_leakage_reactance_ohm + rotor)) {
        return "main_resistance_ohm must be at most 50 x (main_leakage_reactance_ohm + "
               "rotor_leakage_reactance_ohm)";
    }
    if (aux_resistance_ohm >
        most * (aux_leakage_reactance_ohm + turns_ratio * turns_ratio * rotor)) {
        return "aux_resistance_ohm must be at most 50 x (aux_leakage_reactance_ohm + turns_ratio^2 "
               "x rotor_leakage_reactance_ohm)";
    }
    if (rotor_resistance_ohm > most * (main_leakage_reactance_ohm + rotor)) {
        return "rotor_resistance_ohm must be at most 50 x (main_leakage_reactance_ohm + "
               "rotor_leakage_reactance_ohm)";
    }
    return {};
}

}  // namespace plant_models
