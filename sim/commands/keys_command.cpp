// runup keys [TABLE]: the reference of scenario files, and of suites.
#include <memory>
#include <string>

#include "sim/commands/command_list.hpp"
#include "sim/files/atomic_output.hpp"
#include "sim/files/input_error.hpp"
#include "sim/files/quoting.hpp"
#include "sim/scenario/closest_word.hpp"
#include "sim/scenario/key_reference.hpp"
#include "sim/suites/suite_tables.hpp"

namespace sim {

namespace {

/// Not a table of a scenario, but a file of its own.
constexpr std::string_view suite_word = "suite";

std::string asked_for(const std::string& table) {
    if (table.empty()) {
        return describe_keys();
    }
    if (table == suite_word) {
        return describe_suite_keys();
    }
    if (const auto text = describe_table(table)) {
        return *text;
    }
    const auto meant = closest_word(table, table_names());
    throw InputError(
        "keys", 0, shortened(table, 60),
        "a scenario has no such table; " + (meant ? "did you mean " + std::string(*meant) + "?"
                                                  : std::string("give one that runup keys shows")));
}

}  // namespace

void add_keys_command(CLI::App& app, int& exit_code) {
    auto table = std::make_shared<std::string>();
    CLI::App* keys =
        app.add_subcommand("keys", "Every table and key of a scenario file, with its bounds");
    keys->add_option("TABLE", *table,
                     "print only this table, as motor, load or source; suite: those of a suite");
    keys->footer("Example: runup keys source\n         runup keys suite");
    keys->callback([table, &exit_code] {
        AtomicOutput output("-");
        output.write(asked_for(*table));
        output.commit();
        exit_code = ended_as_expected;
    });
}

}  // namespace sim
