#include "sim/commands/standard_output.hpp"

#include <CLI/CLI.hpp>

#include "sim/files/atomic_output.hpp"

namespace sim {

bool standard_output_is_free(const std::vector<OutputOption>& options) {
    const char* taken_by = nullptr;
    for (const OutputOption& option : options) {
        if (option.path != "-") {
            continue;
        }
        if (taken_by != nullptr) {
            throw CLI::ValidationError(std::string(taken_by) + " and " + option.name,
                                       "only one of them can have standard output");
        }
        taken_by = option.name;
    }
    return taken_by == nullptr;
}

void print_text(const std::string& text) {
    AtomicOutput output("-");
    output.write(text);
    output.commit();
}

}  // namespace sim
