#include "commands/program.hpp"

#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <stdexcept>

#include "files/temporary_folder.hpp"

namespace sim_test {

Outcome run_program(const std::vector<std::string>& arguments, const Redirection& to,
                    const std::function<void(int process)>& meanwhile) {
    const TemporaryFolder folder;
    const std::string output_path = to.output.empty() ? folder / "output" : to.output;
    const std::string errors_path = folder / "errors";

    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_addopen(&actions, STDIN_FILENO, to.input.c_str(), O_RDONLY, 0);
    posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, output_path.c_str(),
                                     O_WRONLY | O_CREAT, 0600);
    posix_spawn_file_actions_addopen(&actions, STDERR_FILENO, errors_path.c_str(),
                                     O_WRONLY | O_CREAT, 0600);

    std::vector<std::string> words = {RUNUP_PROGRAM};
    words.insert(words.end(), arguments.begin(), arguments.end());
    std::vector<char*> pointers;
    for (std::string& word : words) {
        pointers.push_back(word.data());
    }
    pointers.push_back(nullptr);
    pid_t process = 0;
    const int error =
        posix_spawn(&process, RUNUP_PROGRAM, &actions, nullptr, pointers.data(), environ);
    posix_spawn_file_actions_destroy(&actions);
    if (error == 0 && meanwhile) {
        meanwhile(process);
    }
    int status = 0;
    if (error != 0 || ::waitpid(process, &status, 0) != process) {
        throw std::runtime_error("the program cannot be run");
    }
    Outcome outcome;
    outcome.exit_code = WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
    outcome.output = to.output.empty() ? folder.get("output") : "";
    outcome.errors = folder.get("errors");
    return outcome;
}

std::string bundled_path(const std::string& name) {
    return std::string(RUNUP_SOURCE_FOLDER) + "/sim/scenarios/" + name + ".toml";
}

int line_count(const std::string& text) {
    int count = 0;
    for (const char letter : text) {
        count += letter == '\n' ? 1 : 0;
    }
    return count + (!text.empty() && text.back() != '\n' ? 1 : 0);
}

}  // namespace sim_test
