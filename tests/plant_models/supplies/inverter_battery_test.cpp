// The battery behind the DC bus: its current, its losses, and what makes it give up.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "plant_models/supplies/inverter/dc_side.hpp"
#include "supplies/inverter_bench.hpp"
#include "support/machines.hpp"
#include "support/random_numbers.hpp"

namespace {

using plant_models::DcSide;
using plant_models::Inverter;
using plant_models::InverterParameters;
using support::InverterBench;

enum Channel { battery_current = 5, battery_voltage = 6 };

InverterParameters on_battery() {
    InverterParameters parameters = support::small_inverter();
    parameters.overload_time_s = 100.0;
    parameters.dc_side = "battery";
    parameters.battery_voltage_V = 51.2;
    return parameters;
}

void load_with(InverterBench& bench, double power_W) {
    const double resistance_ohm = 230.0 * 230.0 / power_W;
    bench.connect(resistance_ohm, 1e3 * resistance_ohm * 50e-6);
}

double time_to_trip_s(InverterBench& bench, double longest_s) {
    const double begin_s = bench.time_s;
    while (!bench.tripped() && bench.time_s < begin_s + longest_s) {
        bench.run_for(InverterBench::step_s);
    }
    return bench.time_s - begin_s;
}

double channel(const InverterBench& bench, Channel which) {
    return bench.inverter.channels(bench.x.data(), bench.time_s, bench.loading())[which];
}

// Kirchhoff around the loop, with the power that the boost stage and the own consumption take.
TEST(InverterBattery, CurrentTimesVoltageIsThePowerThatIsDrawn) {
    support::RandomNumbers random(31);
    for (int k = 0; k < 500; ++k) {
        InverterParameters parameters = on_battery();
        parameters.battery_resistance_mohm = random.between(0.5, 60.0);
        parameters.battery_cable_mohm = random.between(0.0, 20.0);
        parameters.boost_loss_percent = random.between(0.0, 20.0);
        parameters.idle_draw_W = random.between(0.0, 100.0);
        const auto full = parameters.completed();
        const DcSide side(full);
        const double bus_V = full.bus_voltage_V * random.between(0.9, 1.02);
        const auto flow = side.flow(bus_V, 1.0);
        const double current_A = flow.battery_current_A;
        const double loop_ohm =
            1e-3 * (parameters.battery_resistance_mohm + parameters.battery_cable_mohm);
        const double input_V = 51.2 - loop_ohm * current_A;
        const double efficiency = 1.0 - 0.01 * parameters.boost_loss_percent;
        EXPECT_NEAR(input_V * current_A, flow.into_bus_W / efficiency + parameters.idle_draw_W,
                    1e-6);
        EXPECT_NEAR(flow.source_W, 51.2 * current_A, 1e-9);
        EXPECT_NEAR(flow.loss_W,
                    loop_ohm * current_A * current_A + flow.into_bus_W * (1.0 / efficiency - 1.0) +
                        parameters.idle_draw_W,
                    1e-6);
        EXPECT_GE(input_V, 0.6 * 51.2 - 1e-9);
        EXPECT_NEAR(side.battery_terminal_V(current_A),
                    51.2 - 1e-3 * parameters.battery_resistance_mohm * current_A, 1e-9);
    }
}

TEST(InverterBattery, WeakBatteryBoundsThePowerAtSixtyPerCentOfItsVoltage) {
    InverterParameters parameters = on_battery();
    parameters.battery_resistance_mohm = 300.0;
    parameters.battery_cable_mohm = 10.0;
    const auto full = parameters.completed();
    const DcSide side(full);
    const auto flow = side.flow(0.5 * full.bus_voltage_V, 1.0);
    EXPECT_NEAR(flow.battery_current_A, 0.4 * 51.2 / 0.310, 1e-9);
    EXPECT_NEAR(flow.into_bus_W, 0.95 * 0.24 * 51.2 * 51.2 / 0.310, 1e-9);
    // The kink says where that power is reached.
    const double slope = full.refill_power_W / (0.05 * full.bus_voltage_V);
    const double sag_V = flow.into_bus_W / slope;
    EXPECT_NEAR(side.room_to_full_V(full.bus_voltage_V - sag_V), 0.0, 1e-9);
}

TEST(InverterBattery, MeanPowerComesFromTheBatteryAndItsVoltageSags) {
    InverterParameters parameters = on_battery();
    parameters.idle_draw_W = 50.0;
    InverterBench bench(parameters);
    load_with(bench, 4000.0);
    bench.run_for(0.5);
    const double source_J = bench.x[InverterBench::source_energy];
    const double output_J = bench.x[InverterBench::output_energy];
    double lowest_V = 100.0;
    double current_sum_A = 0.0;
    int count = 0;
    bench.run_for(0.5, [&] {
        lowest_V = std::min(lowest_V, channel(bench, battery_voltage));
        current_sum_A += channel(bench, battery_current);
        ++count;
    });
    const double source_W = (bench.x[InverterBench::source_energy] - source_J) / 0.5;
    const double output_W = (bench.x[InverterBench::output_energy] - output_J) / 0.5;
    EXPECT_NEAR(output_W, 4000.0, 20.0);
    EXPECT_NEAR(source_W, 51.2 * current_sum_A / count, 5.0);
    // 5 % in the boost stage, about 4 % in battery and cable, the own consumption.
    EXPECT_GT(source_W, output_W / 0.95 + 50.0);
    EXPECT_LT(source_W, output_W / 0.88 + 50.0);
    EXPECT_LT(lowest_V, 50.5);
    EXPECT_GT(lowest_V, 48.0);
    EXPECT_NEAR(bench.unaccounted_J(), 0.0, 1e-6 * bench.x[InverterBench::source_energy]);
    EXPECT_FALSE(bench.tripped());
}

TEST(InverterBattery, TwiceTheProtectionsCurrentLastsItsTimeExactly) {
    InverterParameters parameters = on_battery();
    parameters.battery_protection_A = 80.0;
    parameters.battery_protection_s = 3.0;
    const DcSide side(parameters.completed());
    const auto rate = [&](double timer_s, double current_A) {
        const double x[] = {timer_s, 0.0};
        double dxdt[DcSide::state_count];
        side.derivatives(x, dxdt, current_A);
        return dxdt[DcSide::protection_timer];
    };
    const auto room = [&](double timer_s, double current_A) {
        const double x[] = {timer_s, 0.0};
        return side.protection_room(x, current_A);
    };
    EXPECT_DOUBLE_EQ(rate(0.0, 160.0), 1.0);
    EXPECT_DOUBLE_EQ(rate(2.9, 160.0), 1.0);
    EXPECT_EQ(rate(1.0, 80.0), 0.0);
    EXPECT_NEAR(rate(1.0, 0.0), -1.0 / 3.0, 1e-12);
    EXPECT_EQ(rate(0.0, 79.0), 0.0);
    EXPECT_GT(rate(0.0, 81.0), 0.0);
    EXPECT_GT(room(2.999, 160.0), 0.0);
    EXPECT_LE(room(3.0, 160.0), 0.0);
    // Four times the protection's current is a short circuit.
    EXPECT_GT(room(0.0, 319.9), 0.0);
    EXPECT_LE(room(0.0, 320.0), 0.0);
}

TEST(InverterBattery, OpenedProtectionStarvesTheBusAndKeepsItsName) {
    InverterParameters parameters = on_battery();
    parameters.battery_protection_A = 50.0;
    parameters.battery_protection_s = 0.5;
    InverterBench bench(parameters);
    load_with(bench, 5000.0);
    // About 108 A, pulsating: 0.5 s x 3 / (<i^2> / I_p^2 - 1).
    double square_sum = 0.0;
    int count = 0;
    bench.run_for(0.2, [&] {
        square_sum += std::pow(channel(bench, battery_current), 2);
        ++count;
    });
    const double expected_s = 0.5 * 3.0 / (square_sum / count / 2500.0 - 1.0);
    EXPECT_NEAR(0.2 + time_to_trip_s(bench, 3.0), expected_s, 0.02);
    EXPECT_EQ(bench.inverter.trip_cause(), "battery_protection");

    const double source_J = bench.x[InverterBench::source_energy];
    const double output_J = bench.x[InverterBench::output_energy];
    bench.run_for(1.0 / 120.0);  // still out of the bus
    EXPECT_NEAR(bench.x[InverterBench::output_energy] - output_J, 5000.0 / 120.0, 1.0);
    bench.run_for(0.3);
    EXPECT_EQ(bench.x[InverterBench::source_energy], source_J);
    EXPECT_LT(bench.x[Inverter::bus_voltage], 1.301 * 230.0);
    EXPECT_LT(bench.next_cycle_rms_V(), 0.1);
    EXPECT_EQ(bench.inverter.trip_cause(), "battery_protection");
    EXPECT_NEAR(bench.unaccounted_J(), 0.0, 1e-5 * source_J);
}

TEST(InverterBattery, ProtectionsTimerRecoversUnderALightLoad) {
    InverterParameters parameters = on_battery();
    parameters.battery_protection_A = 50.0;
    parameters.battery_protection_s = 0.5;
    InverterBench bench(parameters);
    for (int surge = 0; surge < 3; ++surge) {
        load_with(bench, 5000.0);
        bench.run_for(0.25);
        EXPECT_GT(bench.x[Inverter::battery_timer], 0.15);
        load_with(bench, 300.0);
        bench.run_for(1.5);
        EXPECT_EQ(bench.x[Inverter::battery_timer], 0.0);
    }
    EXPECT_FALSE(bench.tripped());
}

TEST(InverterBattery, ShortCircuitCurrentOpensTheProtectionAtOnce) {
    InverterParameters parameters = on_battery();
    parameters.battery_protection_A = 60.0;
    parameters.battery_short_circuit_A = 90.0;
    InverterBench bench(parameters);
    load_with(bench, 5000.0);
    EXPECT_LT(time_to_trip_s(bench, 1.0), 0.02);
    EXPECT_EQ(bench.inverter.trip_cause(), "battery_protection");
    EXPECT_LT(bench.x[Inverter::battery_timer], 0.05);
}

// The reading is a 20 ms mean, so it comes 20 ms x ln(...) after a step and not on the ripple.
TEST(InverterBattery, LowBatteryVoltageStopsTheInverter) {
    InverterParameters parameters = on_battery();
    parameters.battery_resistance_mohm = 40.0;
    parameters.battery_minimum_V = 47.0;
    InverterBench light(parameters);
    load_with(light, 3700.0);  // mean 47.9 V, ripple below 47 V
    double lowest_V = 100.0;
    light.run_for(1.0, [&] { lowest_V = std::min(lowest_V, channel(light, battery_voltage)); });
    EXPECT_FALSE(light.tripped());
    EXPECT_LT(lowest_V, 47.0);

    InverterBench heavy(parameters);
    load_with(heavy, 5500.0);
    const double tripped_s = time_to_trip_s(heavy, 1.0);
    EXPECT_EQ(heavy.inverter.trip_cause(), "battery_voltage_low");
    EXPECT_GT(tripped_s, 0.02);
    EXPECT_LT(tripped_s, 0.10);
    EXPECT_NEAR(51.2 - 0.040 * heavy.x[Inverter::battery_current_mean], 47.0, 0.05);
    heavy.run_for(0.3);
    EXPECT_LT(heavy.next_cycle_rms_V(), 0.1);
}

TEST(InverterBattery, OtherTripsKeepTheirNamesOnABattery) {
    InverterParameters weak = on_battery();
    weak.refill_power_W = 1000.0;
    InverterBench empties(weak);
    load_with(empties, 4000.0);
    time_to_trip_s(empties, 2.0);
    EXPECT_EQ(empties.inverter.trip_cause(), "dc_bus_low");

    InverterParameters timed = on_battery();
    timed.refill_power_W = 12000.0;
    timed.overload_time_s = 0.3;
    InverterBench overloaded(timed);
    load_with(overloaded, 230.0 * 37.0);
    time_to_trip_s(overloaded, 2.0);
    EXPECT_EQ(overloaded.inverter.trip_cause(), "inverter_overload");
}

TEST(InverterBattery, OwnConsumptionIsDrawnAndLostUntilItTrips) {
    for (const bool battery : {false, true}) {
        InverterParameters parameters = battery ? on_battery() : support::small_inverter();
        parameters.idle_draw_W = 30.0;
        InverterParameters without = parameters;
        without.idle_draw_W = 0.0;
        InverterBench bench(parameters);
        InverterBench reference(without);
        bench.run_for(1.0);
        reference.run_for(1.0);
        const double drawn_J =
            bench.x[InverterBench::source_energy] - reference.x[InverterBench::source_energy];
        const double lost_J =
            bench.x[InverterBench::loss_energy] - reference.x[InverterBench::loss_energy];
        EXPECT_NEAR(drawn_J, 30.0, 0.3);
        EXPECT_NEAR(lost_J, drawn_J, 1e-6);
        EXPECT_GE(drawn_J, 30.0 - 1e-9);
        bench.inverter.on_guard(Inverter::timer_full, bench.x.data());
        bench.run_for(0.5);
        const double source_J = bench.x[InverterBench::source_energy];
        bench.run_for(0.5);
        EXPECT_NEAR(bench.x[InverterBench::source_energy], source_J, 0.1);
    }
}

TEST(InverterBattery, StiffSourceHasNoBatteryToTrip) {
    InverterBench bench(support::small_inverter());
    load_with(bench, 5000.0);
    bench.run_for(0.2);
    std::array<double, Inverter::guard_count> guards{};
    bench.inverter.guards(bench.x.data(), bench.time_s, bench.loading(), guards.data());
    EXPECT_EQ(guards[Inverter::battery_rating_passed], 1.0);
    EXPECT_EQ(guards[Inverter::battery_timer_empty], 1.0);
    EXPECT_EQ(guards[Inverter::battery_protection_opens], 1.0);
    EXPECT_EQ(guards[Inverter::battery_too_low], 1.0);
    EXPECT_EQ(channel(bench, battery_current), 0.0);
    EXPECT_EQ(channel(bench, battery_voltage), 0.0);
}

}  // namespace
