// The plant with a unit: resistances that follow the heat, a thermistor, a protector and a supply's
// own breaker in the line, signals that reach the fittings.
#include <gtest/gtest.h>

#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

#include "plant_models/loads/polynomial.hpp"
#include "plant_models/motor/winding_inductances.hpp"
#include "plant_models/numeric/units.hpp"
#include "plant_models/supplies/generator.hpp"
#include "plant_models/supplies/grid.hpp"
#include "support/acting_plant.hpp"
#include "support/event_checks.hpp"
#include "support/fittings.hpp"
#include "support/random_numbers.hpp"

namespace {

using namespace plant_models;
using Fitted = support::ActingPlant<Grid, PolynomialLoad, FittedUnit>;
using P = Fitted::Plant;
using Bare = support::ActingPlant<Grid, PolynomialLoad, BareUnit>;

constexpr std::size_t heat_at = P::first_unit_state;
constexpr std::size_t protector_at = heat_at + HeatNetwork::state_count;
constexpr std::size_t contactor_at =
    protector_at + LineBreakProtector::state_count + ProtectionModule::state_count;
constexpr std::size_t thermistor_at =
    contactor_at + ContactorCoil::state_count + PotentialRelay::state_count;
constexpr std::size_t protector_opens = P::first_unit_guard + LineBreakProtector::opens;
constexpr std::size_t protector_closes = P::first_unit_guard + LineBreakProtector::closes;
constexpr std::size_t thermistor_guards = P::first_unit_guard + FittedUnit::guard_count -
                                          static_cast<std::size_t>(Thermistor::guard_count);

const SeriesImpedance some_wiring{0.35, 0.6e-3};

Fitted fitted(const UnitParameters& unit, const MotorParameters& motor = support::lossy_motor(),
              const SeriesImpedance& wiring = {}, double speed_rad_per_s = 0.0) {
    return Fitted(
        P(motor, support::table_defaults<LimiterParameters>(), Grid(support::weak_grid()),
          PolynomialLoad(support::fan()), FittedUnit(unit, motor, support::rested()), wiring),
        speed_rad_per_s);
}

UnitParameters with_protector() {
    UnitParameters unit;
    unit.protector = support::quick_protector();
    return unit;
}

UnitParameters with_heat_and(
    const std::variant<NoStartAid, PotentialRelayParameters, ThermistorParameters>& aid) {
    UnitParameters unit;
    unit.heat = support::heat();
    unit.start_aid = aid;
    return unit;
}

/// On the line through the bypass, running.
Fitted running(const UnitParameters& unit, const MotorParameters& motor = support::lossy_motor()) {
    Fitted acting = fitted(unit, motor, {}, 140.0);
    acting.coil(true);
    acting.line(true);
    acting.bypass(true);
    acting.run_until(0.2);
    return acting;
}

void randomise_temperatures(Fitted& acting, support::RandomNumbers& random) {
    for (std::size_t k = 0; k < HeatNetwork::state_count; ++k) {
        acting.x[heat_at + k] = random.between(-30.0, 160.0);
    }
    acting.x[thermistor_at] = random.between(0.0, 140.0);
}

TEST(FittedPlant, WithNothingFittedMovesExactlyLikeABareOne) {
    const MotorParameters motor = support::lossy_motor();
    const auto limiter = support::table_defaults<LimiterParameters>();
    Fitted with = fitted({});
    Bare without(
        Bare::Plant(motor, limiter, Grid(support::weak_grid()), PolynomialLoad(support::fan())));
    const auto both = [&](auto event) {
        event(with);
        event(without);
    };
    both([](auto& acting) {
        acting.coil(true);
        acting.start(true);
        acting.line(true);
        acting.gate(true);
        acting.run_until(0.12);
        acting.bypass(true);
        acting.gate(false);
        acting.run_until(0.4);
        acting.start(false);
        acting.run_until(0.6);
        acting.line(false);
        acting.run_until(0.7);
    });
    EXPECT_GT(without.x[Bare::Plant::speed], 5.0);
    EXPECT_GT(without.events.size(), 5U);
    ASSERT_EQ(with.events.size(), without.events.size());
    for (std::size_t k = 0; k < without.x.size(); ++k) {
        EXPECT_NEAR(with.x[k], without.x[k], 1e-12 * (1.0 + std::abs(without.x[k]))) << k;
    }
    EXPECT_EQ(with.outputs().unit_trip, "");
    EXPECT_EQ(with.outputs().contactor_drop_outs, 0);
}

struct Position {
    bool line;
    bool main;
    bool start;
    double rotation;
};

/// Moves the switches with the public handlers, then puts a random state there that they allow.
Fitted at_random_state(const UnitParameters& unit, const MotorParameters& motor,
                       const Position& position, support::RandomNumbers& random) {
    Fitted acting = fitted(unit, motor, some_wiring, 100.0 * position.rotation);
    acting.start(position.start);
    acting.bypass(position.main);
    acting.line(position.line);
    const bool auxiliary = motor.run_capacitor_uF > 0.0 || position.start ||
                           acting.plant.unit().auxiliary_through_thermistor();
    const bool loop = !position.line && position.main && auxiliary;
    acting.x[P::main_current] =
        position.main && (position.line || loop) ? random.between(-90.0, 90.0) : 0.0;
    acting.x[P::aux_current] = loop                         ? -acting.x[P::main_current]
                               : position.line && auxiliary ? random.between(-40.0, 40.0)
                                                            : 0.0;
    acting.x[P::rotor_main_current] = random.between(-90.0, 90.0);
    acting.x[P::rotor_aux_current] = random.between(-90.0, 90.0);
    if (motor.run_capacitor_uF > 0.0 || position.start) {
        acting.x[P::capacitor_voltage] = random.between(-600.0, 600.0);
    }
    acting.x[P::speed] = position.rotation * random.between(0.5, 300.0);
    randomise_temperatures(acting, random);
    acting.time_s = random.between(0.0, 0.5);
    acting.refresh();
    return acting;
}

struct Machine {
    std::string name;
    UnitParameters unit;
    MotorParameters motor;
};

std::vector<Machine> machines() {
    const MotorParameters lossy = support::lossy_motor();
    return {{"heat", with_heat_and(NoStartAid{}), lossy},
            {"thermistor across", with_heat_and(support::thermistor()), lossy},
            {"thermistor in series", with_heat_and(support::thermistor()),
             support::without_run_capacitor(lossy)}};
}

template <class Check>
void at_random_states(std::uint64_t seed, Check check) {
    support::RandomNumbers random(seed);
    for (const Machine& machine : machines()) {
        for (int k = 0; k < 24 * 12; ++k) {
            const Position position{k % 2 == 1, k / 2 % 2 == 1, k / 4 % 2 == 1,
                                    static_cast<double>(k / 8 % 3 - 1)};
            SCOPED_TRACE(machine.name + ", line " + std::to_string(position.line) + ", main " +
                         std::to_string(position.main) + ", start " +
                         std::to_string(position.start) + ", rotation " +
                         std::to_string(position.rotation));
            check(at_random_state(machine.unit, machine.motor, position, random), machine.motor);
            if (testing::Test::HasFailure()) {
                return;
            }
        }
    }
}

TEST(FittedPlant, KeepsItsEnergyBalanceAtEveryTemperature) {
    at_random_states(31, [](const Fitted& acting, const MotorParameters&) {
        EXPECT_NEAR(support::missing_power_W(acting), 0.0, 3e-4);  // of tens of kilowatts
        EXPECT_GE(acting.rate[P::copper_energy], 0.0);
        EXPECT_GE(acting.rate[P::wiring_energy], 0.0);
    });
}

TEST(FittedPlant, ObeysTheVoltageLawWithTheResistancesOfTheMoment) {
    at_random_states(32, [](const Fitted& acting, const MotorParameters& motor) {
        const auto& x = acting.x;
        const auto& rate = acting.rate;
        const auto factor = [&](double a, std::size_t node) {
            return (1.0 + a * (x[heat_at + node] - 20.0)) / (1.0 + a * 5.0);
        };
        const double r_main = motor.main_resistance_ohm * factor(0.00393, 0);
        const double r_aux = motor.aux_resistance_ohm * factor(0.00393, 1);
        const double r_rotor = motor.rotor_resistance_ohm * factor(0.00403, 2);
        const double copper_W =
            r_main * x[0] * x[0] + r_aux * x[1] * x[1] + r_rotor * (x[2] * x[2] + x[3] * x[3]);
        EXPECT_NEAR(rate[P::copper_energy], copper_W, 1e-9 * copper_W);

        // Flux linkages and their rates, from the inductance matrix of the motor alone.
        const WindingMatrix inductances = winding_inductances(motor, 0.0);
        std::array<double, 4> flux{};
        std::array<double, 4> flux_rate{};
        for (std::size_t k = 0; k < 4; ++k) {
            for (std::size_t j = 0; j < 4; ++j) {
                flux[k] += inductances[k][j] * x[j];
                flux_rate[k] += inductances[k][j] * rate[j];
            }
        }
        const double electrical = 0.5 * motor.poles * x[P::speed];
        EXPECT_NEAR(r_rotor * x[2] + flux_rate[2] - electrical * flux[3], 0.0, 1e-6);
        EXPECT_NEAR(r_rotor * x[3] + flux_rate[3] + electrical * flux[2], 0.0, 1e-6);

        const auto out = acting.outputs();
        const auto& unit = acting.plant.unit();
        const double s_V = r_aux * x[1] + flux_rate[1];
        EXPECT_NEAR(out.start_terminal_voltage_V, s_V, 1e-6);
        const bool series = unit.auxiliary_through_thermistor();
        const Thermistor thermistor(support::thermistor(), motor, support::rested());
        const double thermistor_ohm = thermistor.resistance_at_ohm(x[thermistor_at]);
        const bool has_run = motor.run_capacitor_uF > 0.0;
        const auto limiter = support::table_defaults<LimiterParameters>();
        const double run_F = 1e-6 * motor.run_capacitor_uF;
        const double start_F = out.start_capacitor_in ? 1e-6 * limiter.start_capacitor_uF : 0.0;
        double branch_ohm = series ? thermistor_ohm : 0.0;
        double leak_A = 0.0;
        if (run_F + start_F > 0.0) {
            const double share = start_F / (run_F + start_F);
            branch_ohm += motor.run_capacitor_esr_ohm * (1.0 - share) * (1.0 - share) +
                          limiter.start_capacitor_esr_ohm * share * share;
            leak_A = has_run && unit.capacitor_leak_S(x.data() + heat_at) > 0.0
                         ? x[P::capacitor_voltage] / thermistor_ohm
                         : 0.0;
            EXPECT_NEAR(rate[P::capacitor_voltage], (x[1] - leak_A) / (run_F + start_F), 1e-6);
        }
        const bool aux_flows = has_run || out.start_capacitor_in || series;
        const double through_aux = x[P::capacitor_voltage] + branch_ohm * x[1] + s_V;
        const double through_main =
            (out.bypass_closed ? limiter.bypass_resistance_ohm : 0.0) * x[0] + r_main * x[0] +
            flux_rate[0];
        if (out.line_connected && aux_flows) {
            EXPECT_NEAR(out.line_voltage_V, through_aux, 1e-5);
        }
        if (out.line_connected && out.main_conducting) {
            EXPECT_NEAR(out.line_voltage_V, through_main, 1e-5);
        }
        if (!out.line_connected && out.main_conducting && aux_flows) {
            EXPECT_NEAR(through_main, through_aux, 1e-5);
        }
        const double line_A = x[0] + x[1];
        const double wiring_W = (1.3 + some_wiring.resistance_ohm) * line_A * line_A +
                                branch_ohm * x[1] * x[1] + leak_A * x[P::capacitor_voltage];
        EXPECT_NEAR(rate[P::wiring_energy], wiring_W, 1e-9 * (1.0 + wiring_W));
    });
}

TEST(FittedPlant, GivesItsLossesToTheNodesWhereTheyArise) {
    support::RandomNumbers random(33);
    const MotorParameters motor = support::lossy_motor();
    const HeatNetwork alone(support::heat(), motor, support::rested());
    for (int k = 0; k < 40; ++k) {
        const Position position{true, true, false, k % 2 == 0 ? 1.0 : -1.0};
        const Fitted acting = at_random_state(with_heat_and(NoStartAid{}), motor, position, random);
        const auto factors = acting.plant.unit().resistance_factors(acting.x.data() + heat_at);
        const auto out = acting.outputs();
        const double speed = std::abs(acting.x[P::speed]);
        UnitSignals signals;
        signals.speed_rad_per_s = acting.x[P::speed];
        signals.main_copper_W = factors.main * motor.main_resistance_ohm *
                                acting.x[P::main_current] * acting.x[P::main_current];
        signals.aux_copper_W = factors.aux * motor.aux_resistance_ohm * acting.x[P::aux_current] *
                               acting.x[P::aux_current];
        signals.cage_W =
            acting.rate[P::copper_energy] - signals.main_copper_W - signals.aux_copper_W;
        signals.iron_W =
            motor.iron_loss_W * out.line_voltage_V * out.line_voltage_V / 230.0 / 230.0;
        // Load and motor friction; the fan's own work is friction to the plant, too.
        signals.friction_W = std::abs(out.load_torque_Nm) * speed;
        std::array<double, HeatNetwork::state_count> expected{};
        alone.derivatives(acting.x.data() + heat_at, expected.data(), signals);
        for (std::size_t node = 0; node < expected.size(); ++node) {
            EXPECT_NEAR(acting.rate[heat_at + node], expected[node],
                        1e-9 * (1.0 + std::abs(expected[node])))
                << node;
        }
    }
}

TEST(FittedPlant, AWarmMotorDrawsLessWithItsRotorHeld) {
    // Ohm's law in the mean: hot windings and a hot cage let less current through.
    const auto mean_square = [](double winding_C) {
        MotorParameters motor = support::lossy_motor();
        motor.inertia_kg_m2 = 10.0;  // as good as held
        Fitted acting = fitted(with_heat_and(NoStartAid{}), motor);
        for (std::size_t k = 0; k < HeatNetwork::state_count; ++k) {
            acting.x[heat_at + k] = winding_C;
        }
        acting.bypass(true);
        acting.line(true);
        acting.run_until(0.3);
        double sum = 0.0;
        for (int k = 0; k < 200; ++k) {
            acting.run_until(acting.time_s + 1e-4);
            sum += acting.line_current_A() * acting.line_current_A() / 200.0;
        }
        return sum;
    };
    EXPECT_LT(mean_square(130.0), 0.95 * mean_square(25.0));
}

TEST(FittedPlant, ALongRunClosesItsAuditWithEverythingSwitchedOn) {
    for (const Machine& machine : machines()) {
        UnitParameters unit = machine.unit;
        unit.protector = support::quick_protector();
        unit.contactor = support::contactor();
        unit.protection_module = support::start_watch();
        Fitted acting = fitted(unit, machine.motor, some_wiring);
        acting.coil(true);
        acting.line(true);
        acting.bypass(true);
        acting.run_until(1.5);
        EXPECT_LT(acting.energy().closure(), 1e-6) << machine.name;
        EXPECT_GT(acting.energy().source_J, 100.0) << machine.name;
        EXPECT_GT(acting.x[heat_at], 25.5) << machine.name;  // it did become warm
    }
}

TEST(SupplyOrUnit, WireTheirGuardsBehindEachOther) {
    EXPECT_EQ(P::guard_count, P::first_supply_guard + Grid::guard_count + FittedUnit::guard_count);
    for (std::size_t k = P::first_unit_guard; k < P::guard_count; ++k) {
        EXPECT_FALSE(P::guard_is_kink(k));
    }
    // Each of the unit's guards is seen under its own number.
    UnitParameters unit = with_protector();
    unit.start_aid = support::thermistor();
    Fitted acting = fitted(unit, support::without_run_capacitor(support::lossy_motor()));
    acting.x[protector_at] = 100.0;
    acting.refresh();
    EXPECT_NEAR(acting.guard(protector_opens), 7.0, 1e-12);
    EXPECT_EQ(acting.guard(protector_closes), 1.0);
    EXPECT_GT(acting.guard(thermistor_guards + Thermistor::cuts_off), 28.0);
}

TEST(Protector, OpensUnderCurrentWithAnArcAndLeavesNoLineCurrent) {
    for (const bool with_bypass : {true, false}) {
        const MotorParameters motor = support::lossy_motor();
        Fitted acting = running(with_protector(), motor);
        if (!with_bypass) {
            acting.bypass(false);
            ASSERT_TRUE(acting.run_to_event(P::main_current_zero, acting.time_s + 0.02));
        }
        while (std::abs(acting.line_current_A()) < 1.0) {
            acting.run_until(acting.time_s + 1e-4);
        }
        const double sign = acting.line_current_A() > 0.0 ? 1.0 : -1.0;
        acting.x[protector_at] = 107.0;
        const auto before = acting.x;
        acting.fire(protector_opens);
        EXPECT_EQ(acting.x, before);
        EXPECT_EQ(acting.outputs().unit_trip, "protector_opened");
        EXPECT_TRUE(acting.outputs().line_connected);
        EXPECT_NEAR(acting.guard(P::line_contact_arc_out),
                    sign * acting.line_current_A() - StartCircuit::arc_minimum_A, 1e-12);

        // Up to just before the arc goes out, then over it by hand.
        const double opened_s = acting.time_s;
        Fitted last = acting;
        while (acting.outputs().line_connected) {
            last = acting;
            acting.run_until(acting.time_s + 2e-5, 2e-5);
            ASSERT_LT(acting.time_s, opened_s + 0.0201);
        }
        EXPECT_NEAR(sign * last.line_current_A(), StartCircuit::arc_minimum_A, 0.3);
        support::expect_rotor_flux_is_kept(last, motor, [&] {
            support::expect_audit_closes_across(last, [&] { last.fire(P::line_contact_arc_out); });
        });
        EXPECT_EQ(last.line_current_A(), 0.0);
        EXPECT_FALSE(last.outputs().line_connected);
        if (!with_bypass) {
            EXPECT_EQ(last.x[P::main_current], 0.0);
            EXPECT_EQ(last.x[P::aux_current], 0.0);
        }
        const double source_J = acting.energy().source_J;
        acting.run_until(acting.time_s + 0.1);
        EXPECT_EQ(acting.line_current_A(), 0.0);
        EXPECT_EQ(acting.outputs().line_current_A, 0.0);
        EXPECT_EQ(acting.energy().source_J, source_J);
        EXPECT_LT(acting.energy().closure(), 1e-6);
    }
}

TEST(Protector, LeavesTheLoopOfBothBranchesItsFlux) {
    // What the line no longer carries vanishes; the loop main - auxiliary keeps its flux linkage.
    const MotorParameters motor = support::lossy_motor();
    const WindingMatrix inductances = winding_inductances(motor, 0.0);
    const auto loop_flux = [&](const Fitted& acting) {
        double flux = 0.0;
        for (std::size_t j = 0; j < 4; ++j) {
            flux += (inductances[0][j] - inductances[1][j]) * acting.x[j];
        }
        return flux;
    };
    for (const double left_A : {0.39, -0.39, 1e-3}) {
        Fitted acting = running(with_protector(), motor);
        acting.x[P::aux_current] = left_A - acting.x[P::main_current];
        acting.refresh();
        const double before = loop_flux(acting);
        EXPECT_GT(std::abs(before), 0.01);
        // So little current that no arc burns.
        support::expect_rotor_flux_is_kept(acting, motor, [&] {
            support::expect_audit_closes_across(acting, [&] { acting.fire(protector_opens); });
        });
        EXPECT_FALSE(acting.outputs().line_connected);
        EXPECT_EQ(acting.x[P::main_current], -acting.x[P::aux_current]);
        EXPECT_NE(acting.x[P::main_current], 0.0);
        EXPECT_NEAR(loop_flux(acting), before, 1e-13);
    }
}

TEST(Protector, ThatClosesAgainFeedsTheMotorOnlyThroughAClosedContactor) {
    for (const bool contactor : {true, false}) {
        Fitted acting = running(with_protector());
        acting.x[protector_at] = 107.0;
        acting.fire(protector_opens);
        acting.run_until(acting.time_s + 0.05);
        ASSERT_FALSE(acting.outputs().line_connected);
        acting.line(contactor);
        EXPECT_FALSE(acting.outputs().line_connected);
        acting.x[protector_at] = 71.0;  // as cool as a disc that closes
        support::expect_audit_closes_across(acting, [&] { acting.fire(protector_closes); });
        EXPECT_EQ(acting.outputs().line_connected, contactor);
        EXPECT_EQ(acting.outputs().unit_trip, "");
        acting.run_until(acting.time_s + 0.05);
        EXPECT_EQ(std::abs(acting.line_current_A()) > 0.1, contactor);
        EXPECT_LT(acting.energy().closure(), 1e-6);
    }
}

TEST(Protector, ThatClosesWhileItsArcStillBurnsKeepsTheLine) {
    Fitted acting = running(with_protector());
    while (std::abs(acting.line_current_A()) < 2.0) {
        acting.run_until(acting.time_s + 1e-4);
    }
    acting.fire(protector_opens);
    acting.fire(protector_closes);
    EXPECT_TRUE(acting.outputs().line_connected);
    EXPECT_EQ(acting.guard(P::line_contact_arc_out), 1.0);
}

TEST(Protector, TripsWhenItsOwnLawSaysSoAndLetsTheMotorGo) {
    // Held rotor: a constant current but for its ripple, so the law has a closed form.
    MotorParameters motor = support::lossy_motor();
    motor.inertia_kg_m2 = 10.0;
    UnitParameters unit = with_protector();
    auto protector = support::quick_protector();
    protector.trip_time_s = 3.0;
    unit.protector = protector;
    Fitted acting = fitted(unit, motor);
    acting.bypass(true);
    acting.line(true);
    acting.run_until(0.4);
    double mean_square = 0.0;
    for (int k = 0; k < 200; ++k) {
        acting.run_until(acting.time_s + 1e-4);
        mean_square += acting.line_current_A() * acting.line_current_A() / 200.0;
    }
    // The iron's current is in phase with the voltage; two amperes of thirty do not matter below.
    const double begin_s = acting.time_s;
    const double begin_C = acting.x[protector_at];
    const double end_C = 25.0 + (107.0 - 25.0) * mean_square / (12.0 * 12.0);
    ASSERT_GT(end_C, 130.0);
    const double tau_s = LineBreakProtector(protector, support::rested(), 25.0).time_constant_s();
    const double expected_s = begin_s + tau_s * std::log((end_C - begin_C) / (end_C - 107.0));
    ASSERT_TRUE(acting.run_to_event(protector_opens, 10.0));
    EXPECT_NEAR(acting.time_s, expected_s, 0.02 * (expected_s - begin_s));
    EXPECT_NEAR(acting.x[protector_at], 107.0, 1e-6);
    acting.run_until(acting.time_s + 0.02);
    EXPECT_FALSE(acting.outputs().line_connected);
}

TEST(Thermistor, AcrossTheRunCapacitorDischargesItOnceTheLineIsOff) {
    UnitParameters unit;
    auto thermistor = support::thermistor();
    thermistor.heat_capacity_J_per_K = 100.0;  // keeps its temperature for the length of the test
    unit.start_aid = thermistor;
    Fitted acting = fitted(unit);
    acting.x[P::capacitor_voltage] = 200.0;
    acting.refresh();
    const double ohm =
        Thermistor(thermistor, support::lossy_motor(), support::rested()).resistance_at_ohm(25.0);
    const double stored_J = acting.energy().stored_J;
    acting.run_until(2e-3, 2e-5);
    EXPECT_NEAR(acting.x[P::capacitor_voltage], 200.0 * std::exp(-2e-3 / (ohm * 25e-6)), 0.02);
    EXPECT_NEAR(acting.energy().wiring_J, stored_J - acting.energy().stored_J, 1e-6);
    EXPECT_GT(acting.energy().wiring_J, 0.4);
}

TEST(Thermistor, InSeriesHeatsUpCutsTheAuxiliaryOffAndLetsItConductAgain) {
    const MotorParameters motor = support::without_run_capacitor(support::lossy_motor());
    UnitParameters unit;
    unit.start_aid = support::thermistor();
    Fitted acting = fitted(unit, motor);
    acting.line(true);
    acting.bypass(true);
    EXPECT_NE(acting.rate[P::aux_current], 0.0);
    ASSERT_TRUE(acting.run_to_event(thermistor_guards + Thermistor::cuts_off, 5.0));
    EXPECT_GT(acting.time_s, 0.1);
    EXPECT_EQ(acting.x[P::aux_current], 0.0);
    EXPECT_EQ(acting.rate[P::aux_current], 0.0);
    EXPECT_NEAR(acting.outputs().model_channels[1], 30.0 * 33.0, 15.0);
    EXPECT_LT(acting.energy().closure(), 1e-6);
    const double speed_then = acting.x[P::speed];
    acting.run_until(acting.time_s + 0.3);
    EXPECT_EQ(acting.x[P::aux_current], 0.0);
    EXPECT_GT(acting.x[P::speed], 0.9 * speed_then);
    // The voltage across the open branch keeps it hot: it does not conduct again by itself.
    EXPECT_GT(acting.rate[thermistor_at], -1.0);

    acting.x[thermistor_at] = 100.0;
    acting.refresh();
    EXPECT_LT(acting.guard(thermistor_guards + Thermistor::conducts_again), 0.0);
    support::expect_audit_closes_across(
        acting, [&] { acting.fire(thermistor_guards + Thermistor::conducts_again); });
    EXPECT_NEAR(acting.x[P::aux_current], 0.0, 1e-12);
    EXPECT_GT(std::abs(acting.rate[P::aux_current]), 1.0);
    acting.run_until(acting.time_s + 0.05);
    EXPECT_GT(std::abs(acting.x[P::aux_current]), 1e-3);
    EXPECT_LT(acting.energy().closure(), 1e-6);
}

TEST(Thermistor, CutOffUnderCurrentKeepsTheCagesFluxAndBooksWhatIsLost) {
    const MotorParameters motor = support::without_run_capacitor(support::lossy_motor());
    UnitParameters unit;
    unit.start_aid = support::thermistor();
    Fitted acting = fitted(unit, motor);
    acting.line(true);
    acting.bypass(true);
    acting.run_until(0.05);
    ASSERT_GT(std::abs(acting.x[P::aux_current]), 0.1);
    const double switch_J = acting.energy().switch_J;
    support::expect_rotor_flux_is_kept(acting, motor, [&] {
        support::expect_audit_closes_across(
            acting, [&] { acting.fire(thermistor_guards + Thermistor::cuts_off); });
    });
    EXPECT_EQ(acting.x[P::aux_current], 0.0);
    EXPECT_GT(acting.energy().switch_J, switch_J);
}

TEST(Contactor, CoilIsFedFromTheTerminalWhileItsCircuitIsClosed) {
    UnitParameters unit;
    unit.contactor = support::contactor();
    Fitted acting = fitted(unit);
    acting.time_s = 0.004;
    acting.refresh();
    EXPECT_EQ(acting.rate[contactor_at], 0.0);
    acting.coil(true);
    const double share = acting.outputs().line_voltage_V / 230.0;
    EXPECT_GT(share * share, 0.1);
    EXPECT_NEAR(acting.rate[contactor_at], share * share / 0.02, 1e-9);
    EXPECT_FALSE(acting.plant.unit().contactor_wanted());
    ASSERT_TRUE(
        acting.run_to_event([](std::size_t guard) { return guard >= P::first_unit_guard; }, 0.1));
    EXPECT_TRUE(acting.plant.unit().contactor_wanted());
    EXPECT_NEAR(acting.x[contactor_at], 0.25, 1e-9);
    // The decision alone moves nothing: whoever drives the plant moves the contacts.
    EXPECT_FALSE(acting.outputs().line_connected);
}

// A generator whose breaker opens says so for good.
using OnGenerator = support::ActingPlant<Generator, PolynomialLoad, FittedUnit>;
using G = OnGenerator::Plant;
constexpr std::size_t breaker = G::first_supply_guard + Generator::breaker_instant;

OnGenerator on_generator() {
    auto generator = support::table_defaults<GeneratorParameters>();
    generator.voltage_V = 230.0;
    generator.frequency_Hz = 50.0;
    generator.rated_power_VA = 7000.0;
    MotorParameters motor = support::lossy_motor();
    UnitParameters unit;
    unit.contactor = support::contactor();
    OnGenerator acting(
        G(motor, support::table_defaults<LimiterParameters>(), Generator(generator),
          PolynomialLoad(support::fan()), FittedUnit(unit, motor, support::rested())),
        140.0);
    acting.coil(true);
    acting.line(true);
    acting.bypass(true);
    acting.run_until(0.2);
    return acting;
}

TEST(Supply, ThatHasDisconnectedOpensTheLineForGood) {
    OnGenerator acting = on_generator();
    while (std::abs(acting.line_current_A()) < 2.0) {
        acting.run_until(acting.time_s + 1e-4);
    }
    ASSERT_TRUE(acting.outputs().line_connected);
    ASSERT_NE(acting.outputs().line_voltage_V, 0.0);
    const double sign = acting.line_current_A() > 0.0 ? 1.0 : -1.0;
    acting.fire(breaker);
    EXPECT_EQ(acting.outputs().supply_trip, "generator_breaker");
    EXPECT_TRUE(acting.outputs().line_connected);  // the arc
    EXPECT_EQ(acting.outputs().line_voltage_V, 0.0);
    const double opened_s = acting.time_s;
    while (acting.outputs().line_connected) {
        EXPECT_GT(sign * acting.line_current_A(), 0.0);
        acting.run_until(acting.time_s + 1e-4);
        ASSERT_LT(acting.time_s, opened_s + 0.012);
    }
    EXPECT_EQ(acting.line_current_A(), 0.0);
    acting.line(false);
    acting.line(true);
    EXPECT_FALSE(acting.outputs().line_connected);
    acting.run_until(acting.time_s + 0.05);
    EXPECT_EQ(acting.outputs().line_current_A, 0.0);
    EXPECT_LT(acting.energy().closure(), 1e-6);
}

TEST(Supply, ThatHasDisconnectedDoesNotFeedTheCoil) {
    OnGenerator acting = on_generator();
    constexpr std::size_t coil_at = G::first_unit_state + HeatNetwork::state_count +
                                    LineBreakProtector::state_count + ProtectionModule::state_count;
    ASSERT_GT(acting.x[coil_at], 0.5);
    acting.fire(breaker);
    EXPECT_NEAR(acting.rate[coil_at], -acting.x[coil_at] / 0.02, 1e-9);
    acting.run_until(acting.time_s + 0.1);
    EXPECT_FALSE(acting.plant.unit().contactor_wanted());
}

}  // namespace
