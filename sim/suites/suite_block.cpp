#include "sim/suites/suite_block.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "sim/campaigns/single_faults.hpp"
#include "sim/files/input_error.hpp"
#include "sim/files/quoting.hpp"
#include "sim/scenario/part_scaling.hpp"
#include "sim/scenario/scenario_reader.hpp"
#include "sim/sizing/supply_at_hand.hpp"
#include "sim/suites/side_names.hpp"
#include "sim/suites/suite_tables.hpp"

namespace sim {

SuiteBlock::SuiteBlock(const Block& block, const Context& context, SuiteSources& sources)
    : name_(context.prefix + block.name),
      suite_seed_(context.parts.heading.seed),
      places_(block.places),
      leaves_out_misfits_(block.leaves_out_misfits),
      success_at_least_percent_(block.success_at_least_percent),
      draws_(block.draws),
      starts_(block.starts) {
    read_base(block, context, sources);
    read_sides(block, context.parts);
    read_faults(block, context.parts);
    read_requirements(block, context.parts);
    read_spreads(block, context.parts);
    make_cells(block, context.most_cells);
}

std::optional<RateRequirement> SuiteBlock::rate() const {
    return success_at_least_percent_
               ? std::optional<RateRequirement>({name_, *success_at_least_percent_})
               : std::nullopt;
}

SuiteCase SuiteBlock::case_at(std::int64_t number) const {
    const Indices& at = cells_.at(static_cast<std::size_t>(number / draws_));
    SuiteCase one;
    one.place = place(at);
    const CaseLuck luck =
        luck_of(suite_seed_, one.place, static_cast<std::uint32_t>(number % draws_));
    one.seed = seed_of(luck);
    // That it can be built is known since the block was read.
    one.scenario = scenario_of(base_, cell(at)).value();
    one.scenario.title = words_for(at);
    std::vector<const Spread*> spreads;
    for (const Spread& spread : spreads_) {
        spreads.push_back(&spread);
    }
    one.drawn = apply_draws(luck, spreads, one.scenario);
    if (const std::string fault = out_of_bounds_after_scaling(one.scenario); !fault.empty()) {
        refuse("spreads",
               fmt::format("in draw {} of {}, {}", number % draws_, words_for(at), fault));
    }
    one.scenario.run.seed = static_cast<int>(one.seed);
    one.accepted = accepted_;
    one.scenario.expect.outcome = accepted_.front();
    one.limits = limits_;
    one.series = {starts_, one.scenario.run.rest_between_s,
                  one.scenario.run.cuts_power_between_starts()};
    return one;
}

void SuiteBlock::read_base(const Block& block, const Context& context, SuiteSources& sources) {
    base_.place = block.places.table;
    base_.layers.push_back(block.layer);
    if (block.scenario.empty()) {
        return;
    }
    const auto source = sources.find(SuiteSources::Kind::scenario, block.scenario, context.suite_id,
                                     places_.of("scenario"), "block.scenario");
    const ScenarioLayer own = layer_of(parsed_file(source.text, source.name, "its [table]"));
    const Scenario scenario = parse_scenario(source.text, source.name);
    base_.expected = scenario.expect.outcome;
    base_.library = scenario.library;
    base_.layers.push_back(own.without(tables_of_no_layer()));
    if (base_.library.compressor != nullptr) {
        base_.layers.push_back(layer_of(*base_.library.compressor).without(tables_of_no_layer()));
    }
    if (base_.library.supply != nullptr) {
        base_.layers.push_back(layer_of(*base_.library.supply).without(tables_of_no_layer()));
    }
}

void SuiteBlock::read_sides(const Block& block, const SuiteParts& parts) {
    const auto at = [this](const char* key) {
        return SidePlace{places_.of(key), std::string("block.") + key};
    };
    compressors_ = library_choices(block.compressors, parts.compressors, library_compressors(),
                                   at("compressors"));
    const bool fitting = block.supplies == std::vector<std::string>{std::string(fitting_supplies)};
    const std::vector<std::string> all{std::string(all_of_library)};
    leaves_out_supplies_ = fitting;
    supplies_ = library_choices(fitting ? all : block.supplies, parts.supplies, library_supplies(),
                                at("supplies"));
    conditions_ = own_choices(block.conditions, parts.conditions, at("conditions"));
    settings_ = setting_choices(block.settings, parts.settings, at("settings"));
}

void SuiteBlock::read_faults(const Block& block, const SuiteParts& parts) {
    if (block.faults.empty()) {
        faults_ = {FaultChoice{}};
        return;
    }
    faults_ = fault_choices(block.faults, block.fault_at_s, parts.faults,
                            SidePlace{places_.of("faults"), "block.faults"});
}

void SuiteBlock::read_requirements(const Block& block, const SuiteParts& parts) {
    accepted_ = {base_.expected};
    if (block.expect.empty()) {
        return;
    }
    const auto found =
        std::find_if(parts.expectations.begin(), parts.expectations.end(),
                     [&block](const Requirements& one) { return one.name == block.expect; });
    if (found == parts.expectations.end()) {
        refuse("expect", sim::quoted(block.expect) + " is no [[expectation]] of this file; " +
                             names_that_are_there(parts.expectations));
    }
    accepted_ = found->accepted();
    limits_ = found->limits;
}

void SuiteBlock::read_spreads(const Block& block, const SuiteParts& parts) {
    for (const std::string& group : block.spreads) {
        const std::size_t before = spreads_.size();
        for (const Spread& spread : parts.spreads) {
            if (spread.group == group) {
                spreads_.push_back(spread);
            }
        }
        if (spreads_.size() == before) {
            refuse("spreads", sim::quoted(group) +
                                  " is the group of no [[spread]] of this file; give one that is");
        }
    }
    for (std::size_t k = 0; k < spreads_.size(); ++k) {
        for (std::size_t other = 0; other < k; ++other) {
            const SpreadInput& input = *spreads_[k].input;
            if (&input == spreads_[other].input && !input.is_factor) {
                refuse("spreads", fmt::format("{} is drawn twice, and is no factor; choose groups "
                                              "of which only one draws it",
                                              input.name));
            }
        }
    }
}

void SuiteBlock::make_cells(const Block& block, std::int64_t most) {
    std::int64_t count = 1;
    for (const std::size_t side : {compressors_.size(), supplies_.size(), conditions_.size(),
                                   faults_.size(), settings_.size()}) {
        count *= static_cast<std::int64_t>(side);
        if (count > most) {
            throw InputError(places_.table.file, places_.table.line, "block",
                             fmt::format("this matrix has more than {} cells; split the block, or "
                                         "give draws instead",
                                         most));
        }
    }
    for (std::uint32_t c = 0; c < compressors_.size(); ++c) {
        for (std::uint32_t s = 0; s < supplies_.size(); ++s) {
            const Indices at{c, s, 0, 0, 0};
            if (suits(at, leaves_out_misfits_ || leaves_out_supplies_)) {
                make_cells_of_pair(at);
            }
        }
    }
    if (cells_.empty()) {
        throw InputError(places_.table.file, places_.table.line, "block",
                         "no cell of this matrix is left; give parts that go together (" +
                             block.name + " leaves the others out)");
    }
}

void SuiteBlock::make_cells_of_pair(Indices at) {
    for (at.condition = 0; at.condition < conditions_.size(); ++at.condition) {
        for (at.fault = 0; at.fault < faults_.size(); ++at.fault) {
            for (at.setting = 0; at.setting < settings_.size(); ++at.setting) {
                if (can_be_built(at)) {
                    cells_.push_back(at);
                }
            }
        }
    }
}

/// A pair that the block names itself, both in one scenario, is left to the scenario's own rules.
bool SuiteBlock::suits(const Indices& at, bool leaves_out) const {
    if (compressors_[at.compressor].layers.empty() && supplies_[at.supply].layers.empty()) {
        return true;
    }
    const Scenario pair = pair_of(base_, cell(at));
    const SupplyAtHand supply{"", "", pair.source, pair.wiring};
    if (sim::suits(supply, pair.motor)) {
        return true;
    }
    if (!leaves_out) {
        refuse("supplies",
               fmt::format("{} has {:g} V, {:g} Hz and the motor {:g} V, {:g} Hz; give supplies = "
                           "\"fitting\", or misfits = \"leave_out\"",
                           words_for(at), supply.voltage_V(), supply.frequency_Hz(),
                           pair.motor.rated_voltage_V, pair.motor.rated_frequency_Hz));
    }
    return false;
}

bool SuiteBlock::can_be_built(const Indices& at) const {
    try {
        if (scenario_of(base_, cell(at))) {
            return true;
        }
    } catch (const InputError& error) {
        // A fault of a part that is not there; all else is wrong in every cell.
        if (!leaves_out_misfits_ || error.key() != "fault.kind") {
            throw;
        }
    }
    // "single" stands for those that the unit can have.
    const bool is_listed = faults_[at.fault].single.empty() || faults_[at.fault].was_named;
    if (!leaves_out_misfits_ && is_listed) {
        refuse(faults_[at.fault].single.empty() ? "settings" : "faults",
               words_for(at) +
                   " cannot be built, because the unit lacks the part; give others, or misfits = "
                   "\"leave_out\"");
    }
    return false;
}

Cell SuiteBlock::cell(const Indices& at) const {
    return {&compressors_[at.compressor], &supplies_[at.supply], &conditions_[at.condition],
            &settings_[at.setting], &faults_[at.fault]};
}

CasePlace SuiteBlock::place(const Indices& at) const {
    return {name_,
            compressors_[at.compressor].name,
            supplies_[at.supply].name,
            conditions_[at.condition].name,
            faults_[at.fault].name,
            settings_[at.setting].name};
}

std::string SuiteBlock::words_for(const Indices& at) const {
    const CasePlace named = place(at);
    std::string words = named.compressor;
    if (!named.supply.empty()) {
        words += (words.empty() ? "On " : " on ") + named.supply;
    }
    for (const std::string* side : {&named.condition, &named.fault, &named.setting}) {
        if (!side->empty()) {
            words += (words.empty() ? "" : ", ") + *side;
        }
    }
    return words.empty() ? name_ : words;
}

void SuiteBlock::refuse(const std::string& key, const std::string& fault) const {
    const TablePlace at = places_.of(key);
    throw InputError(at.file, at.line, "block." + key, fault);
}

}  // namespace sim
