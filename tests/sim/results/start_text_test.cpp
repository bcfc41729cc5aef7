// The page for people: what it says, and that its columns stand under each other.
#include "sim/results/start_text.hpp"

#include <gtest/gtest.h>

#include <sstream>
#include <string>
#include <vector>

#include "results/sample_results.hpp"
#include "sim/scenario/outcome.hpp"

namespace {

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream stream(text);
    std::string line;
    while (std::getline(stream, line)) {
        lines.push_back(line);
    }
    return lines;
}

/// Characters, not bytes, of UTF-8.
std::size_t length(const std::string& text) {
    std::size_t count = 0;
    for (const char letter : text) {
        count += (static_cast<unsigned char>(letter) & 0xc0U) != 0x80U ? 1 : 0;
    }
    return count;
}

/// Where `what` last stands in the first line that begins with `label`, in characters.
std::size_t column(const std::string& text, const std::string& label, const std::string& what) {
    for (const std::string& line : lines_of(text)) {
        if (line.rfind("  " + label, 0) == 0) {
            const std::size_t at = line.rfind(what);
            EXPECT_NE(at, std::string::npos) << label << ": " << line;
            return at == std::string::npos ? at : length(line.substr(0, at));
        }
    }
    ADD_FAILURE() << "no line " << label;
    return std::string::npos;
}

bool contains(const std::string& text, const std::string& what) {
    return text.find(what) != std::string::npos;
}

TEST(StartText, SaysTheVerdictAndEveryFigureThatAPractitionerAsksFor) {
    const std::string text = sim::start_text({sim_test::full_result()});
    for (const char* what :
         {"Cellar cold room", "comes up", "27.6 A", "33.5 A", "50.2 A", "226.5 V", "0.812 s",
          "0.938 s", "0.688 s", "3508 r/min", "none broken", "0.0250 %"}) {
        EXPECT_TRUE(contains(text, what)) << what << " is not in\n" << text;
    }
    EXPECT_TRUE(contains(text, "climbing, stage 2"));
}

TEST(StartText, EndsWithTheCautions) {
    const std::string text = sim::start_text({sim_test::full_result()});
    for (const char* what :
         {"A simulation, not a measurement", "isolate and prove dead", "through a resistor",
          "refrigerant circuit closed", "ocal codes", "icensed practice"}) {
        EXPECT_TRUE(contains(text.substr(text.size() / 2), what)) << what;
    }
}

TEST(StartText, SetsTwoResultsSideBySideUnderEachOther) {
    sim::StartResult direct = sim_test::full_result();
    direct.has_limiter = false;
    direct.figures.handover_s.reset();
    const std::string text = sim::start_text({direct, sim_test::full_result()});
    const std::size_t first = column(text, "       ", "DIRECT START");
    const std::size_t second = column(text, "       ", "THROUGH THE LIMITER");
    EXPECT_GT(second, first + 20);
    EXPECT_EQ(column(text, "verdict", "comes up"), second);
    for (const std::string label :
         {"inrush clamp", "half-cycle RMS", "peak current", "time to 90 %", "lowest line voltage",
          "speed at the end", "safety monitors"}) {
        // The second result's cell is the last on the line: it begins where its heading begins.
        for (const std::string& line : lines_of(text)) {
            if (line.rfind("  " + label, 0) == 0) {
                ASSERT_GT(line.size(), second) << line;
                EXPECT_NE(line[first], ' ') << line;
                EXPECT_EQ(line[first - 1], ' ') << line;
                EXPECT_NE(line[second], ' ') << line;
                EXPECT_EQ(line[second - 1], ' ') << line;
            }
        }
    }
    for (const std::string label : {"current, to", "voltage, to", "speed, to"}) {
        // The second chart's frame: a bar on either side.
        EXPECT_EQ(column(text, label, " |"), second - 1);
    }
}

