// The unit gives every fitting its share of states and guards, and combines what they decide.
//
// The reference is each fitting by itself: a unit with several must do to each what it does alone.
#include "plant_models/unit/fitted_unit.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <string>
#include <vector>

#include "plant_models/unit/oil_viscosity.hpp"
#include "support/fittings.hpp"
#include "support/random_numbers.hpp"

namespace {

using namespace plant_models;
using State = std::array<double, FittedUnit::state_count>;
using Guards = std::array<double, FittedUnit::guard_count>;

// The order in which the header lists the fittings.
constexpr std::size_t protector_state = HeatNetwork::state_count;
constexpr std::size_t module_state = protector_state + LineBreakProtector::state_count;
constexpr std::size_t contactor_state = module_state + ProtectionModule::state_count;
constexpr std::size_t relay_state = contactor_state + ContactorCoil::state_count;
constexpr std::size_t thermistor_state = relay_state + PotentialRelay::state_count;
constexpr std::size_t protector_guard = HeatNetwork::guard_count;
constexpr std::size_t module_guard = protector_guard + LineBreakProtector::guard_count;
constexpr std::size_t contactor_guard = module_guard + ProtectionModule::guard_count;
constexpr std::size_t relay_guard = contactor_guard + ContactorCoil::guard_count;
constexpr std::size_t thermistor_guard = relay_guard + PotentialRelay::guard_count;

UnitParameters everything_with(
    const std::variant<NoStartAid, PotentialRelayParameters, ThermistorParameters>& aid) {
    UnitParameters unit;
    unit.heat = support::heat();
    unit.protector = support::quick_protector();
    unit.protection_module = support::start_watch();
    unit.contactor = support::contactor();
    unit.start_aid = aid;
    return unit;
}

FittedUnit fitted(const UnitParameters& unit,
                  const MotorParameters& motor = support::two_pole_motor(),
                  const Conditions& conditions = {}) {
    return FittedUnit(unit, motor, conditions);
}

UnitSignals random_signals(support::RandomNumbers& random) {
    UnitSignals signals;
    signals.supply_voltage_V = random.between(-400.0, 400.0);
    signals.line_connected = random.below(2) == 1;
    signals.coil_commanded = random.below(2) == 1;
    signals.line_current_A = random.between(-80.0, 80.0);
    signals.aux_current_A = random.between(-20.0, 20.0);
    signals.start_terminal_voltage_V = random.between(-500.0, 500.0);
    signals.run_capacitor_voltage_V = random.between(-500.0, 500.0);
    signals.auxiliary_branch_voltage_V = random.between(-500.0, 500.0);
    signals.shell_C = 1e9;  // the unit must put its own in its place
    signals.speed_rad_per_s = random.between(-370.0, 370.0);
    signals.main_copper_W = random.between(0.0, 5000.0);
    signals.aux_copper_W = random.between(0.0, 2000.0);
    signals.cage_W = random.between(0.0, 5000.0);
    signals.iron_W = random.between(0.0, 100.0);
    signals.friction_W = random.between(0.0, 100.0);
    return signals;
}

/// Expects a fitting's own derivatives and guards in the unit's, from the given positions on.
template <class Fitting>
void expect_share(const Fitting& alone, const UnitSignals& felt, const State& x, const State& rate,
                  const Guards& values, std::size_t state, std::size_t guard) {
    std::array<double, Fitting::state_count> own_rate{};
    alone.derivatives(x.data() + state, own_rate.data(), felt);
    for (std::size_t k = 0; k < own_rate.size(); ++k) {
        EXPECT_EQ(rate[state + k], own_rate[k]) << "state " << state + k;
    }
    std::array<double, Fitting::guard_count> own_values{};
    alone.guards(x.data() + state, felt, own_values.data());
    for (std::size_t k = 0; k < own_values.size(); ++k) {
        EXPECT_EQ(values[guard + k], own_values[k]) << "guard " << guard + k;
    }
}

State random_state(support::RandomNumbers& random) {
    State x{};
    for (std::size_t k = 0; k < protector_state; ++k) {
        x[k] = random.between(-20.0, 150.0);
    }
    x[protector_state] = random.between(20.0, 130.0);
    x[module_state] = random.between(0.0, 2000.0);
    x[module_state + 1] = random.between(0.0, 1.0);
    x[contactor_state] = random.between(0.0, 1.0);
    x[relay_state] = random.between(0.0, 1.5);
    x[thermistor_state] = random.between(0.0, 200.0);
    return x;
}

TEST(FittedUnit, WithNothingFittedHasNoInfluence) {
    FittedUnit unit = fitted({});
    UnitParameters nothing;
    EXPECT_TRUE(nothing.is_bare());
    const State x = unit.initial_state();
    EXPECT_EQ(x, State{});
    State rate{};
    rate.fill(7.0);
    Guards values{};
    support::RandomNumbers random(1);
    const UnitSignals signals = random_signals(random);
    unit.derivatives(x.data(), rate.data(), signals);
    unit.guards(x.data(), signals, values.data());
    EXPECT_EQ(rate, State{});
    for (const double value : values) {
        EXPECT_EQ(value, 1.0);
    }
    EXPECT_EQ(unit.resistance_factors(x.data()).main, 1.0);
    EXPECT_EQ(unit.resistance_factors(x.data()).aux, 1.0);
    EXPECT_EQ(unit.resistance_factors(x.data()).rotor, 1.0);
    EXPECT_EQ(unit.oil_drag_factor(x.data()), 1.0);
    EXPECT_EQ(unit.capacitor_leak_S(x.data()), 0.0);
    EXPECT_EQ(unit.auxiliary_series_ohm(x.data()), 0.0);
    EXPECT_FALSE(unit.auxiliary_through_thermistor());
    EXPECT_EQ(unit.largest_step_s(x.data()), std::numeric_limits<double>::infinity());
    EXPECT_TRUE(unit.line_closed());
    EXPECT_FALSE(unit.moves_contactor());
    EXPECT_FALSE(unit.moves_start_contact());
    EXPECT_FALSE(unit.start_contact_wanted());
    EXPECT_EQ(unit.trip_cause(), "");
    EXPECT_EQ(unit.contactor_drop_outs(), 0);
    EXPECT_TRUE(unit.channel_names().empty());
    unit.set_coil_commanded(true);
    EXPECT_FALSE(unit.moves_contactor());
}

TEST(UnitParameters, AreNotBareOnceAnythingIsFitted) {
    const UnitParameters all = everything_with(support::relay());
    for (int k = 0; k < 5; ++k) {
        UnitParameters one;
        switch (k) {
            case 0:
                one.heat = all.heat;
                break;
            case 1:
                one.protector = all.protector;
                break;
            case 2:
                one.protection_module = all.protection_module;
                break;
            case 3:
                one.contactor = all.contactor;
                break;
            default:
                one.start_aid = all.start_aid;
                break;
        }
        EXPECT_FALSE(one.is_bare()) << k;
        EXPECT_EQ(contactor_timing(one).has_value(), k == 3) << k;
        EXPECT_EQ(start_contact_timing(one).has_value(), k == 4) << k;
        EXPECT_EQ(start_aid_capacitor(one).start_capacitor_uF, k == 4 ? 130.0 : 0.0) << k;
        EXPECT_FALSE(fitted(one).channel_names().empty()) << k;
    }
    UnitParameters with_thermistor;
    with_thermistor.start_aid = support::thermistor();
    EXPECT_FALSE(with_thermistor.is_bare());
    EXPECT_FALSE(start_contact_timing(with_thermistor).has_value());
    EXPECT_EQ(start_aid_capacitor(with_thermistor).start_capacitor_uF, 0.0);
}

TEST(FittedUnit, DoesToEveryFittingWhatHappensToItAlone) {
    const MotorParameters motor = support::two_pole_motor();
    Conditions conditions;
    conditions.ambient_C = 17.0;
    conditions.rest_s = 900.0;
    support::RandomNumbers random(2);
    const HeatNetwork heat(support::heat(), motor, conditions);
    const double shell_C = HeatNetwork::shell_C(heat.initial_state().data());
    EXPECT_GT(shell_C, 20.0);
    const LineBreakProtector protector(support::quick_protector(), conditions, shell_C);
    const ProtectionModule module(support::start_watch());
    const ContactorCoil coil(support::contactor(), motor.rated_voltage_V);
    const PotentialRelay relay(support::relay(), motor);
    const Thermistor thermistor(support::thermistor(), motor, conditions);

    for (const bool with_relay : {true, false}) {
        FittedUnit unit = with_relay
                              ? fitted(everything_with(support::relay()), motor, conditions)
                              : fitted(everything_with(support::thermistor()), motor, conditions);
        State begin{};
        const auto heat_begin = heat.initial_state();
        std::copy(heat_begin.begin(), heat_begin.end(), begin.begin());
        begin[protector_state] = protector.initial_state()[0];
        begin[thermistor_state] = with_relay ? 0.0 : thermistor.initial_state()[0];
        EXPECT_EQ(unit.initial_state(), begin);
        for (int k = 0; k < 200; ++k) {
            const UnitSignals signals = random_signals(random);
            const bool commanded = random.below(2) == 1;
            unit.set_coil_commanded(commanded);
            const State x = random_state(random);
            State rate{};
            Guards values{};
            unit.derivatives(x.data(), rate.data(), signals);
            unit.guards(x.data(), signals, values.data());
            UnitSignals felt = signals;
            felt.shell_C = x[HeatNetwork::shell];
            felt.coil_commanded = commanded;
            expect_share(heat, felt, x, rate, values, 0, 0);
            expect_share(protector, felt, x, rate, values, protector_state, protector_guard);
            expect_share(module, felt, x, rate, values, module_state, module_guard);
            expect_share(coil, felt, x, rate, values, contactor_state, contactor_guard);
            if (with_relay) {
                expect_share(relay, felt, x, rate, values, relay_state, relay_guard);
                EXPECT_EQ(rate[thermistor_state], 0.0);
                EXPECT_EQ(values[thermistor_guard], 1.0);
                EXPECT_EQ(values[thermistor_guard + 1], 1.0);
            } else {
                expect_share(thermistor, felt, x, rate, values, thermistor_state, thermistor_guard);
                EXPECT_EQ(rate[relay_state], 0.0);
                EXPECT_EQ(values[relay_guard], 1.0);
                EXPECT_EQ(values[relay_guard + 1], 1.0);
            }
        }
    }
}

TEST(FittedUnit, ProtectorSitsAgainstTheShellOrInTheAmbientAir) {
    UnitParameters parameters;
    parameters.protector = support::quick_protector();
    Conditions conditions = support::rested(40.0);
    const auto protector_rate = [&](const FittedUnit& unit, double shell_C) {
        State x{};
        x.fill(shell_C);
        x[protector_state] = 60.0;
        State rate{};
        unit.derivatives(x.data(), rate.data(), UnitSignals{});
        return rate[protector_state];
    };
    const double tau_s =
        LineBreakProtector(support::quick_protector(), conditions, 40.0).time_constant_s();
    const FittedUnit in_air = fitted(parameters, support::two_pole_motor(), conditions);
    EXPECT_NEAR(protector_rate(in_air, 90.0), (40.0 - 60.0) / tau_s, 1e-9);
    parameters.heat = support::heat();
    const FittedUnit on_shell = fitted(parameters, support::two_pole_motor(), conditions);
    EXPECT_NEAR(protector_rate(on_shell, 90.0), (90.0 - 60.0) / tau_s, 1e-9);
}

TEST(FittedUnit, OilAndResistancesFollowTheHeat) {
    UnitParameters parameters;
    parameters.heat = support::heat();
    const FittedUnit unit = fitted(parameters);
    State x{};
    x[HeatNetwork::main_winding] = 115.0;
    x[HeatNetwork::aux_winding] = 65.0;
    x[HeatNetwork::rotor] = -5.0;
    x[HeatNetwork::shell] = -10.0;
    const auto ratio = [](double a, double at_C) {
        return (1.0 + a * (at_C - 20.0)) / (1.0 + a * (25.0 - 20.0));
    };
    EXPECT_NEAR(unit.resistance_factors(x.data()).main, ratio(0.00393, 115.0), 1e-12);
    EXPECT_NEAR(unit.resistance_factors(x.data()).aux, ratio(0.00393, 65.0), 1e-12);
    EXPECT_NEAR(unit.resistance_factors(x.data()).rotor, ratio(0.00403, -5.0), 1e-12);
    EXPECT_EQ(unit.oil_drag_factor(x.data()), oil_drag_factor(-10.0));
    EXPECT_GT(unit.oil_drag_factor(x.data()), 5.0);
}

TEST(FittedUnit, ADecisionReachesOnlyTheFittingWhoseGuardFired) {
    const FittedUnit fresh = fitted(everything_with(support::relay()));
    const auto decided = [&fresh](std::size_t guard) {
        FittedUnit unit = fresh;
        unit.set_coil_commanded(true);
        State x{};
        unit.on_guard(guard, x.data());
        return unit;
    };
    const FittedUnit opened =
        decided(protector_guard + static_cast<std::size_t>(LineBreakProtector::opens));
    EXPECT_FALSE(opened.line_closed());
    EXPECT_FALSE(opened.contactor_wanted());
    EXPECT_TRUE(opened.start_contact_wanted());
    EXPECT_EQ(opened.trip_cause(), "protector_opened");
    const FittedUnit pulled =
        decided(contactor_guard + static_cast<std::size_t>(ContactorCoil::pulls_in));
    EXPECT_TRUE(pulled.line_closed());
    EXPECT_TRUE(pulled.contactor_wanted());
    EXPECT_TRUE(pulled.start_contact_wanted());
    EXPECT_EQ(pulled.trip_cause(), "");
    const FittedUnit picked =
        decided(relay_guard + static_cast<std::size_t>(PotentialRelay::picks_up));
    EXPECT_TRUE(picked.line_closed());
    EXPECT_FALSE(picked.contactor_wanted());
    EXPECT_FALSE(picked.start_contact_wanted());
    for (std::size_t guard = 0; guard < FittedUnit::guard_count; ++guard) {
        EXPECT_FALSE(FittedUnit::guard_is_kink(guard)) << guard;
    }
}

TEST(FittedUnit, AModuleThatHoldsTheCoilOffIsNoDropOutOfTheContactor) {
    UnitParameters parameters = everything_with(NoStartAid{});
    FittedUnit unit = fitted(parameters);
    State x = unit.initial_state();
    x[contactor_state] = 1.0;
    unit.set_coil_commanded(true);
    unit.on_guard(contactor_guard + static_cast<std::size_t>(ContactorCoil::pulls_in), x.data());
    EXPECT_TRUE(unit.contactor_wanted());
    Guards values{};
    UnitSignals signals;
    unit.guards(x.data(), signals, values.data());
    EXPECT_NE(values[contactor_guard + static_cast<std::size_t>(ContactorCoil::lets_go_by_sag)],
              1.0);
    unit.on_guard(module_guard + static_cast<std::size_t>(ProtectionModule::call_begins), x.data());
    unit.on_guard(module_guard + static_cast<std::size_t>(ProtectionModule::inrush_missing),
                  x.data());
    EXPECT_EQ(unit.trip_cause(), "module_saw_no_start");
    unit.guards(x.data(), signals, values.data());
    EXPECT_EQ(values[contactor_guard + static_cast<std::size_t>(ContactorCoil::lets_go_by_sag)],
              1.0);
    EXPECT_NE(values[contactor_guard + static_cast<std::size_t>(ContactorCoil::lets_go_by_command)],
              1.0);
    // Its coil is not fed any more, whatever the line does.
    signals.supply_voltage_V = 325.0;
    State rate{};
    unit.derivatives(x.data(), rate.data(), signals);
    EXPECT_NEAR(rate[contactor_state], -x[contactor_state] / 0.02, 1e-9);
    unit.on_guard(contactor_guard + static_cast<std::size_t>(ContactorCoil::lets_go_by_command),
                  x.data());
    EXPECT_FALSE(unit.contactor_wanted());
    EXPECT_EQ(unit.contactor_drop_outs(), 0);
    // The call alone is what the module goes by: it still sees it.
    EXPECT_EQ(values[module_guard + static_cast<std::size_t>(ProtectionModule::call_ends)], 1.0);
}

TEST(FittedUnit, AModuleWithoutACoilIsTheContactorsCommandItself) {
    UnitParameters parameters;
    parameters.protection_module = support::start_watch();
    FittedUnit unit = fitted(parameters);
    State x = unit.initial_state();
    EXPECT_TRUE(unit.moves_contactor());
    EXPECT_FALSE(unit.contactor_wanted());
    unit.set_coil_commanded(true);
    EXPECT_TRUE(unit.contactor_wanted());
    unit.on_guard(module_guard + static_cast<std::size_t>(ProtectionModule::call_begins), x.data());
    EXPECT_TRUE(unit.contactor_wanted());
    unit.on_guard(module_guard + static_cast<std::size_t>(ProtectionModule::inrush_seen), x.data());
    unit.on_guard(module_guard + static_cast<std::size_t>(ProtectionModule::start_too_long),
                  x.data());
    EXPECT_FALSE(unit.contactor_wanted());
    EXPECT_EQ(unit.trip_cause(), "module_saw_locked_rotor");
    unit.on_guard(module_guard + static_cast<std::size_t>(ProtectionModule::lockout_over),
                  x.data());
    EXPECT_TRUE(unit.contactor_wanted());
    EXPECT_EQ(unit.trip_cause(), "");
    unit.set_coil_commanded(false);
    EXPECT_FALSE(unit.contactor_wanted());
}

TEST(FittedUnit, NamesTheOpenProtectorBeforeTheModule) {
    FittedUnit unit = fitted(everything_with(NoStartAid{}));
    State x = unit.initial_state();
    unit.on_guard(module_guard + static_cast<std::size_t>(ProtectionModule::call_begins), x.data());
    unit.on_guard(module_guard + static_cast<std::size_t>(ProtectionModule::inrush_missing),
                  x.data());
    unit.on_guard(protector_guard + static_cast<std::size_t>(LineBreakProtector::opens), x.data());
    EXPECT_EQ(unit.trip_cause(), "protector_opened");
    unit.on_guard(protector_guard + static_cast<std::size_t>(LineBreakProtector::closes), x.data());
    EXPECT_EQ(unit.trip_cause(), "module_saw_no_start");
}

TEST(FittedUnit, ThermistorLeaksAcrossARunCapacitorOrStandsInSeriesWithoutOne) {
    UnitParameters parameters;
    parameters.start_aid = support::thermistor();
    const MotorParameters motor = support::two_pole_motor();
    State x{};
    x[thermistor_state] = 120.0;  // twice the cold resistance
    const FittedUnit across = fitted(parameters, motor, support::rested());
    EXPECT_NEAR(across.capacitor_leak_S(x.data()), 1.0 / 66.0, 1e-9);
    EXPECT_EQ(across.auxiliary_series_ohm(x.data()), 0.0);
    EXPECT_FALSE(across.auxiliary_through_thermistor());
    FittedUnit series =
        fitted(parameters, support::without_run_capacitor(motor), support::rested());
    EXPECT_EQ(series.capacitor_leak_S(x.data()), 0.0);
    EXPECT_NEAR(series.auxiliary_series_ohm(x.data()), 66.0, 1e-6);
    EXPECT_TRUE(series.auxiliary_through_thermistor());

    // Seven tenths of the time constants: 40 uF with 66 ohm; the winding, its rotor
    // short-circuited.
    EXPECT_NEAR(across.largest_step_s(x.data()), 0.7 * 66.0 * 40e-6, 1e-9);
    const double omega = 2.0 * 3.14159265358979323846 * 60.0;
    const double transient_ohm = 1.35 + 1.15 * 1.15 * 52.0 * 1.25 / (52.0 + 1.25);
    EXPECT_NEAR(series.largest_step_s(x.data()), 0.7 * transient_ohm / omega / 66.0, 1e-10);
    series.on_guard(thermistor_guard + static_cast<std::size_t>(Thermistor::cuts_off), x.data());
    EXPECT_FALSE(series.auxiliary_through_thermistor());
    EXPECT_EQ(series.auxiliary_series_ohm(x.data()), 0.0);
    EXPECT_EQ(series.largest_step_s(x.data()), std::numeric_limits<double>::infinity());

    Conditions just_stopped;
    just_stopped.rest_s = 0.0;
    const FittedUnit hot = fitted(parameters, support::without_run_capacitor(motor), just_stopped);
    EXPECT_FALSE(hot.auxiliary_through_thermistor());
}

TEST(FittedUnit, ShowsAsManyChannelsAsItNamesInTheSameOrder) {
    const FittedUnit unit = fitted(everything_with(support::thermistor()));
    const std::vector<std::string_view> names = unit.channel_names();
    const std::vector<std::string_view> expected = {
        "main_winding_C",   "aux_winding_C", "rotor_C",      "shell_C",       "protector_C",
        "module_current_A", "coil_V",        "thermistor_C", "thermistor_ohm"};
    EXPECT_EQ(names, expected);
    EXPECT_LE(names.size(), FittedUnit::channel_count);
    State x{};
    x[0] = 1.0;
    x[1] = 2.0;
    x[2] = 3.0;
    x[3] = 4.0;
    x[protector_state] = 5.0;
    x[module_state] = 36.0;
    x[contactor_state] = 0.25;
    x[thermistor_state] = 120.0;
    std::array<double, FittedUnit::channel_count> values{};
    values.fill(-1.0);
    unit.write_channels(x.data(), values.data());
    const std::vector<double> shown = {1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 115.0, 120.0, 66.0};
    for (std::size_t k = 0; k < shown.size(); ++k) {
        EXPECT_NEAR(values[k], shown[k], 1e-9) << names[k];
    }
    for (std::size_t k = shown.size(); k < values.size(); ++k) {
        EXPECT_EQ(values[k], -1.0) << k;
    }
}

}  // namespace
