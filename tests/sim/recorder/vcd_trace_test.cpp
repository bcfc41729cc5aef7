// The value change dump as other programs read it, against the CSV of the same run.
#include "sim/recorder/vcd_trace.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>
#include <set>
#include <vector>

#include "bench/cases.hpp"
#include "monitors/tick_sequence.hpp"
#include "recorder/traced_start.hpp"
#include "recorder/vcd_reader.hpp"

namespace {

using sim_test::CsvColumns;
using sim_test::TemporaryFolder;
using sim_test::VcdDump;
using sim_test::VcdSignal;

sim::Scenario short_start() {
    sim::Scenario scenario = sim_test::bundled("reference_limited");
    scenario.run.duration_s = 0.4;
    return scenario;
}

std::int64_t number(const std::string& bits) {
    std::uint64_t word = bits.front() == '1' && bits.size() > 1 ? ~std::uint64_t{0} : 0;
    for (const char bit : bits) {
        word = (word << 1U) | (bit == '1' ? 1U : 0U);
    }
    return static_cast<std::int64_t>(word);
}

/// Unsigned counts must not be read as negative; those of ours that are signed have 64 bits.
double value_of(const VcdSignal& signal, std::int64_t time) {
    const std::string& text = signal.at(time);
    if (signal.type == "real") {
        return std::stod(text);
    }
    return static_cast<double>(signal.bits == 64 ? number(text) : number("0" + text));
}

const std::string gate_name = "commands.gate";

TEST(VcdTrace, HoldsWhatTheCsvHoldsAtEveryTick) {
    const TemporaryFolder folder;
    sim_test::trace_start(short_start(), folder, {"t.csv", "t.vcd"});
    const CsvColumns csv(folder.get("t.csv"));
    const VcdDump dump = sim_test::read_vcd(folder.get("t.vcd"));
    EXPECT_EQ(dump.timescale, "1us");
    EXPECT_EQ(dump.end, 400000);
    std::set<std::string> compared;
    for (const auto& [path, signal] : dump.signals) {
        const std::string prefix = "watch.";
        std::string name = path.rfind(prefix, 0) == 0 ? path.substr(prefix.size())
                                                      : path.substr(path.find('.') + 1);
        if (path == gate_name) {
            continue;
        }
        ASSERT_EQ(csv.columns.count(name), 1U) << path;
        compared.insert(name);
        // A command is in force from the tick before the row that shows it.
        const bool is_command = path.rfind("commands.", 0) == 0;
        for (std::size_t row = is_command ? 1 : 0; row < csv.rows; ++row) {
            const auto time = static_cast<std::int64_t>(100 * row) - (is_command ? 100 : 0);
            ASSERT_EQ(value_of(signal, time), csv.number(name, row)) << name << " " << row;
        }
    }
    for (const char* name :
         {"line_coil", "bypass_closed", "controller_state", "controller_reason", "controller_stage",
          "controller_status", "output_current_counts", "controller_powered",
          "controller_line_voltage_rms_V", "line.error_sum_Q20", "sequence.state"}) {
        EXPECT_EQ(compared.count(name), 1U) << name;
    }
    EXPECT_LT(value_of(dump.signals.at("watch.line.error_sum_Q20"), 20000), 0.0)
        << "a negative number, so that the sign is looked at";
}

TEST(VcdTrace, HasTheGateEdgesAtTheirMicrosecond) {
    const TemporaryFolder folder;
    sim_test::trace_start(short_start(), folder, {"t.csv", "t.vcd"});
    const CsvColumns csv(folder.get("t.csv"));
    const VcdSignal gate = sim_test::read_vcd(folder.get("t.vcd")).signals.at(gate_name);
    // Microsecond by microsecond from the windows of the CSV.
    std::size_t off_the_tick = 0;
    bool before = false;
    std::vector<std::pair<std::int64_t, std::string>> edges = {{0, "0"}};
    for (std::size_t row = 1; row < csv.rows; ++row) {
        const double on = csv.number("gate_on_us", row);
        const double off = csv.number("gate_off_us", row);
        for (int us = 0; us < 100; ++us) {
            const bool is_on = us >= on && us < off;
            if (is_on != before) {
                edges.emplace_back(100 * (static_cast<std::int64_t>(row) - 1) + us,
                                   is_on ? "1" : "0");
                off_the_tick += us != 0 ? 1 : 0;
            }
            before = is_on;
        }
    }
    EXPECT_EQ(gate.changes, edges);
    EXPECT_GT(off_the_tick, 20U) << "edges between two ticks, or nothing was tested";
}

TEST(VcdTrace, BreaksNoPulseThatGoesOnOverATick) {
    const TemporaryFolder folder;
    sim::AtomicOutput output(folder / "t.vcd");
    sim::VcdTrace trace(
        output,
        {{"gate_on_us", 0, [](const sim::TickView&) { return 0.0; }, sim::TraceOrigin::commands, 8},
         {"a_coil", 0, [](const sim::TickView&) { return 0.0; }, sim::TraceOrigin::commands, 1}});
    sim_test::TickSequence at;
    const auto window = [&](int on_us, int off_us) {
        at.commands.gate_on = sim::Instant(1000LL * on_us);
        at.commands.gate_off = sim::Instant(1000LL * off_us);
        trace.observe(at.view());
        at.next();
    };
    window(0, 0);
    window(37, 100);
    window(0, 100);
    window(0, 12);
    window(99, 100);
    window(50, 50);
    window(10, 20);
    window(0, 100);
    window(0, 0);
    output.commit();
    const auto gate = sim_test::read_vcd(folder.get("t.vcd")).signals.at(gate_name);
    const std::vector<std::pair<std::int64_t, std::string>> edges = {
        {0, "0"},   {37, "1"},  {212, "0"}, {399, "1"}, {400, "0"},
        {510, "1"}, {520, "0"}, {600, "1"}, {700, "0"}};
    EXPECT_EQ(gate.changes, edges);
}

TEST(VcdTrace, NamesOnlyWhatTheStandardAllowsAndTellsTheNumbersOfTheStates) {
    const TemporaryFolder folder;
    sim_test::trace_start(short_start(), folder, {"t.vcd"});
    const std::string text = folder.get("t.vcd");
    for (const auto& [path, signal] : sim_test::read_vcd(text).signals) {
        EXPECT_EQ(path.find_first_not_of("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"
                                         "0123456789_."),
                  std::string::npos)
            << path;
    }
    EXPECT_NE(text.find("state 3 = climbing\n"), std::string::npos);
    EXPECT_NE(text.find("reason 14 = stalled\n"), std::string::npos);
}

/// Independent of ours: the converter of a wave viewer (Debian package gtkwave) reads the dump into
/// its own format, and another of its programs writes that out again.
TEST(VcdTrace, IsReadByAnIndependentProgramChangeByChange) {
    const TemporaryFolder folder;
    sim_test::trace_start(short_start(), folder, {"t.vcd"});
    const std::string command = "vcd2fst " + (folder / "t.vcd") + " " + (folder / "t.fst") +
                                " && fst2vcd -f " + (folder / "t.fst") + " -o " +
                                (folder / "back.vcd") + " >/dev/null 2>&1";
    ASSERT_EQ(std::system(command.c_str()), 0) << "scripts/install_packages test installs it";
    const VcdDump ours = sim_test::read_vcd(folder.get("t.vcd"));
    const VcdDump theirs = sim_test::read_vcd(folder.get("back.vcd"));
    EXPECT_EQ(theirs.timescale, "1us");
    ASSERT_EQ(theirs.signals.size(), ours.signals.size());
    for (const auto& [path, signal] : ours.signals) {
        ASSERT_EQ(theirs.signals.count(path), 1U) << path;
        const VcdSignal& other = theirs.signals.at(path);
        EXPECT_EQ(other.bits, signal.bits) << path;
        ASSERT_EQ(other.changes.size(), signal.changes.size()) << path;
        for (std::size_t k = 0; k < signal.changes.size(); ++k) {
            ASSERT_EQ(other.changes[k].first, signal.changes[k].first) << path << " " << k;
            if (signal.type == "real") {
                ASSERT_EQ(std::stod(other.changes[k].second), std::stod(signal.changes[k].second))
                    << path << " " << k;
            } else {
                ASSERT_EQ(other.changes[k].second, signal.changes[k].second) << path << " " << k;
            }
        }
    }
}

}  // namespace
