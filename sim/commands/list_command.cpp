// runup list [NAME]: the bundled compressors, supplies and suites, or one of them in full.
#include <memory>
#include <string>
#include <vector>

#include "sim/bench/library_overview.hpp"
#include "sim/commands/command_list.hpp"
#include "sim/files/atomic_output.hpp"
#include "sim/files/input_error.hpp"
#include "sim/files/quoting.hpp"
#include "sim/library/library.hpp"
#include "sim/results/library_json.hpp"
#include "sim/results/library_text.hpp"
#include "sim/scenario/closest_word.hpp"
#include "sim/suites/bundled_suites.hpp"

namespace sim {

namespace {

struct ListOptions {
    std::string name;
    std::string json;
    bool quiet = false;
};

const LibraryEntry& entry_named(const std::string& name) {
    std::vector<std::string_view> names;
    for (const auto* entries : {&library_compressors(), &library_supplies(), &bundled_suites()}) {
        if (const LibraryEntry* entry = find_entry(*entries, name)) {
            return *entry;
        }
        for (const LibraryEntry& entry : *entries) {
            names.push_back(entry.name);
        }
    }
    const auto meant = closest_word(name, names);
    throw InputError(
        "library", 0, shortened(name, 60),
        "there is no such entry; " + (meant ? "did you mean " + std::string(*meant) + "?"
                                            : std::string("give a name that runup list shows")));
}

std::string names_only() {
    std::string text;
    for (const auto* entries : {&library_compressors(), &library_supplies(), &bundled_suites()}) {
        for (const LibraryEntry& entry : *entries) {
            text += std::string(entry.name) + "\n";
        }
    }
    return text;
}

int run(const ListOptions& options) {
    if (!options.name.empty()) {
        const LibraryEntry& entry = entry_named(options.name);
        AtomicOutput output("-");
        output.write(entry.text);
        output.commit();
        return ended_as_expected;
    }
    const auto compressors = overview_of_compressors();
    const auto supplies = overview_of_supplies();
    const auto suites = overview_of_suites();
    if (!options.json.empty()) {
        AtomicOutput json(options.json);
        json.write(library_json(compressors, supplies, suites).dump(2) + "\n");
        json.commit();
    }
    if (options.json != "-") {
        AtomicOutput output("-");
        output.write(options.quiet ? names_only() : library_text(compressors, supplies, suites));
        output.commit();
    }
    return ended_as_expected;
}

}  // namespace

void add_list_command(CLI::App& app, int& exit_code) {
    auto options = std::make_shared<ListOptions>();
    CLI::App* list = app.add_subcommand("list", "The bundled compressors, supplies and suites");
    CLI::Option* name =
        list->add_option("NAME", options->name, "print this entry's file, origins and all");
    list->add_option("--json", options->json,
                     "write the list as JSON to FILE, - for standard output")
        ->type_name("FILE")
        ->excludes(name);
    list->add_flag("--quiet", options->quiet, "print only the names")->excludes(name);
    list->footer("Example: runup list");
    list->callback([options, &exit_code] { exit_code = run(*options); });
}

}  // namespace sim
