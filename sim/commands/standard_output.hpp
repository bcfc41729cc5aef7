// What a command was asked to write to standard output, beside what it prints there for people.
#pragma once

#include <string>
#include <vector>

namespace sim {

struct OutputOption {
    const char* name;  ///< "--json"
    const std::string& path;
};

/// What was asked for there stands alone, so that it can be piped: false if one of the options has
/// standard output. Throws CLI::ValidationError if more than one has.
bool standard_output_is_free(const std::vector<OutputOption>& options);

/// To standard output, with its failure told.
void print_text(const std::string& text);

}  // namespace sim
