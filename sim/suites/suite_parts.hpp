// What a suite's file says, table by table, before any case is made of it.
#pragma once

#include <deque>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "sim/scenario/outcome.hpp"
#include "sim/scenario/scenario_layers.hpp"
#include "sim/sizing/way.hpp"
#include "sim/suites/distribution.hpp"
#include "sim/suites/spread_inputs.hpp"
#include "sim/suites/suite.hpp"

namespace sim {

/// Where a table stands and where its keys do.
struct KeyPlaces {
    TablePlace table;
    std::map<std::string, int, std::less<>> lines;

    /// Of the table for a key that it does not give.
    TablePlace of(std::string_view key) const {
        const auto line = lines.find(key);
        return line == lines.end() ? table : TablePlace{table.file, line->second};
    }
};

/// Table [suite].
struct SuiteHeading {
    std::string title;
    std::uint32_t seed = 1;
    std::vector<std::string> include;  ///< suites whose cases come behind this one's own
    KeyPlaces places;
};

/// Table [[spread]].
struct Spread {
    std::string group;
    const SpreadInput* input = nullptr;
    Distribution distribution;
    TablePlace place;
};

/// Table [[expectation]].
struct Requirements {
    std::string name;
    std::vector<std::string> outcome_names;
    std::vector<FigureLimit> limits;
    TablePlace place;

    std::vector<Outcome> accepted() const;
};

/// One entry of a side of the matrix: [[compressor]], [[supply]], [[condition]], [[fault]] or
/// [[setting]]. What it gives beside its own keys are tables of a scenario.
struct SideEntry {
    std::string name;
    const LibraryEntry* library = nullptr;  ///< of a compressor or a supply: laid over it
    std::optional<Way> way;                 ///< of a setting: what `runup size` calls so
    TablePlace place;
    ScenarioLayer layer;
};

/// Table [[block]].
struct Block {
    std::string name;
    std::string scenario;  ///< empty: none
    std::vector<std::string> compressors;
    std::vector<std::string> supplies;
    std::vector<std::string> conditions;
    std::vector<std::string> faults;
    std::vector<double> fault_at_s;
    std::vector<std::string> settings;
    bool leaves_out_misfits = false;
    int draws = 1;
    std::vector<std::string> spreads;  ///< groups
    int starts = 1;
    std::string expect;  ///< empty: as the scenario says
    std::optional<double> success_at_least_percent;
    KeyPlaces places;
    ScenarioLayer layer;
};

/// A text that a suite's own text carries along: table [[enclosed]].
struct Enclosed {
    std::string name;
    std::string text;
};

/// Lists that do not move what they hold, because keys are bound to it while it is read.
struct SuiteParts {
    SuiteHeading heading;
    std::deque<Spread> spreads;
    std::deque<Requirements> expectations;
    std::deque<SideEntry> compressors;
    std::deque<SideEntry> supplies;
    std::deque<SideEntry> conditions;
    std::deque<SideEntry> faults;
    std::deque<SideEntry> settings;
    std::deque<Block> blocks;
    std::vector<Enclosed> enclosed;
};

/// Names that stand for many.
inline constexpr std::string_view all_of_library = "all";
inline constexpr std::string_view fitting_supplies = "fitting";
inline constexpr std::string_view single_faults_word = "single";
/// The healthy start beside the faults.
inline constexpr std::string_view no_fault_word = "none";

}  // namespace sim
