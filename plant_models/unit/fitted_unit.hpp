// A unit with whatever a scenario fits around the motor. It holds the fittings, gives each its
// share of the states and guards, and says what their decisions mean together:
//
//   coil circuit of the contactor    call, and the protection module's contact
//   line path                        contactor, and the protector in the common lead
//   start contact                    the potential relay's, if that is the start aid
//
// What a unit offers to the plant is written in bare_unit.hpp. A fitting that is not there has
// states that rest at zero and guards that are never armed.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

#include "plant_models/conditions.hpp"
#include "plant_models/motor/motor_parameters.hpp"
#include "plant_models/unit/bare_unit.hpp"
#include "plant_models/unit/unit_parameters.hpp"

namespace plant_models {

class FittedUnit {
  public:
    static constexpr bool is_fitted = true;
    static constexpr std::size_t state_count =
        HeatNetwork::state_count + LineBreakProtector::state_count + ProtectionModule::state_count +
        ContactorCoil::state_count + PotentialRelay::state_count + Thermistor::state_count;
    static constexpr std::size_t guard_count =
        HeatNetwork::guard_count + LineBreakProtector::guard_count + ProtectionModule::guard_count +
        ContactorCoil::guard_count + PotentialRelay::guard_count + Thermistor::guard_count;
    static constexpr std::size_t channel_count =
        HeatNetwork::channel_count + LineBreakProtector::channel_count +
        ProtectionModule::channel_count + ContactorCoil::channel_count +
        PotentialRelay::channel_count + Thermistor::channel_count;

    FittedUnit(const UnitParameters& unit, const MotorParameters& motor,
               const Conditions& conditions);

    std::array<double, state_count> initial_state() const;
    void derivatives(const double* x, double* dxdt, const UnitSignals& signals) const;
    void guards(const double* x, const UnitSignals& signals, double* values) const;
    static bool guard_is_kink(std::size_t guard);
    void on_guard(std::size_t guard, double* x);
    /// Contacts have fallen back to where they stay without a call, whatever is still warm.
    bool settled(const double* x) const;
    /// Advances what is slow over a rest with the line open; the thermistor, if any, empties the
    /// run capacitor into itself.
    void rest(double* x, double duration_s, double& run_capacitor_V, double capacitance_F);

    /// The same fittings with other numbers go on, at rest, with the states of `before`.
    void continue_from(const FittedUnit& before);

    WindingFactors resistance_factors(const double* x) const {
        return heat_ ? heat_->resistance_factors(x + heat_at) : WindingFactors{};
    }
    bool has_heat() const { return heat_.has_value(); }
    /// Of the two stator windings; 0 where heat is not modelled.
    double hotter_winding_C(const double* x) const;
    double oil_drag_factor(const double* x) const;
    double capacitor_leak_S(const double* x) const {
        return thermistor_ ? thermistor_->conductance_S(x + thermistor_at) : 0.0;
    }
    double auxiliary_series_ohm(const double* x) const {
        return thermistor_ ? thermistor_->series_ohm(x + thermistor_at) : 0.0;
    }
    bool auxiliary_through_thermistor() const {
        return thermistor_ && thermistor_->carries_auxiliary();
    }
    /// Of the thermistor with the run capacitor, or with the auxiliary winding's inductance.
    double largest_step_s(const double* x) const;

    void set_coil_commanded(bool commanded) { commanded_ = commanded; }
    bool line_closed() const { return !protector_ || protector_->closed(); }
    bool moves_contactor() const { return contactor_ || module_; }
    bool contactor_wanted() const {
        return contactor_ ? contactor_->wants_closed() : coil_circuit_closed();
    }
    bool moves_start_contact() const { return relay_.has_value(); }
    bool start_contact_wanted() const { return relay_ && relay_->contact_wanted(); }
    std::string_view trip_cause() const;
    int contactor_drop_outs() const { return contactor_ ? contactor_->drop_outs() : 0; }

    std::vector<std::string_view> channel_names() const;
    void write_channels(const double* x, double* out) const;

  private:
    // Where each fitting's states and guards begin.
    static constexpr std::size_t heat_at = 0;
    static constexpr std::size_t protector_at = heat_at + HeatNetwork::state_count;
    static constexpr std::size_t module_at = protector_at + LineBreakProtector::state_count;
    static constexpr std::size_t contactor_at = module_at + ProtectionModule::state_count;
    static constexpr std::size_t relay_at = contactor_at + ContactorCoil::state_count;
    static constexpr std::size_t thermistor_at = relay_at + PotentialRelay::state_count;

    /// Calls `use(fitting, states begin, guards begin)` with each fitting that is there. `Self` is
    /// this class or its const.
    template <class Self, class Use>
    static void with_each(Self& self, Use use);

    bool coil_circuit_closed() const { return commanded_ && (!module_ || module_->permits()); }
    /// The signals with the shell's temperature, as the protector feels it.
    UnitSignals with_shell(const double* x, const UnitSignals& signals) const;
    /// What a fitting sees as the coil circuit: the module the call alone, the coil all of it.
    bool coil_commanded_for(const ProtectionModule&) const { return commanded_; }
    template <class Fitting>
    bool coil_commanded_for(const Fitting&) const {
        return coil_circuit_closed();
    }

    std::optional<HeatNetwork> heat_;
    std::optional<LineBreakProtector> protector_;
    std::optional<ProtectionModule> module_;
    std::optional<ContactorCoil> contactor_;
    std::optional<PotentialRelay> relay_;
    std::optional<Thermistor> thermistor_;
    double ambient_C_;
    double run_capacitance_F_;
    double auxiliary_inductance_H_;
    bool commanded_ = false;
};

}  // namespace plant_models
