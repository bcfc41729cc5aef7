// Residential cooling compressors under low voltage, against two sources:
//
// - the "Motor D" parameter sets in composite-load models of open grid-simulation sources (seen):
//   stall voltage 0.45 to 0.70 pu; stalled impedance 0.124 + j0.114 pu, others 0.1 + j0.1, which is
//   5.9 to 7.1 times the base current at a power factor of 0.71 to 0.74; a stall develops in
//   0.033 s; above 0.90 pu, after 0.40 s, the part that can restart restarts;
// - N. Lu, Y. Xie, Z. Huang, Air Conditioner Compressor Performance Model, PNNL-17796, 2008 (seen:
//   abstract): 27 units tested by three laboratories; one of them is 3.5 kVA.
//
// The units: nameplates of 208/230 V, 60 Hz outdoor units (seen), fitted by this program.
//
// The base matters. On their own rated current these nameplates stall at 4.6 to 5.9 times, below
// the sets' 5.9 to 7.1; on the 3.5 kVA of a tested unit the two of three tons lie inside. A
// nameplate's rated current is more than a unit draws at its rating.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <complex>
#include <string>
#include <vector>

#include "plant_models/motor/steady_state.hpp"
#include "plant_models/numeric/units.hpp"
#include "plant_models/unit/heat_network.hpp"
#include "sim/bench/start_run.hpp"
#include "sim/fitting/acceptance.hpp"
#include "sim/fitting/constrained_search.hpp"
#include "sim/fitting/fit_file.hpp"

