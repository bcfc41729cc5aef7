// A suite: many starts, each a scenario that follows from the suite's file and the case's number
// alone, so that any single one can be made again, on any machine, in any order.
//
// A case is one start, or a series of them on one plant (`starts` above 1).
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "sim/bench/repeat_run.hpp"
#include "sim/scenario/scenario.hpp"

namespace sim {

/// A number that chance gave to a case, for what drives failure.
struct DrawnInput {
    std::string name;  ///< of the spread, ends in its unit
    double value = 0.0;
};

/// A bound on a figure of every start of the case.
struct FigureLimit {
    std::string figure;  ///< in figure_list()
    std::optional<double> lowest;
    std::optional<double> highest;
};

/// What a case stands for in the matrix; empty where the matrix has no such side.
struct CasePlace {
    std::string block;
    std::string compressor;
    std::string supply;
    std::string condition;
    std::string fault;
    std::string setting;
};

struct SuiteCase {
    std::int64_t id = 0;  ///< from 0, in the order of the suite
    CasePlace place;
    std::uint32_t seed = 0;
    Scenario scenario;              ///< complete; its [expect] is the first of `accepted`
    std::vector<Outcome> accepted;  ///< in which each start may end; at least one
    std::vector<DrawnInput> drawn;  ///< those that act on this case
    std::vector<FigureLimit> limits;
    RepeatPlan series;  ///< `starts` is 1 for a single start
};

/// A block that answers for a rate: a start of it that ends in another outcome than those accepted
/// counts against the rate, and fails the suite only with it. A monitor or a limit that a start
/// breaks fails the suite all the same.
struct RateRequirement {
    std::string block;
    double success_at_least_percent = 0.0;  ///< share of the block's starts that end as accepted
};

class Suite {
  public:
    virtual ~Suite() = default;

    virtual const std::string& name() const = 0;
    virtual const std::string& title() const = 0;
    /// The whole of it, with every suite and scenario that it includes: what it is run from again.
    virtual const std::string& text() const = 0;
    virtual std::int64_t case_count() const = 0;
    /// Of the blocks that have one, in their order; no block twice.
    virtual const std::vector<RateRequirement>& rates() const = 0;
    /// Safe to call from several threads. Throws InputError for a case whose drawn values leave the
    /// bounds of a table.
    virtual SuiteCase case_at(std::int64_t id) const = 0;
};

/// Reads a suite from a file, or a bundled one by its name. Throws InputError.
std::unique_ptr<Suite> read_suite(const std::string& path_or_name);

/// Reads the text() of a suite again.
std::unique_ptr<Suite> suite_from_text(const std::string& text, const std::string& name);

}  // namespace sim
