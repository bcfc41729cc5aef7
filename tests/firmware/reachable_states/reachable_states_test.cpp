// Everything that the controller can come to, against what it promises and what is written down.
#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <map>
#include <random>
#include <regex>
#include <set>
#include <string>
#include <vector>

#include "firmware/controller.hpp"
#include "firmware/learning/learned_payload.hpp"
#include "memory/flash.hpp"
#include "reachable_states/exploration.hpp"

namespace {

using namespace firmware;
using memory_test::Flash;
using reachable_states::explore;
using reachable_states::Found;
using reachable_states::Transition;

constexpr std::size_t most_controllers = 6000;

// Short times, so that every limit is reached within a few cycles; which is longer than which is as
// in the defaults.
Settings short_times() {
    Settings settings;
    settings.stage_count = 2;
    settings.stages[0] = {400, 100};
    settings.stages[1] = {700, 150};
    settings.climb_limit_ms = 500;
    settings.start_capacitor_limit_ms = 700;
    settings.sweep_half_cycles = 2;
    settings.confirm_half_cycles = 4;
    settings.confirm_limit_ms = 100;
    settings.swing_limit_ms = 250;
    settings.fault_half_cycles = 3;
    settings.stall_patience_ms = 100;
    settings.slow_patience_ms = 40;
    settings.rest_before_retry_s = 1;
    settings.run_clears_tries_s = 1;
    settings.lockout_clear_s = 2;
    settings.tries = 2;
    return settings;
}

// A start capacitor that bears less than the climb may last, with a contact that takes longer to
// open than a motor at speed takes to show it; and one try.
Settings weak_start_capacitor() {
    Settings settings = short_times();
    settings.start_capacitor_limit_ms = 430;
    settings.start_capacitor_release_ms = 150;
    settings.run_capacitor_fitted = 0;
    settings.tries = 1;
    return settings;
}

Flash store_with(Learned learned, const RestMark& mark) {
    Flash flash;
    Journal journal(flash.pages());
    learned.locked_rotor = MilliAmperes{80000};
    memory_test::save_whole(journal, flash, with_rest_mark(payload_of(learned), mark));
    return flash;
}

// Fresh; an eased ladder; a raised one, with a rest owed and a try behind it; garbage.
std::vector<Flash> memories() {
    Learned eased;
    eased.level = eased.good = Permille{600};
    Learned raised;
    raised.level = Permille{1400};
    std::mt19937 random(3);
    return {Flash(), store_with(eased, {}), store_with(raised, {true, 1}),
            Flash(memory_test::random_pages(random))};
}

using Row = std::string;

Row row_of(const Transition& transition) {
    return std::string(name_of(transition.from)) + " | " + name_of(transition.to) + " | " +
           name_of(transition.reason);
}

// Rows of the document's tables: from, to, because and, where it is not met, why not.
struct Document {
    std::set<Row> met;
    std::set<Row> not_met;
};

Document document() {
    std::ifstream file(std::string(RUNUP_SOURCE_FOLDER) + "/firmware/TRANSITIONS.md");
    const std::regex cells(R"(^\| ([a-z ]+) \| ([a-z ]+) \| ([a-z, ]+) \|( [^|]+ \|)?$)");
    const std::regex comma(", ");
    Document read;
    std::string line;
    while (std::getline(file, line)) {
        std::smatch cell;
        if (!std::regex_match(line, cell, cells) || cell[1] == "from") {
            continue;
        }
        const std::string reasons = cell[3];
        for (std::sregex_token_iterator reason(reasons.begin(), reasons.end(), comma, -1), end;
             reason != end; ++reason) {
            (cell[4].matched ? read.not_met : read.met)
                .insert(cell[1].str() + " | " + cell[2].str() + " | " + reason->str());
        }
    }
    return read;
}

// What stands in one and not in the other, with a line for each.
std::string only_in(const std::set<Row>& one, const std::set<Row>& other) {
    std::string rows;
    for (const Row& row : one) {
        rows += other.count(row) == 0 ? "\n    " + row : "";
    }
    return rows;
}

// The search is the same in every run, and so is what it meets.
// Covers: CT-01, CT-02, CT-03, CT-04, LG-01, LG-02, LW-02, LW-03, LW-06, CL-03, HO-01, HO-03, HO-04
TEST(ReachableStates, AreAllVisitedAndNoneBreaksARequirement) {
    std::set<Row> met;
    std::set<State> states;
    std::set<Reason> reasons = {Reason::none};
    for (const Settings& settings : {short_times(), weak_start_capacitor()}) {
        ASSERT_EQ(check(settings), SettingsProblem::none);
        const Found found = explore(settings, memories(), most_controllers);
        EXPECT_EQ(found.broken, "");
        EXPECT_TRUE(found.complete);
        EXPECT_GT(found.controllers, 500U) << "a search that meets little proves little";
        for (const Transition& transition : found.transitions) {
            met.insert(row_of(transition));
            states.insert(transition.to);
            reasons.insert(transition.reason);
        }
    }
    Settings refused;
    refused.tries = 0;
    reasons.insert(Controller(refused).telemetry().reason);
    for (int state = 0; state < state_count; ++state) {
        EXPECT_EQ(states.count(static_cast<State>(state)), 1U)
            << name_of(static_cast<State>(state));
    }
    for (int reason = 0; reason < reason_count; ++reason) {
        EXPECT_EQ(reasons.count(static_cast<Reason>(reason)), 1U)
            << name_of(static_cast<Reason>(reason));
    }
    const Document written = document();
    EXPECT_EQ(only_in(met, written.met), "") << "met, but not in firmware/TRANSITIONS.md";
    EXPECT_EQ(only_in(written.met, met), "") << "in firmware/TRANSITIONS.md, but not met";
    EXPECT_EQ(only_in(written.not_met, written.met), only_in(written.not_met, {}))
        << "told to be met and not to be met";
}

// Covers: CT-07
TEST(ReachableStates, OfRefusedSettingsFeedNothing) {
    Settings refused = short_times();
    refused.stage_count = 0;
    const Found found = explore(refused, memories(), most_controllers);
    EXPECT_EQ(found.broken, "");
    EXPECT_TRUE(found.complete);
    EXPECT_TRUE(found.transitions.empty());
}

}  // namespace
