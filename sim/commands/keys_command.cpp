// runup keys: the reference of scenario files.
#include "sim/commands/command_list.hpp"
#include "sim/files/atomic_output.hpp"
#include "sim/scenario/key_reference.hpp"

namespace sim {

void add_keys_command(CLI::App& app, int& exit_code) {
    CLI::App* keys =
        app.add_subcommand("keys", "Every table and key of a scenario file, with its bounds");
    keys->footer("Example: runup keys");
    keys->callback([&exit_code] {
        AtomicOutput output("-");
        output.write(describe_keys());
        output.commit();
        exit_code = ended_as_expected;
    });
}

}  // namespace sim
