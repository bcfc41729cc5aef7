// The trace as another program reads it.
#include "sim/recorder/csv_trace.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <map>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include "bench/cases.hpp"
#include "files/temporary_folder.hpp"
#include "monitors/tick_sequence.hpp"
#include "plant_models/numeric/units.hpp"
#include "sim/results/start_json.hpp"

namespace {

struct Table {
    std::vector<std::string> names;
    std::vector<std::vector<std::string>> rows;

    std::size_t column(const std::string& name) const {
        for (std::size_t k = 0; k < names.size(); ++k) {
            if (names[k] == name) {
                return k;
            }
        }
        throw std::runtime_error("no column " + name);
    }
    double number(std::size_t row, const std::string& name) const {
        return std::stod(rows[row][column(name)]);
    }
};

std::vector<std::string> split(const std::string& line) {
    std::vector<std::string> cells;
    std::string cell;
    for (const char letter : line) {
        if (letter == ',') {
            cells.push_back(cell);
            cell.clear();
        } else {
            cell += letter;
        }
    }
    cells.push_back(cell);
    return cells;
}

/// Keeps what the trace saw, and passes it on.
class Keeper final : public sim::TickObserver {
  public:
    explicit Keeper(sim::TickObserver& next) : next_(next) {}
    void observe(const sim::TickView& view) override {
        next_.observe(view);
        plants.push_back(view.plant);
        commands.push_back(view.commands);
        samples.push_back(view.samples != nullptr ? *view.samples : firmware::SensorFrame{});
        telemetry.push_back(view.controller != nullptr ? *view.controller : firmware::Telemetry{});
    }
    std::vector<plant_models::PlantOutputs> plants;
    std::vector<sim::PowerCommands> commands;
    std::vector<firmware::SensorFrame> samples;
    std::vector<firmware::Telemetry> telemetry;

  private:
    sim::TickObserver& next_;
};

class Trace {
  public:
    explicit Trace(const sim::Scenario& scenario) {
        sim::AtomicOutput output(folder_ / "trace.csv");
        const auto supply_names =
            sim::make_plant_run(sim::describe_plant(scenario))->channel_names();
        const bool has_limiter = !std::holds_alternative<sim::NoLimiter>(scenario.limiter);
        sim::CsvTrace trace(output, sim::trace_channels(supply_names, has_limiter));
        keeper_ = std::make_unique<Keeper>(trace);
        result = sim::run_start(scenario, keeper_.get());
        output.commit();
        std::istringstream lines(folder_.get("trace.csv"));
        std::string line;
        std::getline(lines, line);
        table.names = split(line);
        while (std::getline(lines, line)) {
            table.rows.push_back(split(line));
        }
    }
    const Keeper& seen() const { return *keeper_; }

    Table table;
    sim::StartResult result;

