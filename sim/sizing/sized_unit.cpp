#include "sim/sizing/sized_unit.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <utility>

#include "sim/files/bounded_input.hpp"
#include "sim/files/quoting.hpp"
#include "sim/fitting/fit_file.hpp"
#include "sim/library/library.hpp"
#include "sim/results/fit_toml.hpp"
#include "sim/scenario/closest_word.hpp"
#include "sim/scenario/scenario_reader.hpp"

namespace sim {

namespace {

constexpr std::string_view nameplate_heading = "[nameplate]";

/// Any supply of this frequency and no limiter, so that the scenario is whole until it gets what is
/// asked about.
std::string stand_in_tables(double frequency_Hz) {
    return fmt::format(
        "[source]\nkind = \"grid\"\nvoltage_V = 230\nfrequency_Hz = {}\nresistance_ohm = 0.1\n"
        "inductance_mH = 0.2\nphase_deg = 0\n\n[limiter]\nkind = \"none\"\n",
        frequency_Hz);
}

SizedUnit from_library(const LibraryEntry& entry) {
    SizedUnit sized;
    const double frequency_Hz = parse_library_entry(entry).motor.rated_frequency_Hz;
    sized.unit = parse_scenario(fmt::format("[library]\ncompressor = \"{}\"\n{}", entry.name,
                                            stand_in_tables(frequency_Hz)),
                                std::string(entry.name));
    sized.unit.title = parse_library_entry(entry).title;
    return sized;
}

SizedUnit from_nameplate(const std::string& text, const std::string& file) {
    const NameplateFit fit = fit_nameplate_text(text, file);
    SizedUnit sized;
    sized.unit =
        parse_scenario(fit_tables(fit) + "\n" + stand_in_tables(fit.nameplate.frequency_Hz), file);
    sized.unit.title = fit.nameplate.title;
    sized.is_from_nameplate = true;
    return sized;
}

SizedUnit from_scenario(const std::string& text, const std::string& file) {
    SizedUnit sized;
    sized.unit = parse_scenario(text, file);
    if (!sized.unit.faults.empty() || !sized.unit.changes.empty()) {
        const bool is_fault = !sized.unit.faults.empty();
        throw InputError(
            file, is_fault ? sized.unit.faults.front().line : sized.unit.changes.front().line,
            is_fault ? "fault" : "change",
            "a supply is chosen for a unit that is whole and stays so; leave this "
            "table out");
    }
    SupplyAtHand own;
    const LibraryEntry* chosen = sized.unit.library.supply;
    own.name = chosen != nullptr ? std::string(chosen->name) : "own_supply";
    own.title = fmt::format("as {} has it", file);
    own.source = sized.unit.source;
    own.wiring = sized.unit.wiring;
    sized.own_supply = std::move(own);
    return sized;
}

bool has_nameplate(const std::string& text) {
    std::size_t begin = 0;
    while (begin < text.size()) {
        const std::size_t letter = text.find_first_not_of(" \t\r", begin);
        if (letter != std::string::npos &&
            text.compare(letter, nameplate_heading.size(), nameplate_heading) == 0) {
            return true;
        }
        const std::size_t end = text.find('\n', begin);
        begin = end == std::string::npos ? text.size() : end + 1;
    }
    return false;
}

/// Looks like a slip in a name rather than like a path.
bool is_no_path(const std::string& text) {
    std::error_code ignored;
    return text != "-" && text.find_first_of("/.") == std::string::npos &&
           !std::filesystem::exists(text, ignored);
}

template <class Entries>
std::string meant(const std::string& name, const Entries& entries) {
    std::vector<std::string_view> names;
    names.reserve(entries.size());
    for (const LibraryEntry& entry : entries) {
        names.push_back(entry.name);
    }
    const auto closest = closest_word(name, names);
    return closest ? "did you mean " + std::string(*closest) + "?"
                   : std::string("give one that runup list shows");
}

SupplyAtHand named_supply(const std::string& name, const plant_models::MotorParameters& motor) {
    std::optional<SupplyAtHand> supply = library_supply(name);
    if (!supply) {
        throw InputError(
            "size", 0, "--supply",
            sim::quoted(name) + " is no supply of the library; " + meant(name, library_supplies()));
    }
    if (!suits(*supply, motor)) {
        throw InputError(
            "size", 0, "--supply",
            fmt::format("{} has {:g} V, {:g} Hz and the motor {:g} V, {:g} Hz; give one within "
                        "{:.0f} % of its voltage and {:g} Hz of its frequency",
                        name, supply->voltage_V(), supply->frequency_Hz(), motor.rated_voltage_V,
                        motor.rated_frequency_Hz, 100.0 * most_voltage_difference,
                        most_frequency_difference_Hz));
    }
    return *supply;
}

}  // namespace

SizedUnit read_sized_unit(const std::string& name_or_path) {
    if (const LibraryEntry* entry = find_entry(library_compressors(), name_or_path)) {
        return from_library(*entry);
    }
    if (is_no_path(name_or_path)) {
        throw InputError("size", 0, "COMPRESSOR",
                         sim::quoted(name_or_path) +
                             " is no compressor of the library and no file; " +
                             meant(name_or_path, library_compressors()));
    }
    const std::string text = read_bounded_input(name_or_path, most_scenario_bytes);
    const std::string file = input_name(name_or_path);
    return has_nameplate(text) ? from_nameplate(text, file) : from_scenario(text, file);
}

std::vector<SupplyAtHand> supplies_to_look_at(const SizedUnit& sized,
                                              const std::vector<std::string>& names) {
    std::vector<SupplyAtHand> supplies;
    if (sized.own_supply) {
        supplies.push_back(*sized.own_supply);
    }
    const auto is_new = [&supplies](const std::string& name) {
        return std::none_of(supplies.begin(), supplies.end(),
                            [&name](const SupplyAtHand& one) { return one.name == name; });
    };
    for (const std::string& name : names) {
        SupplyAtHand supply = named_supply(name, sized.unit.motor);
        if (is_new(name)) {
            supplies.push_back(std::move(supply));
        }
    }
    if (names.empty()) {
        for (SupplyAtHand& supply : library_supplies_for(sized.unit.motor)) {
            if (is_new(supply.name)) {
                supplies.push_back(std::move(supply));
            }
        }
    }
    if (supplies.empty()) {
        throw InputError(
            "size", 0, "COMPRESSOR",
            fmt::format("no supply of the library suits {:g} V, {:g} Hz; give a "
                        "scenario file with its own [source]",
                        sized.unit.motor.rated_voltage_V, sized.unit.motor.rated_frequency_Hz));
    }
    return supplies;
}

}  // namespace sim
