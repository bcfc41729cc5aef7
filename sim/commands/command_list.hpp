// The verbs of the command line. Adding one: write its file here, name it in command_list.cpp.
//
// A verb adds its subcommand with its options to the application; when it was chosen, its callback
// runs and stores the exit code:
//   0  the run ended as its scenario expects        2  bad input, or output that cannot be written
//   1  it did not                                   3  the run itself failed numerically
#pragma once

#include <CLI/CLI.hpp>

namespace sim {

enum ExitCode : int { ended_as_expected = 0, ended_otherwise = 1, bad_input = 2, run_failed = 3 };

void add_start_command(CLI::App& app, int& exit_code);
void add_repeat_command(CLI::App& app, int& exit_code);
void add_explain_command(CLI::App& app, int& exit_code);
void add_motor_command(CLI::App& app, int& exit_code);
void add_list_command(CLI::App& app, int& exit_code);
void add_fit_command(CLI::App& app, int& exit_code);
void add_tune_command(CLI::App& app, int& exit_code);
void add_faults_command(CLI::App& app, int& exit_code);
void add_size_command(CLI::App& app, int& exit_code);
void add_report_command(CLI::App& app, int& exit_code);
void add_compare_command(CLI::App& app, int& exit_code);
void add_regress_command(CLI::App& app, int& exit_code);
void add_merge_command(CLI::App& app, int& exit_code);
void add_lesson_command(CLI::App& app, int& exit_code);
void add_replay_command(CLI::App& app, int& exit_code);
void add_keys_command(CLI::App& app, int& exit_code);

void add_all_commands(CLI::App& app, int& exit_code);

}  // namespace sim