TEST(StartText, KeepsItsColumnsForEveryOutcomeCauseAndReason) {
    std::vector<std::string> causes = {"inverter_overload", "dc_bus_low", "rotor_never_turned",
                                       "rotor_stayed_slow", "contactor_open"};
    for (int k = 0; k < firmware::reason_count; ++k) {
        causes.emplace_back(firmware::name_of(static_cast<firmware::Reason>(k)));
    }
    for (const sim::OutcomeWord& row : sim::outcome_words()) {
        for (const std::string& cause : causes) {
            sim::StartResult one = sim_test::full_result();
            one.outcome = row.outcome;
            one.cause = cause;
            one.supply_voltage_V = 100.0;
            one.figures.line_voltage_half_cycle_rms_min_V = 123.4;
            one.figures.line_current_peak_A = 1234.5;
            const std::string text = sim::start_text({one, sim_test::full_result()});
            const std::size_t second = column(text, "peak current", "50.2 A");
            EXPECT_EQ(column(text, "verdict", "comes up"), second) << row.word << text;
            EXPECT_EQ(column(text, "lowest line voltage", "226.5"), second);
            for (const std::string& line : lines_of(text)) {
                if (line.rfind("  why", 0) == 0) {
                    ASSERT_GT(line.size(), second) << line;
                    EXPECT_EQ(line.substr(second - 1), " -") << line;
                }
                EXPECT_LE(length(line), 100U) << line;
            }
        }
    }
}

TEST(StartText, ShowsADashWhereNothingWasMeasured) {
    const std::string text = sim::start_text({sim_test::empty_result()});
    EXPECT_NE(column(text, "inrush clamp, 100 ms RMS", "-"), std::string::npos);
    EXPECT_NE(column(text, "time to 90 % speed", "never"), std::string::npos);
    EXPECT_NE(column(text, "bypass takes over", "-"), std::string::npos);
    EXPECT_TRUE(contains(text, "does not come up"));
    EXPECT_TRUE(contains(text, "rotor never turned"));
}

TEST(StartText, ShoutsABrokenMonitorWithItsNumbers) {
    sim::StartResult result = sim_test::full_result();
    result.monitors = {{"retry_before_rest", {12.5, 2.0, 180.0, "s"}}};
    const std::string text = sim::start_text({result});
    EXPECT_TRUE(contains(text,
                         "BROKEN retry_before_rest: at 12.5000 s, 2.000 s seen, "
                         "180.000 allowed"))
        << text;
    EXPECT_FALSE(contains(text, "none broken"));
}

TEST(StartText, TellsOfSomebodyElsesControllerOnlyWhatItIsSeenToDo) {
    sim::StartResult result = sim_test::full_result();
    result.controller_steps.clear();
    sim::ControllerStep step;
    step.time_s = 0.125;
    step.state = firmware::State::climbing;
    step.seen = sim::SeenDoing::feeding_with_start_capacitor;
    result.controller_steps.push_back(step);
    const std::string seen = sim::start_text({result});
    EXPECT_TRUE(contains(seen, "0.125 s  feeding with the start capacitor\n")) << seen;
    EXPECT_FALSE(contains(seen, "climbing")) << seen;
    result.controller_steps.front().seen.reset();
    result.controller_steps.front().has_stage = false;
    const std::string told = sim::start_text({result});
    EXPECT_TRUE(contains(told, "0.125 s  climbing\n")) << told;
}

TEST(VerdictLine, IsOneLineWithOutcomeCauseAndBrokenMonitors) {
    EXPECT_EQ(sim::verdict_line(sim_test::full_result()), "cellar: running\n");
    sim::StartResult result = sim_test::empty_result();
    result.monitors = {{"standing_rotor_fed_too_long", {6.0, 5.0, 5.0, "s"}}};
    EXPECT_EQ(sim::verdict_line(result),
              "cellar: stalled (rotor never turned), BROKEN standing_rotor_fed_too_long, "
              "expected running\n");
}

}  // namespace
