// What is printed on a unit, as a file gives it: the table [nameplate].
//
// Every key is bounded; what no single key can show to be wrong (a locked rotor that draws less
// than a running one, a capacitor that belongs to another motor) is refused by `inconsistency`,
// whose criteria stand in nameplate.cpp.
#pragma once

#include <optional>
#include <string>

namespace sim {

inline constexpr double watts_per_hp = 745.7;
/// One ton of refrigeration.
inline constexpr double watts_per_ton = 3517.0;

struct Nameplate {
    std::string title;
    /// Either the one voltage or the two ends of a range.
    std::optional<double> voltage_V, lowest_voltage_V, highest_voltage_V;
    double frequency_Hz = 0.0;  ///< 50 or 60
    double rated_load_current_A = 0.0;
    double locked_rotor_current_A = 0.0;
    /// 0: none; a thermistor feeds the auxiliary winding while starting.
    double run_capacitor_uF = 0.0;
    std::optional<double> start_thermistor_ohm;
    /// At least one of the three. The first two are the shaft's, the last is the refrigerant's.
    std::optional<double> power_hp, shaft_power_W, cooling_capacity_W;
    std::optional<double> poles;
    std::optional<std::string> compressor, gas;

    /// The voltage that the currents belong to: of a range, the highest.
    double rated_voltage_V() const;
    double rated_apparent_VA() const { return rated_voltage_V() * rated_load_current_A; }
    bool has_run_capacitor() const { return run_capacitor_uF > 0.0; }
    /// The printed shaft power; the one in watts if both are there. None: only cooling is known.
    std::optional<double> printed_shaft_W() const;
    /// Two unless printed.
    int pole_count() const { return poles ? static_cast<int>(*poles) : 2; }
    /// In series with the auxiliary winding while a motor without a run capacitor starts: the cold
    /// thermistor, as printed, or half the impedance of the locked motor (judgement).
    double starting_resistance_ohm() const;

    /// One sentence that says what is wrong between the keys, beginning with one; empty if nothing.
    std::string inconsistency() const;
};

}  // namespace sim