  private:
    sim_test::TemporaryFolder folder_;
    std::unique_ptr<Keeper> keeper_;
};

sim::Scenario half_a_second(const std::string& name) {
    sim::Scenario scenario = sim_test::bundled(name);
    scenario.run.duration_s = 0.5;
    return scenario;
}

TEST(CsvTrace, HasOneRowPerTickAndTheSameColumnsInEach) {
    for (const std::string name : {"reference_direct", "reference_limited", "hut_inverter"}) {
        const Trace trace(half_a_second(name));
        EXPECT_EQ(trace.table.rows.size(), 5001U) << name;
        for (const auto& row : trace.table.rows) {
            ASSERT_EQ(row.size(), trace.table.names.size()) << name;
            for (const std::string& cell : row) {
                char* end = nullptr;
                const double value = std::strtod(cell.c_str(), &end);
                ASSERT_EQ(*end, '\0') << cell;
                ASSERT_TRUE(std::isfinite(value)) << cell;
                ASSERT_NE(cell, "-0");
            }
        }
    }
}

TEST(CsvTrace, NamesEveryColumnOnceWithItsUnit) {
    const Trace trace(half_a_second("hut_inverter"));
    const std::set<std::string> without_unit = {"line_connected",
                                                "main_conducting",
                                                "thyristor_conducting",
                                                "bypass_closed",
                                                "start_capacitor_in",
                                                "rotor_stuck",
                                                "supply_tripped",
                                                "call_for_cooling",
                                                "line_coil",
                                                "start_capacitor_coil",
                                                "bypass_coil",
                                                "controller_state",
                                                "controller_reason",
                                                "controller_stage",
                                                "controller_tries_made",
                                                "controller_line_locked",
                                                "controller_learning_settled",
                                                "controller_memory",
                                                "store_word_writes",
                                                "controller_status",
                                                "controller_powered",
                                                "inverter_current_limit_active"};
    const std::set<std::string> units = {"V",  "A",  "Nm",  "rpm",    "s",
                                         "us", "Hz", "deg", "counts", "percent"};
    std::set<std::string> seen;
    for (const std::string& name : trace.table.names) {
        EXPECT_TRUE(seen.insert(name).second) << name << " is there twice";
        const std::string ending = name.substr(name.rfind('_') + 1);
        EXPECT_TRUE(without_unit.count(name) == 1 || units.count(ending) == 1) << name;
    }
    EXPECT_EQ(trace.table.names.front(), "time_s");
}

TEST(CsvTrace, ShowsWhatTheControllerHasLearnedAndThatItKeepsIt) {
    sim::Scenario scenario = sim_test::bundled("reference_limited");
    sim_test::limiter_of(scenario).settings.learning_law = firmware::LearningLawKind::easing;
    scenario.run.duration_s = 1.7;
    scenario.run.call_off_s = 1.6;
    const Trace trace(scenario);
    const auto column = [&trace](const std::string& name) {
        const auto& names = trace.table.names;
        return static_cast<std::size_t>(std::find(names.begin(), names.end(), name) -
                                        names.begin());
    };
    const auto& first = trace.table.rows.front();
    const auto& last = trace.table.rows.back();
    EXPECT_EQ(first.at(column("controller_learned_level_percent")), "100.0") << "as set";
    const double level = std::stod(last.at(column("controller_learned_level_percent")));
    EXPECT_NEAR(level, 0.1 * trace.seen().telemetry.back().learned_level_permille, 1e-9);
    EXPECT_NE(level, 100.0);
    EXPECT_EQ(last.at(column("controller_memory")), "1") << "recovered: as commissioned";
    EXPECT_EQ(last.at(column("controller_learning_settled")),
              std::to_string(trace.seen().telemetry.back().learning_settled));
    EXPECT_EQ(first.at(column("store_word_writes")), "0");
    EXPECT_EQ(trace.table.rows.at(16000).at(column("store_word_writes")), "9")
        << "one record before the motor is fed: a rest will be owed";
    EXPECT_EQ(last.at(column("store_word_writes")), "18") << "one more for what it learned";
}

TEST(CsvTrace, HoldsThePlantsTruthToTheLastWrittenDigit) {
    const Trace trace(half_a_second("hut_inverter"));
    using Outputs = plant_models::PlantOutputs;
    const std::map<std::string, double Outputs::*> fields = {
        {"time_s", &Outputs::time_s},
        {"line_voltage_V", &Outputs::line_voltage_V},
        {"line_current_A", &Outputs::line_current_A},
        {"main_current_A", &Outputs::main_current_A},
        {"aux_current_A", &Outputs::aux_current_A},
        {"start_capacitor_current_A", &Outputs::start_capacitor_current_A},
        {"start_terminal_voltage_V", &Outputs::start_terminal_voltage_V},
        {"run_capacitor_voltage_V", &Outputs::run_capacitor_voltage_V},
        {"start_capacitor_voltage_V", &Outputs::start_capacitor_voltage_V},
        {"blocking_voltage_V", &Outputs::blocking_voltage_V},
        {"torque_Nm", &Outputs::torque_Nm},
        {"load_torque_Nm", &Outputs::load_torque_Nm}};
    for (std::size_t k = 0; k < trace.table.rows.size(); k += 7) {
        const Outputs& plant = trace.seen().plants[k];
        for (const auto& [name, field] : fields) {
            EXPECT_NEAR(trace.table.number(k, name), plant.*field, 5.1e-4) << name << " " << k;
        }
        EXPECT_NEAR(trace.table.number(k, "speed_rpm"),
                    plant_models::rad_per_s_to_rpm(plant.speed_rad_per_s), 5.1e-4);
        EXPECT_NEAR(trace.table.number(k, "inverter_current_A"), plant.model_channels[0], 5.1e-5);
        EXPECT_NEAR(trace.table.number(k, "dc_bus_V"), plant.model_channels[2], 5.1e-5);
        EXPECT_EQ(trace.table.number(k, "main_conducting"), plant.main_conducting ? 1.0 : 0.0);
        EXPECT_EQ(trace.table.number(k, "rotor_stuck"), plant.rotor_stuck ? 1.0 : 0.0);
    }
}

TEST(CsvTrace, HoldsTheCommandsTheSamplesAndTheControllersThoughts) {
    const Trace trace(half_a_second("reference_limited"));
    bool gated = false;
    for (std::size_t k = 0; k < trace.table.rows.size(); ++k) {
        const sim::PowerCommands& commands = trace.seen().commands[k];
        ASSERT_EQ(1000.0 * trace.table.number(k, "gate_on_us"),
                  static_cast<double>(commands.gate_on.count()));
        ASSERT_EQ(1000.0 * trace.table.number(k, "gate_off_us"),
                  static_cast<double>(commands.gate_off.count()));
        ASSERT_EQ(trace.table.number(k, "line_coil"), commands.line_coil ? 1.0 : 0.0);
        ASSERT_EQ(trace.table.number(k, "output_current_counts"),
                  trace.seen().samples[k].output_current_counts);
        ASSERT_EQ(trace.table.number(k, "start_terminal_voltage_counts"),
                  trace.seen().samples[k].start_terminal_voltage_counts);
        const firmware::Telemetry& telemetry = trace.seen().telemetry[k];
        ASSERT_EQ(trace.table.number(k, "controller_state"), static_cast<double>(telemetry.state));
        ASSERT_NEAR(trace.table.number(k, "controller_line_frequency_Hz"),
                    1e-3 * telemetry.line_frequency_mHz, 1e-9);
        ASSERT_NEAR(trace.table.number(k, "controller_firing_angle_deg"),
                    1e-3 * telemetry.firing_angle_mdeg, 1e-9);
        gated = gated || commands.gate_off > commands.gate_on;
    }
    EXPECT_TRUE(gated);
}

TEST(CsvTrace, LeavesOutWhatADirectStartDoesNotHave) {
    const Trace trace(half_a_second("reference_direct"));
    for (const std::string& name : trace.table.names) {
        EXPECT_EQ(name.find("controller"), std::string::npos) << name;
        EXPECT_EQ(name.find("counts"), std::string::npos) << name;
        EXPECT_EQ(name.find("inverter"), std::string::npos) << name;
    }
}

TEST(CsvTrace, WritesTheDigitsOfTheChannelAndNoNegativeZero) {
    const sim_test::TemporaryFolder folder;
    sim::AtomicOutput output(folder / "trace.csv");
    sim::CsvTrace trace(output,
                        {{"a_V", 2, [](const sim::TickView&) { return -0.0; }},
                         {"b_A", 0, [](const sim::TickView&) { return 1234.5678; }},
                         {"c_s", 4, [](const sim::TickView& view) { return -view.plant.time_s; }}});
    sim_test::TickSequence at;
    trace.observe(at.view());
    at.skip(123);
    trace.observe(at.view());
    output.commit();
    EXPECT_EQ(folder.get("trace.csv"), "a_V,b_A,c_s\n0.00,1235,0.0000\n0.00,1235,-0.0123\n");
}

TEST(CsvTrace, DoesNotChangeTheResultOfTheRun) {
    for (const std::string name : {"reference_direct", "reference_limited", "hut_inverter"}) {
        const sim::Scenario scenario = half_a_second(name);
        EXPECT_EQ(sim::start_json(Trace(scenario).result).dump(),
                  sim::start_json(sim::run_start(scenario)).dump())
            << name;
    }
}

TEST(CsvTrace, ShowsTheCommandsThatWereInForceInTheTickThatEnds) {
    // The first sample without a call is answered one tick later: the coil goes off in that row.
    sim::Scenario scenario = half_a_second("reference_direct");
    scenario.run.call_off_s = 0.2;
    const Trace trace(scenario);
    EXPECT_EQ(trace.table.number(1999, "call_for_cooling"), 1.0);
    EXPECT_EQ(trace.table.number(2000, "call_for_cooling"), 0.0);
    EXPECT_EQ(trace.table.number(2000, "line_coil"), 1.0);
    EXPECT_EQ(trace.table.number(2001, "line_coil"), 0.0);
}

}  // namespace
