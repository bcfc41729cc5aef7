// A block of a suite, with every name in it resolved and every cell of its matrix known to be one
// that can be built.
#pragma once

#include <cstdint>
#include <deque>
#include <memory>
#include <string>
#include <vector>

#include "sim/suites/case_building.hpp"
#include "sim/suites/case_draws.hpp"
#include "sim/suites/suite_sources.hpp"

namespace sim {

/// More are refused: whoever wants as many wants more draws instead.
inline constexpr std::int64_t most_cells = 20'000;

class SuiteBlock {
  public:
    struct Context {
        const SuiteParts& parts;  ///< of the suite that the block is in
        std::string suite_id;     ///< empty: the outermost; see SuiteSources
        std::string prefix;       ///< of the block's name, with a slash; empty in the outermost
        std::int64_t most_cells;
    };

    /// Throws InputError for what is unknown or does not go together.
    SuiteBlock(const Block& block, const Context& context, SuiteSources& sources);

    const std::string& name() const { return name_; }
    std::int64_t case_count() const { return static_cast<std::int64_t>(cells_.size()) * draws_; }
    std::optional<RateRequirement> rate() const;
    /// `number` from 0; its id and its scenario's name are left to the suite. Throws InputError.
    SuiteCase case_at(std::int64_t number) const;

  private:
    struct Indices {
        std::uint32_t compressor;
        std::uint32_t supply;
        std::uint32_t condition;
        std::uint32_t fault;
        std::uint32_t setting;
    };

    void read_base(const Block& block, const Context& context, SuiteSources& sources);
    void read_sides(const Block& block, const SuiteParts& parts);
    void read_faults(const Block& block, const SuiteParts& parts);
    void read_requirements(const Block& block, const SuiteParts& parts);
    void read_spreads(const Block& block, const SuiteParts& parts);
    void make_cells(const Block& block, std::int64_t most);
    void make_cells_of_pair(Indices at);
    bool suits(const Indices& at, bool leaves_out) const;
    bool can_be_built(const Indices& at) const;
    Cell cell(const Indices& at) const;
    CasePlace place(const Indices& at) const;
    std::string words_for(const Indices& at) const;
    [[noreturn]] void refuse(const std::string& key, const std::string& fault) const;

    std::string name_;
    std::uint32_t suite_seed_ = 0;
    KeyPlaces places_;
    BlockBase base_;
    std::vector<SideChoice> compressors_;
    std::vector<SideChoice> supplies_;
    std::vector<SideChoice> conditions_;
    std::vector<FaultChoice> faults_;
    std::vector<SideChoice> settings_;
    bool leaves_out_misfits_ = false;
    bool leaves_out_supplies_ = false;
    std::vector<Spread> spreads_;
    std::vector<Outcome> accepted_;
    std::vector<FigureLimit> limits_;
    std::optional<double> success_at_least_percent_;
    std::int64_t draws_ = 1;
    int starts_ = 1;
    std::vector<Indices> cells_;
};

}  // namespace sim
