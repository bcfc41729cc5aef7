#include "sim/suites/suite.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <iterator>
#include <stdexcept>

#include "sim/files/bounded_input.hpp"
#include "sim/files/input_error.hpp"
#include "sim/files/quoting.hpp"
#include "sim/suites/bundled_suites.hpp"
#include "sim/suites/suite_block.hpp"
#include "sim/suites/suite_file.hpp"
#include "sim/suites/suite_reading.hpp"

namespace sim {

namespace {

/// Suites within suites; more is a slip.
constexpr std::size_t deepest = 8;
/// Row numbers of every reader and spreadsheet bear as many.
constexpr std::int64_t most_cases = 100'000'000;

class ReadSuite final : public Suite {
  public:
    ReadSuite(std::string name, const std::string& text, const std::string& file,
              SuiteSources sources, std::int64_t most_cells_per_block)
        : name_(std::move(name)), most_cells_(most_cells_per_block) {
        const SuiteParts parts = parse_suite_parts(text, file);
        title_ = parts.heading.title;
        sources.add(parts.enclosed, true);
        take_in(parts, {}, "", sources);
        text_ = sources.with_enclosed(text);
    }

    const std::string& name() const override { return name_; }
    const std::string& title() const override { return title_; }
    const std::string& text() const override { return text_; }
    std::int64_t case_count() const override { return begins_.back(); }
    const std::vector<RateRequirement>& rates() const override { return rates_; }

    SuiteCase case_at(std::int64_t id) const override {
        if (id < 0 || id >= case_count()) {
            throw InputError(
                name_, 0, "case",
                fmt::format("{} is none; give a number from 0 to {}", id, case_count() - 1));
        }
        const auto behind = std::upper_bound(begins_.begin(), begins_.end(), id);
        const auto block = static_cast<std::size_t>(std::distance(begins_.begin(), behind)) - 1;
        SuiteCase one = blocks_[block].case_at(id - begins_[block]);
        one.id = id;
        one.scenario.name = fmt::format("{}#{}", name_, id);
        return one;
    }

  private:
    /// `ids`: of the suites that this one is in, itself included; none for the outermost.
    void take_in(const SuiteParts& parts, const std::vector<std::string>& ids,
                 const std::string& prefix, SuiteSources& sources) {
        const std::string id = ids.empty() ? "" : ids.back();
        for (const Block& block : parts.blocks) {
            add(SuiteBlock(block, {parts, id, prefix, most_cells_}, sources), block.places);
        }
        for (const std::string& reference : parts.heading.include) {
            const TablePlace place = parts.heading.places.of("include");
            const auto source =
                sources.find(SuiteSources::Kind::suite, reference, id, place, "suite.include");
            std::vector<std::string> deeper = ids;
            deeper.push_back(source.id);
            if (std::find(ids.begin(), ids.end(), source.id) != ids.end() ||
                deeper.size() > deepest) {
                throw InputError(
                    place.file, place.line, "suite.include",
                    sim::quoted(reference) + " takes itself in again; give suites that do not");
            }
            const SuiteParts inner = parse_suite_parts(source.text, source.name);
            sources.add(inner.enclosed, false);
            take_in(inner, deeper, prefix + std::filesystem::path(reference).stem().string() + "/",
                    sources);
        }
    }

    void add(SuiteBlock block, const KeyPlaces& places) {
        if (std::any_of(blocks_.begin(), blocks_.end(),
                        [&block](const SuiteBlock& one) { return one.name() == block.name(); })) {
            const TablePlace place = places.of("name");
            throw InputError(place.file, place.line, "block.name",
                             sim::quoted(block.name()) + " is taken in twice; include it once");
        }
        begins_.push_back(begins_.back() + block.case_count());
        if (begins_.back() > most_cases) {
            const TablePlace place = places.of("draws");
            throw InputError(place.file, place.line, "block.draws",
                             fmt::format("with this block the suite has more than {} cases; give "
                                         "fewer draws",
                                         most_cases));
        }
        if (const std::optional<RateRequirement> rate = block.rate()) {
            rates_.push_back(*rate);
        }
        blocks_.push_back(std::move(block));
    }

    std::string name_;
    std::int64_t most_cells_;
    std::string title_;
    std::string text_;
    std::vector<SuiteBlock> blocks_;
    std::vector<std::int64_t> begins_{0};  ///< the first id of each block, and one past the last
    std::vector<RateRequirement> rates_;
};

}  // namespace

std::unique_ptr<Suite> read_suite(const std::string& path_or_name) {
    const LibraryEntry* entry = find_entry(bundled_suites(), path_or_name);
    if (entry != nullptr) {
        return std::make_unique<ReadSuite>(path_or_name, std::string(entry->text),
                                           std::string(entry->file), SuiteSources("", false),
                                           most_cells);
    }
    refuse_if_no_path(path_or_name);
    const std::filesystem::path path(path_or_name);
    std::string folder = path.has_parent_path() ? path.parent_path().generic_string() + "/" : "";
    return std::make_unique<ReadSuite>(
        escaped(path.stem().string()), read_bounded_input(path_or_name, most_suite_bytes),
        input_name(path_or_name), SuiteSources(std::move(folder), true), most_cells);
}

std::unique_ptr<Suite> suite_from_text(const std::string& text, const std::string& name) {
    return suite_from_text(text, name, most_cells);
}

std::unique_ptr<Suite> suite_from_text(const std::string& text, const std::string& name,
                                       std::int64_t most_cells_per_block) {
    return std::make_unique<ReadSuite>(name, text, name, SuiteSources("", false),
                                       most_cells_per_block);
}

}  // namespace sim
