#include "sim/suites/suite_sources.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

#include "sim/files/bounded_input.hpp"
#include "sim/files/input_error.hpp"
#include "sim/files/quoting.hpp"
#include "sim/library/library.hpp"
#include "sim/scenario/closest_word.hpp"
#include "sim/scenario/scenario_reader.hpp"
#include "sim/suites/bundled_suites.hpp"
#include "sim/suites/suite_file.hpp"

namespace sim {

namespace {

constexpr std::string_view ending = ".toml";

bool is_path(const std::string& reference) {
    return reference.size() > ending.size() &&
           reference.compare(reference.size() - ending.size(), ending.size(), ending) == 0;
}

/// From the outermost suite's folder.
std::string path_of(const std::string& reference, const std::string& in_suite) {
    const std::filesystem::path folder = std::filesystem::path(in_suite).parent_path();
    return (folder / reference).lexically_normal().generic_string();
}

std::string escaped_for_toml(const std::string& text) {
    std::string escaped;
    for (const char letter : text) {
        const auto code = static_cast<unsigned char>(letter);
        if (letter == '\\' || letter == '"') {
            escaped += '\\';
            escaped += letter;
        } else if (letter == '\n' || letter == '\t' || (code >= 0x20U && code != 0x7fU)) {
            escaped += letter;
        } else {
            escaped += fmt::format("\\u{:04X}", code);
        }
    }
    return escaped;
}

}  // namespace

void SuiteSources::add(const std::vector<Enclosed>& enclosed, bool in_own_text) {
    for (const Enclosed& one : enclosed) {
        const bool known = std::any_of(known_.begin(), known_.end(), [&one](const Known& other) {
            return other.enclosed.name == one.name;
        });
        if (!known) {
            known_.push_back({one, in_own_text});
        }
    }
}

SuiteSources::Source SuiteSources::find(Kind kind, const std::string& reference,
                                        const std::string& in_suite, const TablePlace& place,
                                        const std::string& key) {
    const bool is_suite = kind == Kind::suite;
    const std::string id = is_path(reference) ? path_of(reference, in_suite)
                                              : (is_suite ? "suite:" : "scenario:") + reference;
    const auto known = std::find_if(known_.begin(), known_.end(),
                                    [&id](const Known& one) { return one.enclosed.name == id; });
    if (known != known_.end()) {
        return {id, id, known->enclosed.text};
    }
    Source source{id, id, ""};
    if (is_path(reference)) {
        if (!reads_files_) {
            throw InputError(place.file, place.line, key,
                             sim::quoted(reference) +
                                 " is not enclosed; give the text of a suite that "
                                 "carries what it includes");
        }
        const bool is_absolute = std::filesystem::path(id).is_absolute();
        source.name = is_absolute ? id : folder_ + id;
        source.text =
            read_bounded_input(source.name, is_suite ? most_suite_bytes : most_scenario_bytes);
    } else {
        const auto& entries = is_suite ? bundled_suites() : bundled_scenarios();
        const LibraryEntry* entry = find_entry(entries, reference);
        if (entry == nullptr) {
            std::vector<std::string_view> names;
            std::string all;
            for (const LibraryEntry& one : entries) {
                names.push_back(one.name);
                all += (all.empty() ? "" : ", ") + std::string(one.name);
            }
            const auto meant = closest_word(reference, names);
            throw InputError(
                place.file, place.line, key,
                fmt::format("{} is none that is bundled; {}", sim::quoted(reference),
                            meant ? "did you mean " + std::string(*meant) + "?"
                                  : "give a path that ends in .toml, or one of " + all));
        }
        source.name = entry->file;
        source.text = entry->text;
    }
    known_.push_back({{source.id, source.text}, false});
    return source;
}

std::string SuiteSources::with_enclosed(const std::string& text) const {
    std::string whole = text;
    for (const Known& one : known_) {
        if (!one.in_own_text) {
            whole += fmt::format("{}\n[[enclosed]]\nname = \"{}\"\ntext = \"\"\"\n{}\"\"\"\n",
                                 whole.empty() || whole.back() == '\n' ? "" : "\n",
                                 escaped_for_toml(one.enclosed.name),
                                 escaped_for_toml(one.enclosed.text));
        }
    }
    return whole;
}

}  // namespace sim
