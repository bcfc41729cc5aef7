// What everything fitted around the motor offers (thermal network, protector, coil, thermistor...),
// and what it is told. A fitting has states of its own, which are integrated with the plant, and
// guards, whose zeros are events; it moves a contact only in `on_guard`.
//
// A fitting class F has:
//   static constexpr std::size_t state_count, guard_count
//   std::array<double, state_count> initial_state() const
//   void derivatives(const double* x, double* dxdt, const UnitSignals&) const
//   void guards(const double* x, const UnitSignals&, double* values) const
//   static bool guard_is_kink(std::size_t)           as in supplies/supply_interface.hpp
//   void on_guard(std::size_t, double* x)
//   bool settled(const double* x) const              nothing but its slow states moves any more
//   void rest(double* x, const RestStep&)            advances these, the line being open
//   void continue_from(const F& before)              the same fitting with other numbers goes on,
//                                                    at rest, with the states of `before`; only
//                                                    one that decides
// and what it decides or influences, under names of its own.
#pragma once

namespace plant_models {

/// The plant as the fittings feel it, at one instant.
struct UnitSignals {
    double supply_voltage_V = 0.0;  ///< at L1, on the supply side of the contactor
    bool line_connected = false;    ///< the motor is on the line
    bool coil_commanded = false;    ///< the thermostat's contact in the coil circuit is closed
    double line_current_A = 0.0;
    double aux_current_A = 0.0;
    double start_terminal_voltage_V = 0.0;    ///< S to C
    double run_capacitor_voltage_V = 0.0;     ///< L1 to S
    double auxiliary_branch_voltage_V = 0.0;  ///< L1 to S while connected, capacitor or not
    double shell_C = 25.0;  ///< what the protector sits against; ambient where heat is not modelled
    double speed_rad_per_s = 0.0;
    double main_copper_W = 0.0;
    double aux_copper_W = 0.0;
    double cage_W = 0.0;
    double iron_W = 0.0;
    double friction_W = 0.0;  ///< motor and compressor bearings
};

/// A part of a rest, short against the shell's cooling.
struct RestStep {
    double duration_s = 0.0;
    double shell_begin_C = 25.0;
    double shell_end_C = 25.0;
    double capacitor_heat_J = 0.0;  ///< what a resistance across the run capacitor takes from it
};

}  // namespace plant_models