namespace {

using plant_models::MotorParameters;

constexpr double voltage_V = 230.0;
constexpr double frequency_Hz = 60.0;
constexpr double cycle_s = 1.0 / frequency_Hz;
constexpr double synchronous_rpm = 3600.0;

// Published (see above).
constexpr int lowest_stall_voltage_percent = 45;
constexpr int highest_stall_voltage_percent = 70;
constexpr double lowest_stall_current_pu = 5.9;
constexpr double highest_stall_current_pu = 7.1;
constexpr double lowest_stall_power_factor = 0.71;
constexpr double highest_stall_power_factor = 0.74;
constexpr double published_stall_s = 0.033;
constexpr double published_restart_pu = 0.90;
constexpr double tested_unit_VA = 3500.0;

struct Plate {
    double tons, rated_A, locked_A, capacitor_uF;
};
// Currents from nameplates (seen); the capacitors are usual for the size (judgement).
const std::vector<Plate> three_tons = {{3, 17.6, 90, 40}, {3, 16.2, 96, 40}};
const std::vector<Plate> larger = {{4, 23.6, 120, 50}, {4, 23.3, 118, 50}, {5, 30.8, 141, 70}};

std::string text_of(const Plate& plate) {
    return "[nameplate]\nlowest_voltage_V = 208\nhighest_voltage_V = 230\nfrequency_Hz = 60\n"
           "rated_load_current_A = " +
           std::to_string(plate.rated_A) +
           "\nlocked_rotor_current_A = " + std::to_string(plate.locked_A) +
           "\nrun_capacitor_uF = " + std::to_string(plate.capacitor_uF) +
           "\ncooling_capacity_W = " + std::to_string(sim::watts_per_ton * plate.tons) +
           "\ncompressor = \"scroll\"\ngas = \"R410A\"\n";
}

sim::NameplateFit fitted(const Plate& plate) {
    return sim::fit_nameplate_text(text_of(plate), "unit.toml");
}

plant_models::SteadyState stalled(const MotorParameters& motor) {
    return plant_models::locked_rotor(motor, {voltage_V, frequency_Hz, 0.0, 0.0},
                                      run_connection(motor));
}

/// Winding and rotor temperatures of a unit that has run long on a day of 46 C (115 F).
MotorParameters as_hot_as_running(MotorParameters motor) {
    plant_models::HeatParameters heat;
    for (const auto& row : plant_models::HeatParameters::table()) {
        heat.*std::get<double plant_models::HeatParameters::*>(row.member) =
            row.default_value.value();
    }
    plant_models::Conditions conditions;
    conditions.ambient_C = 46.0;
    conditions.rest_s = 0.0;
    const plant_models::HeatNetwork network(heat, motor, conditions);
    const auto factors = network.resistance_factors(network.initial_state().data());
    motor.main_resistance_ohm *= factors.main;
    motor.aux_resistance_ohm *= factors.aux;
    motor.rotor_resistance_ohm *= factors.rotor;
    return motor;
}

// ---- the stalled unit ---------------------------------------------------------------------------

TEST(StalledUnit, OfThreeTonsDrawsThePublishedMultipleOfATestedUnitsCurrent) {
    for (const Plate& plate : three_tons) {
        const MotorParameters motor = fitted(plate).fitted.motor;
        const double multiple =
            std::abs(stalled(motor).line_current_A) / (tested_unit_VA / voltage_V);
        EXPECT_GT(multiple, lowest_stall_current_pu) << plate.locked_A;
        EXPECT_LT(multiple, highest_stall_current_pu) << plate.locked_A;
    }
}

TEST(StalledUnit, CrossesThePublishedPowerFactorsAsItsWindingsWarmUp) {
    // Cold, as the nameplate's current is understood, the fitted motors stall at 0.66 to 0.68,
    // below the published band; with the windings of a long run on a hot day above it.
    std::vector<Plate> plates = three_tons;
    plates.insert(plates.end(), larger.begin(), larger.end());
    for (const Plate& plate : plates) {
        const MotorParameters motor = fitted(plate).fitted.motor;
        const double cold = stalled(motor).power_factor;
        const double hot = stalled(as_hot_as_running(motor)).power_factor;
        EXPECT_LT(cold, lowest_stall_power_factor) << plate.locked_A;
        EXPECT_GT(cold, lowest_stall_power_factor - 0.06) << plate.locked_A;
        EXPECT_GT(hot, highest_stall_power_factor) << plate.locked_A;
        EXPECT_LT(hot, highest_stall_power_factor + 0.06) << plate.locked_A;
    }
}

/// A motor of the fit's own class with this stalled impedance, in units of rated voltage over rated
/// current; all its other figures free within the class.
sim::Candidate motor_stalling_at(std::complex<double> impedance_pu, double rated_A,
                                 sim::MotorClass* motor_class) {
    const sim::NameplateFit near = fitted({3, rated_A, rated_A / std::abs(impedance_pu), 40});
    *motor_class = near.motor_class;
    const sim::MotorSpace space(near.nameplate, near.motor_class);
    const double power_factor = impedance_pu.real() / std::abs(impedance_pu);
    sim::SearchProblem problem;
    problem.dimension = space.dimension();
    problem.equality_count = near.motor_class.hard.size() + 1;
    problem.inequality_count = 2 * near.motor_class.soft.size();
    const std::vector<double> usual = space.usual();
    problem.evaluate = [&](const double* place, double* values) {
        const sim::Candidate one = space.at(place);
        *values = 0.0;
        for (std::size_t k = 0; k < usual.size(); ++k) {
            *values += (place[k] - usual[k]) * (place[k] - usual[k]);
        }
        for (const sim::HardFigure& hard : near.motor_class.hard) {
            *++values = difference(hard, one.figures);
        }
        *++values = one.figures.locked_rotor_power_factor / power_factor - 1.0;
        for (const sim::SoftFigure& soft : near.motor_class.soft) {
            *++values = below_band(soft, one.figures);
            *++values = above_band(soft, one.figures);
        }
    };
    return space.at(sim::search_nearby(problem, usual, 400).data());
}

TEST(StalledUnit, WithEitherPublishedImpedanceExistsInTheFitsClassOfMotors) {
    for (const std::complex<double> published : {std::complex<double>{0.124, 0.114}, {0.1, 0.1}}) {
        SCOPED_TRACE(published.real());
        const double rated_A = tested_unit_VA / voltage_V;
        sim::MotorClass motor_class;
        const sim::Candidate motor = motor_stalling_at(published, rated_A, &motor_class);
        EXPECT_TRUE(is_accepted(motor_class, motor));
        const std::complex<double> impedance_pu =
            (voltage_V / stalled(motor.motor).line_current_A) / (voltage_V / rated_A);
        EXPECT_NEAR(impedance_pu.real() / published.real(), 1.0, 0.01);
        EXPECT_NEAR(impedance_pu.imag() / published.imag(), 1.0, 0.01);
    }
}

// ---- a unit that runs on a hot day and sees the voltage fall ------------------------------------

constexpr double sag_begin_s = 0.5;

enum class Compressor { reciprocating, rotary, scroll };
const char* name_of(Compressor compressor) {
    return compressor == Compressor::reciprocating ? "reciprocating"
           : compressor == Compressor::rotary      ? "rotary"
                                                   : "scroll";
}

template <class Load>
Load sized(Load load, double displacement_cm3, double rated_torque_Nm, double rated_rpm) {
    load.displacement_cm3 = displacement_cm3;
    // Judgement: a tenth of the rated torque sticks; bearings and oil take eight percent of it.
    load.breakaway_torque_Nm = 0.10 * rated_torque_Nm;
    load.bearing_torque_Nm = 0.035 * rated_torque_Nm;
    load.oil_torque_Nm = 0.045 * rated_torque_Nm;
    load.reference_speed_rpm = rated_rpm;
    return load;
}

/// The three-ton unit of 17.6 / 90 A, running on R410A at 46 C. Two cylinders, as usual for its
/// size (judgement). Switched on at the voltage's crest at full speed, which disturbs it least.
sim::Scenario running_unit(Compressor compressor) {
    static const sim::NameplateFit fit = fitted(three_tons.front());
    sim::Scenario unit;
    unit.motor = fit.fitted.motor;
    const double volume_cm3 = fit.displacement_cm3.value();
    const double torque_Nm = fit.fitted.figures.rated_torque_Nm;
    const double rated_rpm = fit.fitted.figures.rated_speed_rpm;
    if (compressor == Compressor::scroll) {
        unit.load = sized(plant_models::ScrollParameters{}, volume_cm3, torque_Nm, rated_rpm);
    } else if (compressor == Compressor::rotary) {
        auto load =
            sized(plant_models::RollingPistonParameters{}, volume_cm3, torque_Nm, rated_rpm);
        load.cylinders = 2;
        unit.load = load;
    } else {
        auto load =
            sized(plant_models::ReciprocatingParameters{}, volume_cm3, torque_Nm, rated_rpm);
        load.cylinders = 2;
        unit.load = load;
    }
    unit.conditions.ambient_C = 46.0;
    unit.conditions.rest_s = 0.0;
    plant_models::GridParameters grid;
    grid.voltage_V = voltage_V;
    grid.frequency_Hz = frequency_Hz;
    grid.phase_deg = 90.0;
    unit.source = grid;
    unit.run.initial_speed_rpm = 3550.0;
    unit.run.duration_s = 3.0;
    return unit;
}

plant_models::GridParameters& grid_of(sim::Scenario& unit) {
    return std::get<plant_models::GridParameters>(unit.source);
}

/// Falls at once to `low_pu` of the rated voltage for `length_s`; `later_cycles` moves its begin.
sim::Scenario with_sag(sim::Scenario unit, double low_pu, double length_s,
                       double later_cycles = 0.0) {
    plant_models::GridParameters& grid = grid_of(unit);
    grid.sag_begin_s = sag_begin_s + later_cycles * cycle_s;
    grid.sag_length_s = length_s;
    grid.sag_to_percent = 100.0 * low_pu * voltage_V / grid.voltage_V;
    return unit;
}

/// At the end of 2.5 s of low voltage.
bool stalls_at(Compressor compressor, int low_percent) {
    const sim::StartResult result =
        sim::run_start(with_sag(running_unit(compressor), 0.01 * low_percent, 2.5));
    return result.figures.final_speed_rpm < 0.5 * synchronous_rpm;
}

class HotUnit : public testing::TestWithParam<Compressor> {};

TEST_P(HotUnit, RunsAtRatedVoltage) {
    const sim::StartResult result = sim::run_start(running_unit(GetParam()));
    EXPECT_GT(result.figures.final_speed_rpm, 0.9 * synchronous_rpm);
}

TEST_P(HotUnit, StallsAtAVoltageThatThePublishedSetsCover) {
    // In whole percent, the resolution of the published figures.
    int stalls = lowest_stall_voltage_percent;
    int stays = highest_stall_voltage_percent + 1;
    ASSERT_TRUE(stalls_at(GetParam(), stalls));
    ASSERT_FALSE(stalls_at(GetParam(), stays));
    while (stays - stalls > 1) {
        const int middle = (stalls + stays) / 2;
        (stalls_at(GetParam(), middle) ? stalls : stays) = middle;
    }
    // Into the test's report.
    RecordProperty("highest_stall_voltage_percent", stalls);
    // A hot day is where units stall early: in the upper part of the band.
    EXPECT_GT(stalls, (lowest_stall_voltage_percent + highest_stall_voltage_percent) / 2);
}

TEST_P(HotUnit, LosesItsSpeedWithinAFewCyclesOfDeepLowVoltage) {
    class HalfSpeed final : public sim::TickObserver {
      public:
        explicit HalfSpeed(double from_s) : from_s_(from_s) {}
        void observe(const sim::TickView& view) override {
            const double since_s = view.plant.time_s - from_s_;
            const double rpm = plant_models::rad_per_s_to_rpm(view.plant.speed_rad_per_s);
            if (after_s < 0.0 && since_s > 0.0 && rpm < 0.5 * synchronous_rpm) {
                after_s = since_s;
            }
        }
        double after_s = -1.0;

      private:
        double from_s_;
    };
    double shortest_s = 1.0;
    double longest_s = 0.0;
    for (const double later_cycles : {0.0, 0.0625, 0.125, 0.1875}) {
        sim::Scenario unit = with_sag(running_unit(GetParam()), 0.01 * lowest_stall_voltage_percent,
                                      0.5, later_cycles);
        unit.run.duration_s = 1.0;
        HalfSpeed half(sag_begin_s + later_cycles * cycle_s);
        sim::run_start(unit, &half);
        ASSERT_GT(half.after_s, 0.0);
        shortest_s = std::min(shortest_s, half.after_s);
        longest_s = std::max(longest_s, half.after_s);
    }
    // The point on the wave decides how hard the flux that is left brakes.
    EXPECT_LT(shortest_s, published_stall_s);
    EXPECT_GT(longest_s, published_stall_s);
    EXPECT_LT(longest_s, 5.0 * cycle_s);
}

INSTANTIATE_TEST_SUITE_P(Compressors, HotUnit,
                         testing::Values(Compressor::reciprocating, Compressor::rotary,
                                         Compressor::scroll),
                         [](const auto& one) { return std::string(name_of(one.param)); });

// ---- the voltage comes back before the pressures have equalised ---------------------------------

/// Stalled at 0.40 pu for a second, then 2.5 s at `back_pu`; from four points on the wave.
int restarts(Compressor compressor, double back_pu, sim::Outcome as = sim::Outcome::running) {
    int count = 0;
    for (const double later_cycles : {0.0, 0.125, 0.25, 0.375}) {
        sim::Scenario unit = running_unit(compressor);
        grid_of(unit).voltage_V = back_pu * voltage_V;
        unit = with_sag(unit, 0.40, 1.0, later_cycles);
        unit.run.duration_s = sag_begin_s + 3.5;
        count += sim::run_start(unit).outcome == as ? 1 : 0;
    }
    return count;
}

TEST(StalledHotUnit, WithAReciprocatingCompressorDoesNotRestart) {
    EXPECT_EQ(restarts(Compressor::reciprocating, 1.0), 0);
    EXPECT_EQ(restarts(Compressor::reciprocating, published_restart_pu), 0);
}

TEST(StalledHotUnit, WithATwinRotaryIsOfThePartThatRestartsAboveNineTenths) {
    // The published sets have such a part and do not say which. The model's twin rocks to and fro
    // between its compression and the vacuum behind it until it gets over.
    // At 0.90 itself the point on the wave decides.
    EXPECT_EQ(restarts(Compressor::rotary, 1.0), 4);
    EXPECT_GE(restarts(Compressor::rotary, published_restart_pu), 1);
    EXPECT_EQ(restarts(Compressor::rotary, published_restart_pu - 0.1), 0);
}

TEST(StalledHotUnit, WithAScrollComesUpBackwards) {
    // Not published: what the gas that it holds does to it.
    EXPECT_EQ(restarts(Compressor::scroll, 1.0, sim::Outcome::running_backwards), 4);
}

// ---- phasors and time domain --------------------------------------------------------------------

TEST(StalledUnit, DrawsInTheTimeDomainWhatThePhasorsSay) {
    class LastCycles final : public sim::TickObserver {
      public:
        void observe(const sim::TickView& view) override {
            // Twelve cycles, once every transient has died away.
            if (view.plant.time_s > 0.8 - 5e-5 && view.plant.time_s < 1.0 - 5e-5) {
                current_square += std::pow(view.plant.line_current_A, 2);
                voltage_square += std::pow(view.plant.line_voltage_V, 2);
                power += view.plant.line_current_A * view.plant.line_voltage_V;
                ++ticks;
            }
        }
        double current_square = 0.0, voltage_square = 0.0, power = 0.0;
        int ticks = 0;
    };
    for (const Plate& plate : three_tons) {
        sim::Scenario unit = running_unit(Compressor::scroll);
        unit.motor = fitted(plate).fitted.motor;
        plant_models::PolynomialLoadParameters locked;
        locked.breakaway_torque_Nm = 400.0;
        locked.reference_speed_rpm = synchronous_rpm;
        unit.load = locked;
        unit.run.initial_speed_rpm = 0.0;
        unit.run.duration_s = 1.0;
        LastCycles last;
        sim::run_start(unit, &last);
        ASSERT_EQ(last.ticks, 2000);
        const plant_models::SteadyState phasor = stalled(unit.motor);
        const double current_A = std::sqrt(last.current_square / last.ticks);
        const double apparent_VA = current_A * std::sqrt(last.voltage_square / last.ticks);
        EXPECT_NEAR(current_A / std::abs(phasor.line_current_A), 1.0, 1e-3);
        EXPECT_NEAR(last.power / last.ticks / apparent_VA, phasor.power_factor, 1e-3);
    }
}

}  // namespace
