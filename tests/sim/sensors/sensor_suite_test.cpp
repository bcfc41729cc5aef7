// Every signal that crosses from the plant to the controller: sign, scale, rounding, clipping.
#include "sim/sensors/sensor_suite.hpp"

#include <gtest/gtest.h>

#include <functional>
#include <string>
#include <vector>

#include "bench/cases.hpp"
#include "firmware/contract/sensor_scale.hpp"
#include "firmware/measurement/samples.hpp"
#include "sim/timeline/plant_run.hpp"

namespace {

struct Channel {
    std::string name;
    std::function<void(plant_models::PlantOutputs&, double)> set;
    std::uint16_t firmware::SensorFrame::*counts;
    double per_count;  ///< volts or amperes
};

const std::vector<Channel>& bipolar_channels() {
    using Plant = plant_models::PlantOutputs;
    using Frame = firmware::SensorFrame;
    static const std::vector<Channel> channels = {
        {"line voltage", [](Plant& p, double x) { p.line_voltage_V = x; },
         &Frame::line_voltage_counts, 0.3},
        {"main current", [](Plant& p, double x) { p.main_current_A = x; },
         &Frame::output_current_counts, 0.15},
        {"start capacitor current", [](Plant& p, double x) { p.start_capacitor_current_A = x; },
         &Frame::output_current_counts, 0.15},
        {"start terminal voltage", [](Plant& p, double x) { p.start_terminal_voltage_V = x; },
         &Frame::start_terminal_voltage_counts, 0.5},
    };
    return channels;
}

int counts(const Channel& channel, double value) {
    plant_models::PlantOutputs plant;
    channel.set(plant, value);
    return sim::sample_sensors(plant, true).*channel.counts;
}

TEST(SensorSuite, ReadsPositiveAboveTheMidpointAndNegativeBelow) {
    for (const Channel& channel : bipolar_channels()) {
        EXPECT_EQ(counts(channel, 0.0), 2048) << channel.name;
        EXPECT_EQ(counts(channel, 100.0 * channel.per_count), 2148) << channel.name;
        EXPECT_EQ(counts(channel, -100.0 * channel.per_count), 1948) << channel.name;
    }
}

TEST(SensorSuite, RoundsToTheNearestCount) {
    for (const Channel& channel : bipolar_channels()) {
        for (int step = -40; step <= 40; ++step) {
            const double exact = 17.0 + step / 10.0 + 0.003;
            const int expected = static_cast<int>(std::floor(2048.0 + exact + 0.5));
            EXPECT_EQ(counts(channel, exact * channel.per_count), expected) << channel.name;
            EXPECT_EQ(counts(channel, -exact * channel.per_count), 4096 - expected) << channel.name;
        }
    }
}

TEST(SensorSuite, ClipsAtBothEndsOfTheConverter) {
    for (const Channel& channel : bipolar_channels()) {
        EXPECT_EQ(counts(channel, 2047.0 * channel.per_count), 4095) << channel.name;
        EXPECT_EQ(counts(channel, 2046.0 * channel.per_count), 4094) << channel.name;
        EXPECT_EQ(counts(channel, 1e6), 4095) << channel.name;
        EXPECT_EQ(counts(channel, -2048.0 * channel.per_count), 0) << channel.name;
        EXPECT_EQ(counts(channel, -2047.0 * channel.per_count), 1) << channel.name;
        EXPECT_EQ(counts(channel, -1e6), 0) << channel.name;
    }
}

TEST(SensorSuite, SendsTheStartCapacitorsCurrentThroughTheOutputToo) {
    plant_models::PlantOutputs plant;
    plant.main_current_A = 30.0;
    plant.start_capacitor_current_A = -12.0;
    plant.aux_current_A = 500.0;   // must not be seen
    plant.line_current_A = 500.0;  // must not be seen
    EXPECT_EQ(sim::sample_sensors(plant, true).output_current_counts, 2048 + 120);
}

TEST(SensorSuite, ReadsTheHeatsinkAt25DegreesAndTheCallAsOneOrZero) {
    const plant_models::PlantOutputs plant;
    const firmware::SensorFrame frame = sim::sample_sensors(plant, true);
    EXPECT_EQ(frame.heatsink_counts, 1300);  // (25 + 40) K / 0.05 K
    EXPECT_EQ(frame.call_for_cooling, 1);
    EXPECT_EQ(sim::sample_sensors(plant, false).call_for_cooling, 0);
    EXPECT_EQ(frame.version, firmware::frame_version);
}

TEST(SensorSuite, IsUndoneByTheControllersOwnScales) {
    for (double volts = -600.0; volts <= 600.0; volts += 37.7) {
        plant_models::PlantOutputs plant;
        plant.line_voltage_V = volts;
        plant.main_current_A = 0.5 * volts;
        plant.start_terminal_voltage_V = 1.5 * volts;
        const firmware::Samples samples = firmware::samples_from(sim::sample_sensors(plant, true));
        EXPECT_NEAR(1e-3 * firmware::line_voltage_mV_per_count * samples.line_voltage_counts, volts,
                    0.15001);
        EXPECT_NEAR(1e-3 * firmware::output_current_mA_per_count * samples.output_current_counts,
                    0.5 * volts, 0.07501);
        EXPECT_NEAR(1e-3 * firmware::start_terminal_voltage_mV_per_count *
                        samples.start_terminal_voltage_counts,
                    1.5 * volts, 0.25001);
    }
}

TEST(SensorSuite, AgreesInSignWithTheWholePlantMidTransient) {
    // Signs are taken from the physics, not from names. The grid's voltage is rising from its zero;
    // the main winding, an inductance, then draws a current out of L1 into R; the auxiliary
    // winding's capacitor lets S follow L1 at once.
    sim::Scenario scenario = sim_test::bundled("reference_limited");
    sim_test::limiter_of(scenario).parts.contact_close_ms = 0.0;
    sim_test::limiter_of(scenario).parts.contact_bounce_ms = 0.0;
    const auto run = [&](double phase_deg) {
        std::get<plant_models::GridParameters>(scenario.source).phase_deg = phase_deg;
        plant_models::PlantOutputs outputs;
        sim::PlantDescription description;
        description.motor = scenario.motor;
        description.load = scenario.load;
        description.supply = scenario.source;
        description.limiter = sim_test::limiter_of(scenario).parts;
        description.connection = sim::Connection::through_limiter;
        const auto plant = sim::make_plant_run(description);
        sim::PowerCommands commands;
        commands.line_coil = true;
        commands.start_capacitor_coil = true;
        commands.gate_off = sim::Instant{100'000};
        for (int tick = 0; tick < 20; ++tick) {  // 2 ms, 43 degrees
            plant->apply(commands);
            plant->advance_to(plant->now() + sim::Instant{100'000});
        }
        outputs = plant->outputs();
        return sim::sample_sensors(outputs, true);
    };
    const firmware::SensorFrame positive = run(0.0);
    EXPECT_GT(positive.line_voltage_counts, 2048 + 500);
    EXPECT_GT(positive.output_current_counts, 2048 + 50);
    EXPECT_GT(positive.start_terminal_voltage_counts, 2048 + 50);
    const firmware::SensorFrame negative = run(180.0);
    EXPECT_LT(negative.line_voltage_counts, 2048 - 500);
    EXPECT_LT(negative.output_current_counts, 2048 - 50);
    EXPECT_LT(negative.start_terminal_voltage_counts, 2048 - 50);
}

}  // namespace
