#include "sim/commands/command_list.hpp"

namespace sim {

void add_all_commands(CLI::App& app, int& exit_code) {
    add_start_command(app, exit_code);
    add_repeat_command(app, exit_code);
    add_explain_command(app, exit_code);
    add_motor_command(app, exit_code);
    add_list_command(app, exit_code);
    add_fit_command(app, exit_code);
    add_tune_command(app, exit_code);
    add_faults_command(app, exit_code);
    add_size_command(app, exit_code);
    add_report_command(app, exit_code);
    add_compare_command(app, exit_code);
    add_regress_command(app, exit_code);
    add_merge_command(app, exit_code);
    add_lesson_command(app, exit_code);
    add_replay_command(app, exit_code);
    add_keys_command(app, exit_code);
}

}  // namespace sim
