// What can be read off the plant at one instant: the truth that sensors, monitors, metrics and the
// trace look at. Terminal names and signs are those of the firmware's frames: voltages to C,
// currents out of the supply and into the motor.
#pragma once

#include <array>
#include <cstddef>
#include <string_view>

namespace plant_models {

inline constexpr std::size_t most_model_channels = 28;

struct PlantOutputs {
    double time_s = 0.0;
    double line_voltage_V = 0.0;  ///< at the supply's terminal, on the supply side of the contactor
    double line_current_A = 0.0;
    double line_current_rate_A_per_s = 0.0;
    double main_current_A = 0.0;
    double aux_current_A = 0.0;
    double start_capacitor_current_A = 0.0;
    double start_terminal_voltage_V = 0.0;  ///< S to C
    double run_capacitor_voltage_V = 0.0;   ///< L1 to S
    double start_capacitor_voltage_V = 0.0;
    double blocking_voltage_V = 0.0;  ///< across the thyristor pair; 0 while the main path conducts
    double torque_Nm = 0.0;
    double load_torque_Nm = 0.0;  ///< load and friction, as they act on the rotor
    double speed_rad_per_s = 0.0;
    double acceleration_rad_per_s2 = 0.0;
    double supply_frequency_Hz = 0.0;
    bool line_connected = false;
    bool main_conducting = false;  ///< the main winding's path is closed, and the motor is there
    bool thyristor_conducting = false;
    bool bypass_closed = false;
    bool start_capacitor_in = false;
    bool gate_on = false;
    bool rotor_stuck = false;
    bool has_winding_temperature = false;  ///< heat is modelled
    double hotter_winding_C = 0.0;         ///< of the two stator windings
    std::string_view supply_trip;          ///< empty while the supply has not tripped
    std::string_view unit_trip;            ///< what holds the unit off now; empty if nothing does
    int contactor_drop_outs = 0;           ///< of a contactor that was commanded to stay closed
    /// Of the supply, the load and the unit, in this order; named by PlantRun::channel_names.
    std::array<double, most_model_channels> model_channels{};
};

/// Energy since the start of the run, in joules. `stored_J` is the change since then.
struct EnergyAudit {
    double source_J = 0.0;
    double copper_J = 0.0;  ///< windings and cage
    double wiring_J = 0.0;  ///< supply resistance, capacitor losses, inside the supply
    double switch_J = 0.0;  ///< thyristors, contacts, arcs
    double iron_J = 0.0;
    double friction_J = 0.0;  ///< bearings and windage of the motor
    double load_J = 0.0;      ///< mechanical work on the load
    double stored_J = 0.0;

    double loss_J() const { return copper_J + wiring_J + switch_J + iron_J + friction_J; }
    /// What is missing, as a share of the energy that passed; 0 when nothing passed.
    double closure() const;
};

}  // namespace plant_models
