// The watch list against the sources: what the controller keeps between two ticks can be watched.
#include <gtest/gtest.h>

#include <map>
#include <regex>
#include <set>
#include <string>

#include "source_tree.hpp"

namespace {

using architecture_test::SourceFile;

/// Members that are not listed, and why.
const std::map<std::string, std::string>& left_out() {
    const std::string fixed = "a limit that the settings fix";
    const std::string part = "a part, whose own members are listed";
    const std::string unit = "a value type, not a state of its own";
    static const std::map<std::string, std::string> members = {
        // Controller
        {"controller.hpp telemetry_", "told by itself"},
        // parts
        {"controller.hpp line_tracker_", part},
        {"sequence/sequence.hpp settings_usable_", fixed},
        {"sequence/sequence.hpp start_capacitor_limit_", fixed},
        {"sequence/sequence.hpp run_clears_tries_", fixed},
        {"sequence/sequence.hpp sensors_at_rest_", fixed},
        {"sequence/line_watch.hpp lowest_", fixed},
        {"sequence/line_watch.hpp highest_", fixed},
        {"sequence/line_watch.hpp slowest_", fixed},
        {"sequence/line_watch.hpp fastest_", fixed},
        {"sequence/line_watch.hpp sag_limit_", fixed},
        {"sequence/line_watch.hpp patience_half_cycles_", fixed},
        {"sequence/probing.hpp angle_", fixed},
        {"sequence/probing.hpp half_cycles_to_fire_", fixed},
        {"sequence/probing.hpp contactor_settle_", fixed},
        {"sequence/probing.hpp start_capacitor_settle_", fixed},
        {"sequence/probing.hpp smallest_", fixed},
        {"sequence/probing.hpp largest_", fixed},
        {"sequence/probing.hpp half_cycles_to_inspect_", fixed},
        {"sequence/climbing.hpp limit_", fixed},
        {"sequence/hand_over.hpp sweep_delay_", fixed},
        {"sequence/hand_over.hpp release_", fixed},
        {"sequence/hand_over.hpp confirm_limit_", fixed},
        {"sequence/hand_over.hpp swing_limit_", fixed},
        {"sequence/hand_over.hpp bypass_settle_", fixed},
        {"sequence/hand_over.hpp sweep_half_cycles_", fixed},
        {"sequence/hand_over.hpp confirm_half_cycles_", fixed},
        {"sequence/hand_over.hpp up_to_speed_", fixed},
        {"sequence/hand_over.hpp up_to_speed_level_", fixed},
        {"sequence/hand_over.hpp start_capacitor_level_", fixed},
        {"sequence/hand_over.hpp full_conduction_", fixed},
        {"sequence/rest_and_tries.hpp rest_", fixed},
        {"sequence/rest_and_tries.hpp clear_", fixed},
        {"sequence/rest_and_tries.hpp tries_allowed_", fixed},
        {"recognition/inspection.hpp run_capacitor_fitted_", fixed},
        {"recognition/inspection.hpp unasked_", fixed},
        {"recognition/inspection.hpp dead_level_", fixed},
        {"recognition/inspection.hpp shorted_", fixed},
        {"recognition/inspection.hpp start_capacitor_share_", fixed},
        {"recognition/inspection.hpp swapped_impedance_permille_", fixed},
        {"recognition/inspection.hpp unequal_", fixed},
        {"recognition/sensors_at_rest.hpp limit_counts_", fixed},
        {"recognition/fed_watch.hpp lost_fraction_", fixed},
        {"recognition/fed_watch.hpp climb_difference_", fixed},
        {"recognition/fed_watch.hpp beyond_", fixed},
        {"recognition/fed_watch.hpp dead_level_", fixed},
        {"recognition/stall.hpp stall_fraction_", fixed},
        {"recognition/stall.hpp lost_fraction_", fixed},
        {"recognition/stall.hpp dead_level_", fixed},
        {"recognition/stall.hpp slow_level_", fixed},
        {"recognition/stall.hpp up_to_speed_", fixed},
        {"recognition/stall.hpp up_to_speed_level_", fixed},
        {"recognition/stall.hpp start_capacitor_level_", fixed},
        {"recognition/run_up.hpp run_up_rise_", fixed},
        {"recognition/run_up.hpp sure_rise_", fixed},
        {"recognition/run_up.hpp turning_rise_", fixed},
        {"recognition/run_up.hpp accelerating_growth_permille_", fixed},
        {"recognition/run_up.hpp accelerating_fall_permille_", fixed},
        {"recognition/run_up.hpp turning_current_fall_permille_", fixed},
        {"recognition/run_up.hpp growth_half_cycles_", fixed},
        {"recognition/run_up.hpp look_ahead_half_cycles_", fixed},
        {"recognition/lasting.hpp patience_", fixed},
        {"ramp_laws/ramp_law_list.hpp chosen_", fixed},
        {"learning/learning_laws.hpp chosen_", fixed},
        {"learning/learning_laws.hpp factory_", fixed},
        {"learning/learning_laws.hpp easing_", fixed},
        {"learning/easing.hpp factory_", fixed},
        {"learning/easing.hpp in_time_ms_", fixed},
        {"gating/gate_timer.hpp pulse_end_", fixed},
        {"memory/journal.hpp erase_due_", "set and taken back within one step"},
        {"memory/journal.hpp checksum_", "follows from the words that have been written"},
        {"memory/checksum.hpp remainder_", "of one calculation"},
        {"measurement/meters.hpp readings_", "seen.readings within a few ticks"},
        {"units/phase.hpp count_", unit},
        {"units/quantity.hpp count_", unit},
        {"units/stopwatch.hpp elapsed_", unit},
    };
    return members;
}

/// Names of members, which end in an underscore, where one is declared.
std::set<std::string> members_of(const std::string& header) {
    static const std::regex declaration(R"([\w>&*]\s+([a-z]\w*_)(\s*=[^;(]*|\s*\{[^;]*\})?;)");
    const std::string code = architecture_test::code_only(header);
    std::set<std::string> members;
    for (auto at = std::sregex_iterator(code.begin(), code.end(), declaration);
         at != std::sregex_iterator(); ++at) {
        // What is returned is no declaration; the expression's first letter is the word's last.
        const auto begin = static_cast<std::size_t>(at->position());
        if (begin < 5 || code.substr(begin - 5, 6) != "return") {
            members.insert((*at)[1].str());
        }
    }
    return members;
}

std::string watch_sources() {
    std::string text;
    for (const SourceFile& file : architecture_test::sources_of("firmware")) {
        if (file.path.rfind("firmware/watch/", 0) == 0) {
            text += architecture_test::code_only(file.text);
        }
    }
    return text;
}

TEST(WatchList, FindsTheMembersOfAHeader) {
    const std::string header =
        "class A {\n  int f() const { return kept_; }\n  int kept_ = 0;\n  Part part_;\n"
        "  std::array<int, 3> ring_{};\n  Phase a_{1000};\n  // gone_;\n};\n";
    EXPECT_EQ(members_of(header), (std::set<std::string>{"kept_", "part_", "ring_", "a_"}));
}

TEST(WatchList, HoldsEveryMemberOfTheControllerThatChanges) {
    const std::string watched = watch_sources();
    ASSERT_NE(watched, "");
    std::set<std::string> unused;
    for (const auto& [member, why] : left_out()) {
        unused.insert(member);
    }
    std::size_t count = 0;
    for (const SourceFile& file : architecture_test::sources_of("firmware")) {
        const std::string path = file.path.substr(std::string("firmware/").size());
        if (path.rfind("watch/", 0) == 0 || path.find(".hpp") == std::string::npos) {
            continue;
        }
        for (const std::string& member : members_of(file.text)) {
            const bool is_left_out = unused.erase(path + " " + member) > 0;
            const bool is_watched = std::regex_search(watched, std::regex("\\." + member + "\\b"));
            EXPECT_TRUE(is_left_out || is_watched)
                << file.path << ": give " << member
                << " its row in firmware/watch, or say here why it has none";
            ++count;
        }
    }
    EXPECT_GT(count, 150U);
    EXPECT_EQ(unused, std::set<std::string>()) << "left out here, but not in the controller";
}

/// Words of a name, without what only says how it is counted.
std::set<std::string> words_in(const std::string& name) {
    static const std::regex word("[a-z0-9]+");
    static const std::set<std::string> of_counting = {"m", "ms", "c", "current"};
    std::set<std::string> words;
    for (auto at = std::sregex_iterator(name.begin(), name.end(), word);
         at != std::sregex_iterator(); ++at) {
        if (of_counting.count(at->str()) == 0) {
            words.insert(at->str());
        }
    }
    return words;
}

TEST(WatchList, ReadsUnderEachNameAMemberThatIsCalledSoAndNoneTwice) {
    // Where the member's own name would say less than the variable's.
    const std::map<std::string, std::string> other_words = {
        {"probing.ticks", "clock"},     {"climbing.ticks", "clock"},
        {"hand_over.ticks", "clock"},   {"learning.witness_newest_mA2", "squares"},
        {"memory.found", "recovery"},   {"run_up.level", "levels"},
        {"run_up.current", "currents"}, {"memory.command", "kind"}};
    const std::regex row(
        R"re(\{\s*"([a-z_]+\.\w+)",\s*("[^"]*"\s*)+,\s*\[\]\(const Controller& c\) \{\s*)re"
        R"re(return number\(\s*c\.([^;]*)\);)re");
    std::set<std::string> members;
    std::size_t rows = 0;
    for (const SourceFile& file : architecture_test::sources_of("firmware")) {
        if (file.path.rfind("firmware/watch/", 0) != 0) {
            continue;
        }
        for (auto at = std::sregex_iterator(file.text.begin(), file.text.end(), row);
             at != std::sregex_iterator(); ++at) {
            ++rows;
            const std::string name = (*at)[1].str();
            const std::string member = (*at)[3].str();
            EXPECT_TRUE(members.insert(member).second) << name << " reads " << member;
            const auto other = other_words.find(name);
            std::set<std::string> wanted = words_in(
                other != other_words.end() ? other->second : name.substr(name.find('.') + 1));
            std::size_t shared = 0;
            for (const std::string& word : words_in(member)) {
                shared += wanted.count(word);
            }
            EXPECT_GT(shared, 0U) << name << " reads " << member;
        }
    }
    EXPECT_GT(rows, 150U);
}

}  // namespace
