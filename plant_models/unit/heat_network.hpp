// Temperatures inside the compressor: four nodes and the air around it as the sink.
//
//   main winding ──G_m──┐
//   aux winding  ──G_a──┼── shell, core and oil ──G_s(speed)── ambient
//   rotor        ──G_r──┘
//
//   C_m dT_m/dt = P_main - G_m (T_m - T_s)         likewise auxiliary and rotor
//   C_s dT_s/dt = P_iron + P_friction + sum of the three flows - G_s (T_s - T_amb)
//   G_s = (sum of all C) [(1 - s) / tau_rest + s / tau_running],  s = |speed| / synchronous speed
//   G_m = C_m / tau_winding                        likewise auxiliary and rotor
//   R(T) / R(T_ref) = [1 + a (T - 20)] / [1 + a (T_ref - 20)]
//
//   symbol | meaning                                                        | unit
//   a      | 0.00393 copper, 0.00403 aluminium cage, at 20 C                | 1/K
//   T_ref  | resistance_temperature_C: the motor's resistances hold there   | C
//   C      | mass x specific heat: copper 385, rotor 526, shell 500         | J/K
//
// The rotor is one node: within a start its core follows the cage that is cast into it. While it
// runs, the refrigerant carries off most of the heat; here that is a better conductance to ambient.
// At rest the whole unit cools with tau_rest (and some per cent, for the inner nodes lag behind).
// Heat that the compressed gas brings to the shell is left out.
//
// Sources: lumped network, usual form. The coefficients are those of IEC 60028 (copper) and
// commercial-purity aluminium (secondary: handbook tables that quote them); cast alloys may lie
// some per cent lower. Specific heats: textbook values, the mixtures computed from them (rotor 15 %
// aluminium in steel; shell with oil).
//
// Masses that are 0 follow from the motor: a winding whose locked-rotor current, at 30 A/mm2, is
// the motor's has I^2 R density / (J^2 resistivity) of copper. With that density it warms by about
// 5 K/s with the rotor locked, and carries 6 A/mm2 at a ratio of 5 to the rated current. This and
// all time constants and rises are engineering judgement.
#pragma once

#include <array>
#include <cstddef>
#include <string_view>

#include "plant_models/conditions.hpp"
#include "plant_models/motor/motor_parameters.hpp"
#include "plant_models/parameter_table.hpp"
#include "plant_models/unit/bare_unit.hpp"
#include "plant_models/unit/fitting_interface.hpp"

namespace plant_models {

inline constexpr double copper_coefficient_per_K = 0.00393;
inline constexpr double aluminium_coefficient_per_K = 0.00403;

/// Resistance at one temperature / at another; the coefficient is the one at 20 C.
constexpr double resistance_ratio(double coefficient_per_K, double temperature_C,
                                  double reference_C) {
    return (1.0 + coefficient_per_K * (temperature_C - 20.0)) /
           (1.0 + coefficient_per_K * (reference_C - 20.0));
}

struct HeatParameters {
    static constexpr std::string_view kind = "four_nodes";

    double resistance_temperature_C = 0.0;
    double main_winding_mass_kg = 0.0;           ///< copper; 0: from the motor, see above
    double aux_winding_mass_kg = 0.0;            ///< copper; 0: half of the main winding's
    double rotor_mass_kg = 0.0;                  ///< cage and core; 0: 2.5 x the main winding's
    double shell_mass_kg = 0.0;                  ///< all that is left; 0: 10 x the main winding's
    double winding_time_constant_s = 0.0;        ///< towards the shell
    double rotor_time_constant_s = 0.0;          ///< towards the shell
    double shell_time_constant_s = 0.0;          ///< of the whole unit towards ambient, at rest
    double running_shell_time_constant_s = 0.0;  ///< the same at synchronous speed
    double winding_rise_K = 0.0;                 ///< above the shell after a long run
    double rotor_rise_K = 0.0;                   ///< above the shell after a long run
    double shell_rise_K = 0.0;                   ///< above ambient after a long run

    /// The same parameters with every "0: derived" filled in.
    HeatParameters completed(const MotorParameters& motor) const;

    static const ParameterTable<HeatParameters>& table();
    /// One sentence that says what is wrong between fields that are each in bounds; empty if none.
    std::string_view inconsistency() const;
};

/// The model; its members are described in fitting_interface.hpp.
class HeatNetwork {
  public:
    enum StateIndex : std::size_t { main_winding, aux_winding, rotor, shell };  // all in C
    static constexpr std::size_t state_count = 4;
    static constexpr std::size_t guard_count = 0;
    static constexpr std::size_t channel_count = 4;

    HeatNetwork(const HeatParameters& heat, const MotorParameters& motor,
                const Conditions& conditions);

    /// After a long run and `rest_s` of rest: every rise decays with its own time constant, the
    /// shell's towards what the crankcase heater keeps.
    std::array<double, state_count> initial_state() const;
    void derivatives(const double* x, double* dxdt, const UnitSignals& signals) const;
    void guards(const double* /*x*/, const UnitSignals&, double* /*values*/) const {}
    static bool guard_is_kink(std::size_t) { return false; }
    void on_guard(std::size_t, double* /*x*/) {}
    static bool settled(const double* /*x*/) { return true; }
    /// In closed form: exp(A t), where A is the network's matrix with the rotor at rest.
    void rest(double* x, const RestStep& step) { cool(x, cooling(step.duration_s)); }

    /// What a rest makes of the four temperatures above ambient.
    using Cooling = std::array<std::array<double, state_count>, state_count>;
    Cooling cooling(double duration_s) const;
    void cool(double* x, const Cooling& cooling) const;

    /// Of the three resistances, at the temperatures of the moment.
    WindingFactors resistance_factors(const double* x) const;
    static double shell_C(const double* x) { return x[shell]; }
    /// The oil lies in the shell and has its temperature.
    static double oil_C(const double* x) { return x[shell]; }
    /// To the surroundings (and the refrigerant).
    double given_off_W(const double* x, double speed_rad_per_s) const;
    /// Above that of all nodes at ambient.
    double stored_energy_J(const double* x) const;

    static std::array<std::string_view, channel_count> channel_names() {
        return {"main_winding_C", "aux_winding_C", "rotor_C", "shell_C"};
    }
    std::array<double, channel_count> channels(const double* x) const {
        return {x[main_winding], x[aux_winding], x[rotor], x[shell]};
    }

  private:
    HeatParameters parameters_;
    Conditions conditions_;
    std::array<double, state_count> capacity_J_per_K_;
    std::array<double, shell> to_shell_W_per_K_;  ///< of each node but the shell
    double at_rest_W_per_K_;
    double running_gain_W_per_K_s_;  ///< conductance that each rad/s adds
};

}  // namespace plant_models
