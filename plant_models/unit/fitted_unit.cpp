#include "plant_models/unit/fitted_unit.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <type_traits>
#include <variant>

#include "plant_models/numeric/equal_steps.hpp"
#include "plant_models/numeric/step_share.hpp"
#include "plant_models/unit/oil_viscosity.hpp"

namespace plant_models {

namespace {

/// The shell cools with half an hour and is taken as straight between; its curvature leaves a few
/// thousandths of a kelvin.
constexpr double longest_rest_step_s = 5.0;

/// Auxiliary winding with the rotor short-circuited: what a fast change of its current sees.
double transient_inductance_H(const MotorParameters& motor) {
    const double magnetizing = motor.magnetizing_reactance_ohm;
    const double rotor = motor.rotor_leakage_reactance_ohm;
    const double reactance = motor.aux_leakage_reactance_ohm + motor.turns_ratio *
                                                                   motor.turns_ratio * magnetizing *
                                                                   rotor / (magnetizing + rotor);
    return reactance / motor.rated_angular_frequency_rad_per_s();
}

}  // namespace

FittedUnit::FittedUnit(const UnitParameters& unit, const MotorParameters& motor,
                       const Conditions& conditions)
    : ambient_C_(conditions.ambient_C),
      run_capacitance_F_(1e-6 * motor.run_capacitor_uF),
      auxiliary_inductance_H_(transient_inductance_H(motor)) {
    double shell_C = conditions.ambient_C;
    if (const auto* heat = std::get_if<HeatParameters>(&unit.heat)) {
        heat_.emplace(*heat, motor, conditions);
        shell_C = HeatNetwork::shell_C(heat_->initial_state().data());
    }
    if (const auto* protector = std::get_if<LineBreakParameters>(&unit.protector)) {
        protector_.emplace(*protector, conditions, shell_C);
    }
    if (const auto* module = std::get_if<ProtectionModuleParameters>(&unit.protection_module)) {
        module_.emplace(*module);
    }
    if (const auto* contactor = std::get_if<ContactorParameters>(&unit.contactor)) {
        contactor_.emplace(*contactor, motor.rated_voltage_V);
    }
    if (const auto* relay = std::get_if<PotentialRelayParameters>(&unit.start_aid)) {
        relay_.emplace(*relay, motor);
    }
    if (const auto* thermistor = std::get_if<ThermistorParameters>(&unit.start_aid)) {
        thermistor_.emplace(*thermistor, motor, conditions);
    }
}

template <class Self, class Use>
void FittedUnit::with_each(Self& self, Use use) {
    std::size_t state = 0;
    std::size_t guard = 0;
    const auto offer = [&](auto& fitting) {
        using Fitting = typename std::remove_reference_t<decltype(fitting)>::value_type;
        if (fitting) {
            use(*fitting, state, guard);
        }
        state += Fitting::state_count;
        guard += Fitting::guard_count;
    };
    offer(self.heat_);
    offer(self.protector_);
    offer(self.module_);
    offer(self.contactor_);
    offer(self.relay_);
    offer(self.thermistor_);
}

std::array<double, FittedUnit::state_count> FittedUnit::initial_state() const {
    std::array<double, state_count> x{};
    with_each(*this, [&x](const auto& fitting, std::size_t state, std::size_t) {
        const auto own = fitting.initial_state();
        std::copy(own.begin(), own.end(), x.begin() + static_cast<std::ptrdiff_t>(state));
    });
    return x;
}

UnitSignals FittedUnit::with_shell(const double* x, const UnitSignals& signals) const {
    UnitSignals result = signals;
    result.shell_C = heat_ ? HeatNetwork::shell_C(x + heat_at) : ambient_C_;
    return result;
}

void FittedUnit::derivatives(const double* x, double* dxdt, const UnitSignals& signals) const {
    std::fill(dxdt, dxdt + state_count, 0.0);
    UnitSignals felt = with_shell(x, signals);
    with_each(*this, [&](const auto& fitting, std::size_t state, std::size_t) {
        felt.coil_commanded = coil_commanded_for(fitting);
        fitting.derivatives(x + state, dxdt + state, felt);
    });
}

void FittedUnit::guards(const double* x, const UnitSignals& signals, double* values) const {
    std::fill(values, values + guard_count, 1.0);
    UnitSignals felt = with_shell(x, signals);
    with_each(*this, [&](const auto& fitting, std::size_t state, std::size_t guard) {
        felt.coil_commanded = coil_commanded_for(fitting);
        fitting.guards(x + state, felt, values + guard);
    });
}

bool FittedUnit::guard_is_kink(std::size_t /*guard*/) {
    // What a fitting decides is an event; none has a mere corner.
    return false;
}

void FittedUnit::on_guard(std::size_t guard, double* x) {
    with_each(*this, [&](auto& fitting, std::size_t state, std::size_t first) {
        if (guard >= first && guard - first < std::decay_t<decltype(fitting)>::guard_count) {
            fitting.on_guard(guard - first, x + state);
        }
    });
}

bool FittedUnit::settled(const double* x) const {
    bool all = true;
    with_each(*this, [&](const auto& fitting, std::size_t state, std::size_t) {
        all = all && fitting.settled(x + state);
    });
    return all;
}

void FittedUnit::rest(double* x, double duration_s, double& run_capacitor_V, double capacitance_F) {
    const EqualSteps steps = equal_steps(duration_s, longest_rest_step_s);
    RestStep step;
    step.duration_s = steps.length_s;
    const HeatNetwork::Cooling cooling =
        heat_ ? heat_->cooling(step.duration_s) : HeatNetwork::Cooling{};
    for (int k = 0; k < steps.count; ++k) {
        step.shell_begin_C = heat_ ? HeatNetwork::shell_C(x + heat_at) : ambient_C_;
        if (heat_) {
            heat_->cool(x + heat_at, cooling);
        }
        step.shell_end_C = heat_ ? HeatNetwork::shell_C(x + heat_at) : ambient_C_;
        const double leak_S = capacitor_leak_S(x);
        step.capacitor_heat_J = 0.0;
        if (leak_S > 0.0) {
            // A cooling thermistor conducts ever better, so this keeps rather too much.
            const double kept = std::exp(-2.0 * leak_S * step.duration_s / capacitance_F);
            const double stored_J = 0.5 * capacitance_F * run_capacitor_V * run_capacitor_V;
            step.capacitor_heat_J = (1.0 - kept) * stored_J;
            run_capacitor_V *= std::sqrt(kept);
        }
        const auto pass = [&](auto& fitting, std::size_t state) {
            if (fitting) {
                fitting->rest(x + state, step);
            }
        };
        pass(protector_, protector_at);
        pass(module_, module_at);
        pass(contactor_, contactor_at);
        pass(relay_, relay_at);
        pass(thermistor_, thermistor_at);
    }
}

void FittedUnit::continue_from(const FittedUnit& before) {
    const auto go_on = [](auto& fitting, const auto& with) {
        if (fitting && with) {
            fitting->continue_from(*with);
        }
    };
    go_on(protector_, before.protector_);
    go_on(module_, before.module_);
    go_on(contactor_, before.contactor_);
    go_on(relay_, before.relay_);
    go_on(thermistor_, before.thermistor_);
}

double FittedUnit::hotter_winding_C(const double* x) const {
    return heat_ ? std::max(x[heat_at + HeatNetwork::main_winding],
                            x[heat_at + HeatNetwork::aux_winding])
                 : 0.0;
}

double FittedUnit::oil_drag_factor(const double* x) const {
    return heat_ ? plant_models::oil_drag_factor(HeatNetwork::oil_C(x + heat_at)) : 1.0;
}

double FittedUnit::largest_step_s(const double* x) const {
    if (!thermistor_) {
        return std::numeric_limits<double>::infinity();
    }
    const double ohm = thermistor_->resistance_ohm(x + thermistor_at);
    if (thermistor_->is_across_run_capacitor()) {
        return step_share * ohm * run_capacitance_F_;
    }
    return thermistor_->carries_auxiliary() ? step_share * auxiliary_inductance_H_ / ohm
                                            : std::numeric_limits<double>::infinity();
}

std::string_view FittedUnit::trip_cause() const {
    if (protector_ && !protector_->closed()) {
        return protector_->trip_cause();
    }
    return module_ ? module_->trip_cause() : std::string_view();
}

std::vector<std::string_view> FittedUnit::channel_names() const {
    std::vector<std::string_view> names;
    with_each(*this, [&names](const auto& fitting, std::size_t, std::size_t) {
        for (const std::string_view name : fitting.channel_names()) {
            names.push_back(name);
        }
    });
    return names;
}

void FittedUnit::write_channels(const double* x, double* out) const {
    with_each(*this, [&](const auto& fitting, std::size_t state, std::size_t) {
        for (const double value : fitting.channels(x + state)) {
            *out++ = value;
        }
    });
}

}  // namespace plant_models
