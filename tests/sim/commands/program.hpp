// Runs the built program as a user would, and keeps what came out.
#pragma once

#include <functional>
#include <string>
#include <vector>

namespace sim_test {

struct Outcome {
    int exit_code = -1;  ///< 128 + signal if a signal ended it
    std::string output;
    std::string errors;
};

struct Redirection {
    std::string input = "/dev/null";
    std::string output;  ///< empty: kept; else a path that it is written to
};

/// `arguments` without the program's name. `meanwhile` is called with the process while it runs.
Outcome run_program(const std::vector<std::string>& arguments, const Redirection& to = {},
                    const std::function<void(int process)>& meanwhile = {});

/// Path of a scenario that comes with the program.
std::string bundled_path(const std::string& name);

/// Number of lines; text without a newline at its end counts as one more.
int line_count(const std::string& text);

}  // namespace sim_test
