// COMTRADE as another program reads it, against the CSV of the same run.
#include "sim/recorder/comtrade_trace.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "bench/cases.hpp"
#include "monitors/tick_sequence.hpp"
#include "recorder/comtrade_reader.hpp"
#include "recorder/traced_start.hpp"
#include "sim/files/output_error.hpp"
#include "sim/sensors/sensor_suite.hpp"

namespace {

using sim_test::ComtradeRecord;
using sim_test::CsvColumns;
using sim_test::TemporaryFolder;

sim::Scenario short_start(const std::string& name) {
    sim::Scenario scenario = sim_test::bundled(name);
    scenario.run.duration_s = 0.4;
    return scenario;
}

std::size_t digits_of(const std::string& cell) {
    const std::size_t point = cell.find('.');
    return point == std::string::npos ? 0 : cell.size() - point - 1;
}

/// Every channel of the CSV is there once, and reads as the CSV within half of a.
void expect_the_same(const ComtradeRecord& record, const CsvColumns& csv, bool exact) {
    ASSERT_EQ(record.times.size(), csv.rows);
    for (std::size_t row = 0; row < csv.rows; ++row) {
        ASSERT_EQ(record.times[row], static_cast<std::int64_t>(100 * row));
    }
    std::size_t found = 0;
    for (std::size_t k = 0; k < record.analogs.size(); ++k) {
        const sim_test::ComtradeAnalog& channel = record.analogs[k];
        ASSERT_EQ(csv.columns.count(channel.name), 1U) << channel.name;
        ++found;
        const double unit =
            std::pow(10.0, -static_cast<double>(digits_of(csv.columns.at(channel.name)[0])));
        const bool is_fine = std::abs(channel.a - unit) <= 1e-9 * unit;
        EXPECT_TRUE(is_fine || !exact) << channel.name;
        const double bound = is_fine ? 0.0 : 0.5 * channel.a;
        for (std::size_t row = 0; row < csv.rows; ++row) {
            const double value = csv.number(channel.name, row);
            ASSERT_NEAR(record.values[k][row], value, bound + 1e-9 * (std::abs(value) + unit))
                << channel.name << " " << row;
        }
    }
    for (std::size_t k = 0; k < record.digitals.size(); ++k) {
        const auto column = csv.columns.find(record.digitals[k]);
        if (column == csv.columns.end()) {
            continue;
        }
        ++found;
        for (std::size_t row = 0; row < csv.rows; ++row) {
            ASSERT_EQ(record.flags[k][row], column->second[row] == "1")
                << record.digitals[k] << " " << row;
        }
    }
    EXPECT_EQ(found, csv.names.size() - 1) << "all but the time";
}

TEST(ComtradeTrace, ReadsAsTheCsvWithinHalfOfTheScaleThatItStates) {
    for (const std::string name : {"reference_limited", "hut_inverter", "reference_direct"}) {
        const TemporaryFolder folder;
        sim_test::trace_start(short_start(name), folder, {"trace.csv", "trace.cfg", "one.cff"});
        const CsvColumns csv(folder.get("trace.csv"));
        const ComtradeRecord record =
            sim_test::read_comtrade(folder.get("trace.cfg"), folder.get("trace.dat"));
        EXPECT_EQ(record.type, "BINARY");
        expect_the_same(record, csv, false);
        expect_the_same(sim_test::read_single_file(folder.get("one.cff")), csv, false);
        EXPECT_EQ(record.device, name);
        EXPECT_EQ(record.line_Hz, plant_models::nominal_frequency_Hz(short_start(name).source));
        EXPECT_EQ(record.samples_per_s, 10000.0);
        EXPECT_EQ(record.time_factor, 1.0);
    }
}

TEST(ComtradeTrace, AsTextReadsTheSame) {
    const TemporaryFolder folder;
    sim_test::trace_start(short_start("hut_inverter"), folder, {"trace.csv"});
    sim_test::trace_start(short_start("hut_inverter"), folder, {"text.cfg", "one.cff"},
                          "comtrade-ascii");
    const CsvColumns csv(folder.get("trace.csv"));
    const ComtradeRecord record =
        sim_test::read_comtrade(folder.get("text.cfg"), folder.get("text.dat"));
    EXPECT_EQ(record.type, "ASCII");
    expect_the_same(record, csv, false);
    expect_the_same(sim_test::read_single_file(folder.get("one.cff")), csv, false);
}

TEST(ComtradeTrace, With32BitsLosesNothingOfWhatTheCsvHolds) {
    const TemporaryFolder folder;
    // Without what is watched, whose numbers may have more than 32 bits.
    sim::Scenario direct = short_start("hut_inverter_direct");
    sim_test::trace_start(direct, folder, {"trace.csv"});
    sim_test::trace_start(direct, folder, {"wide", "one.cff"}, "comtrade-32");
    const CsvColumns csv(folder.get("trace.csv"));
    const ComtradeRecord record =
        sim_test::read_comtrade(folder.get("wide.cfg"), folder.get("wide.dat"));
    EXPECT_EQ(record.type, "BINARY32");
    expect_the_same(record, csv, true);
    expect_the_same(sim_test::read_single_file(folder.get("one.cff")), csv, true);
}

TEST(ComtradeTrace, StatesUnitsAndMakesBitsOfTheStates) {
    const TemporaryFolder folder;
    sim_test::trace_start(short_start("reference_limited"), folder, {"t.csv", "t.cfg"});
    const CsvColumns csv(folder.get("t.csv"));
    const ComtradeRecord record = sim_test::read_comtrade(folder.get("t.cfg"), folder.get("t.dat"));
    std::map<std::string, std::string> units;
    for (const sim_test::ComtradeAnalog& channel : record.analogs) {
        units[channel.name] = channel.unit;
    }
    EXPECT_EQ(units.at("line_voltage_V"), "V");
    EXPECT_EQ(units.at("torque_Nm"), "N.m");
    EXPECT_EQ(units.at("speed_rpm"), "r/min");
    EXPECT_EQ(units.at("output_current_counts"), "counts");
    EXPECT_EQ(units.at("controller_state"), "NONE");
    const auto digital = [&record](const std::string& name) {
        const auto at = std::find(record.digitals.begin(), record.digitals.end(), name);
        return record.flags.at(static_cast<std::size_t>(at - record.digitals.begin()));
    };
    const std::vector<bool> climbing = digital("state_climbing");
    const std::vector<bool> probing = digital("state_probing");
    const std::vector<bool> gate = digital("gate");
    int climbing_ticks = 0;
    int gated_ticks = 0;
    for (std::size_t row = 0; row < csv.rows; ++row) {
        ASSERT_EQ(climbing[row], csv.columns.at("controller_state")[row] == "3") << row;
        ASSERT_EQ(probing[row], csv.columns.at("controller_state")[row] == "2") << row;
        ASSERT_EQ(gate[row], csv.number("gate_off_us", row) > csv.number("gate_on_us", row)) << row;
        climbing_ticks += climbing[row] ? 1 : 0;
        gated_ticks += gate[row] ? 1 : 0;
    }
    EXPECT_GT(climbing_ticks, 100);
    EXPECT_GT(gated_ticks, 100);
}

TEST(ComtradeTrace, IsTriggeredByTheFirstCall) {
    const TemporaryFolder folder;
    sim::Scenario scenario = short_start("reference_direct");
    scenario.run.call_on_s = 0.0123;
    sim_test::trace_start(scenario, folder, {"t.cfg"});
    const ComtradeRecord record = sim_test::read_comtrade(folder.get("t.cfg"), folder.get("t.dat"));
    EXPECT_EQ(record.first, "01/01/1970,00:00:00.000000");
    EXPECT_EQ(record.trigger, "01/01/1970,00:00:00.012300");
}

TEST(ComtradeTrace, LetsBothFilesAppearTogetherOrNeither) {
    const TemporaryFolder folder;
    folder.put("t.cfg", "before");
    const std::vector<sim::TraceChannel> channels = {
        {"a_V", 1, [](const sim::TickView&) { return 1.0; }}};
    {
        sim::ComtradeTrace trace(folder / "t.dat", sim::ComtradeData::binary, channels,
                                 {"x", 50.0});
        EXPECT_EQ(folder.get("t.cfg"), "before");
        EXPECT_EQ(folder.names().count("t.dat"), 0U);
    }
    EXPECT_EQ(folder.names(), std::set<std::string>{"t.cfg"});
    EXPECT_EQ(folder.get("t.cfg"), "before");
    sim::ComtradeTrace trace(folder / "t.dat", sim::ComtradeData::binary, channels, {"x,y", 50.0});
    trace.commit();
    EXPECT_EQ(folder.names(), (std::set<std::string>{"t.cfg", "t.dat"}));
    EXPECT_EQ(sim_test::read_comtrade(folder.get("t.cfg"), folder.get("t.dat")).device, "x y")
        << "a comma would be a field's end";
}

TEST(ComtradeTrace, LetsTheTimesOfTheSamplesCountWhereTicksAreLeftOut) {
    const std::vector<sim::TraceChannel> channels = {
        {"a_V", 1, [](const sim::TickView& view) { return view.plant.time_s; }}};
    for (const int ticks_of_rest : {5, 40000000, 50000000}) {
        const TemporaryFolder folder;
        sim::ComtradeTrace trace(folder / "t", sim::ComtradeData::binary, channels, {"x", 50.0});
        sim_test::TickSequence at;
        trace.observe(at.view());
        at.skip(ticks_of_rest);
        trace.observe(at.view());
        trace.commit();
        const ComtradeRecord record =
            sim_test::read_comtrade(folder.get("t.cfg"), folder.get("t.dat"));
        EXPECT_EQ(record.samples_per_s, 0.0);
        EXPECT_EQ(record.time_factor, ticks_of_rest > 42949672 ? 100.0 : 1.0);
        EXPECT_EQ(static_cast<double>(record.times.at(1)) * record.time_factor,
                  100.0 * ticks_of_rest);
    }
    const TemporaryFolder folder;
    sim::ComtradeTrace trace(folder / "t", sim::ComtradeData::binary, channels, {"x", 50.0});
    sim_test::TickSequence at;
    trace.observe(at.view());
    for (int day = 0; day < 5; ++day) {
        at.skip(864000000);
    }
    trace.observe(at.view());
    EXPECT_THROW(trace.commit(), sim::OutputError);
    EXPECT_EQ(folder.names().count("t.cfg"), 0U);
}

TEST(ComtradeTrace, CannotGoToStandardOutput) {
    EXPECT_THROW(sim::ComtradeTrace("-", sim::ComtradeData::binary, {}, {"x", 50.0}),
                 sim::OutputError);
}

}  // namespace
