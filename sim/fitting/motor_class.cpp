#include "sim/fitting/motor_class.hpp"

namespace sim {

namespace {

constexpr std::string_view judgement = "engineering judgement";

std::vector<HardFigure> printed_figures(const Nameplate& plate) {
    using F = MotorFigures;
    std::vector<HardFigure> hard = {{"locked_rotor_current_A", "locked-rotor current",
                                     &F::locked_rotor_current_A, plate.locked_rotor_current_A},
                                    {"rated_load_current_A", "rated-load current",
                                     &F::rated_load_current_A, plate.rated_load_current_A}};
    if (const auto shaft_W = plate.printed_shaft_W()) {
        hard.push_back({"shaft_power_W", "power at the shaft", &F::shaft_power_W, *shaft_W});
    }
    return hard;
}

/// Only where no shaft power is printed; where one is, currents and power already fix it.
void add_efficiency(std::vector<SoftFigure>& soft, const Nameplate& plate) {
    const double apparent_VA = plate.rated_apparent_VA();
    const double lowest = apparent_VA < 500.0 ? 0.50 : apparent_VA < 2000.0 ? 0.65 : 0.78;
    const double highest = apparent_VA < 500.0 ? 0.80 : apparent_VA < 2000.0 ? 0.87 : 0.91;
    soft.push_back(
        {"efficiency", "efficiency", &MotorFigures::efficiency, lowest, highest, judgement});
    // Isentropic 4.4 (R410A) and 4.8 (R22) at 7.2 / 54.4 C, times 0.6 to 0.8 for the compressor;
    // down to 1.2 for a freezer.
    soft.push_back({"cooling_ratio", "heat moved / power at the shaft",
                    &MotorFigures::cooling_ratio, 1.2, 3.9,
                    "isentropic work of R410A and R22 (computed), 0.6 to 0.8 of it reached"});
}

MotorClass with_run_capacitor() {
    using F = MotorFigures;
    MotorClass motor;
    motor.soft = {
        {"locked_rotor_power_factor", "locked-rotor power factor", &F::locked_rotor_power_factor,
         0.58, 0.74,
         "residential compressors stall at 0.71 to 0.74 (composite-load parameter sets); lower end "
         "by judgement"},
        {"rated_power_factor", "power factor at rated load", &F::rated_power_factor, 0.95, 0.99,
         "0.97 for residential units (composite-load parameter sets)"},
        {"rated_slip", "slip at rated load", &F::rated_slip, 0.02, 0.06, judgement},
        {"breakdown_ratio", "breakdown / rated torque", &F::breakdown_ratio, 2.0, 3.0, judgement},
        {"locked_rotor_torque_share", "locked-rotor / rated torque", &F::locked_rotor_torque_share,
         0.15, 0.40, judgement},
        {"capacitor_voltage_ratio", "capacitor / line voltage", &F::capacitor_voltage_ratio, 1.2,
         1.9, "run capacitors of 230 V units are rated 370 or 440 V (common practice)"}};
    motor.main_resistance = {0.015, 0.05, 0.3};
    motor.main_leakage = {0.02, 0.08, 0.3};
    motor.rotor_resistance = {0.015, 0.06, 0.3};
    motor.magnetizing = {1.0, 2.3, 5.0};
    motor.rotor_leakage_ratio = {0.5, 1.0, 2.0};
    motor.turns_ratio = {0.8, 1.2, 2.2};
    motor.aux_resistance_ratio = {1.0, 2.0, 5.0};
    motor.aux_leakage_ratio = {0.5, 1.0, 2.0};
    motor.rated_slip = {0.02, 0.04, 0.06};
    motor.iron_share = {0.05, 0.2, 0.4};
    motor.mechanical_share = {0.03, 0.1, 0.3};
    return motor;
}

/// Below half a kVA resistance and magnetizing current weigh more, in every one of these figures.
MotorClass small_with_run_capacitor() {
    MotorClass motor = with_run_capacitor();
    const auto band = [&motor](std::string_view name, double lowest, double highest) {
        for (SoftFigure& soft : motor.soft) {
            if (soft.name == name) {
                soft.lowest = lowest;
                soft.highest = highest;
                soft.origin = judgement;
            }
        }
    };
    band("locked_rotor_power_factor", 0.58, 0.85);
    band("rated_power_factor", 0.85, 0.99);
    band("rated_slip", 0.02, 0.07);
    band("breakdown_ratio", 1.8, 3.5);
    band("locked_rotor_torque_share", 0.15, 0.6);
    band("capacitor_voltage_ratio", 1.1, 2.0);
    motor.main_resistance = {0.02, 0.08, 0.3};
    motor.rotor_resistance = {0.02, 0.1, 0.4};
    motor.rated_slip = {0.02, 0.045, 0.07};
    return motor;
}

MotorClass on_main_winding_alone() {
    using F = MotorFigures;
    MotorClass motor;
    motor.soft = {
        {"locked_rotor_power_factor", "locked-rotor power factor", &F::locked_rotor_power_factor,
         0.6, 0.95, judgement},
        {"rated_power_factor", "power factor at rated load", &F::rated_power_factor, 0.5, 0.8,
         "0.62 for a 1/4 hp motor on its main winding (Fitzgerald, Kingsley, Umans, Electric "
         "Machinery, 6th ed., example 9.2)"},
        {"rated_slip", "slip at rated load", &F::rated_slip, 0.02, 0.07, judgement},
        {"breakdown_ratio", "breakdown / rated torque", &F::breakdown_ratio, 1.8, 3.0, judgement},
        {"locked_rotor_torque_share", "locked-rotor / rated torque", &F::locked_rotor_torque_share,
         0.8, 3.0, judgement}};
    motor.main_resistance = {0.02, 0.08, 0.3};
    motor.main_leakage = {0.02, 0.09, 0.3};
    motor.rotor_resistance = {0.02, 0.12, 0.4};
    motor.magnetizing = {0.8, 2.0, 5.0};
    motor.rotor_leakage_ratio = {0.5, 1.0, 2.0};
    motor.turns_ratio = {0.6, 1.1, 2.0};
    motor.aux_resistance_ratio = {1.0, 2.5, 8.0};
    motor.aux_leakage_ratio = {0.4, 0.8, 2.0};
    motor.rated_slip = {0.02, 0.045, 0.07};
    motor.iron_share = {0.05, 0.2, 0.4};
    motor.mechanical_share = {0.03, 0.1, 0.3};
    return motor;
}

}  // namespace

MotorClass class_of(const Nameplate& plate) {
    MotorClass motor = !plate.has_run_capacitor()          ? on_main_winding_alone()
                       : plate.rated_apparent_VA() < 500.0 ? small_with_run_capacitor()
                                                           : with_run_capacitor();
    motor.hard = printed_figures(plate);
    if (!plate.printed_shaft_W()) {
        add_efficiency(motor.soft, plate);
    }
    return motor;
}

}  // namespace sim
