// runup motor FILE: the phasor solution, as numbers and curve.
#include <cmath>
#include <cstdlib>
#include <memory>
#include <string>
#include <vector>

#include "sim/bench/motor_curves.hpp"
#include "sim/commands/command_list.hpp"
#include "sim/files/atomic_output.hpp"
#include "sim/results/motor_json.hpp"
#include "sim/results/motor_text.hpp"
#include "sim/scenario/scenario_reader.hpp"

namespace sim {

namespace {

struct MotorOptions {
    std::string file;
    std::string json;
    std::vector<double> slips;
    bool quiet = false;
};

/// A range alone lets NaN through, which is neither below nor above it.
std::string refuse_no_number(const std::string& text) {
    return std::isnan(std::strtod(text.c_str(), nullptr)) ? "Value " + text + " is not a number"
                                                          : std::string();
}

int run(const MotorOptions& options) {
    const MotorCurves curves = motor_curves(read_scenario(options.file), options.slips);
    if (!options.json.empty()) {
        AtomicOutput json(options.json);
        json.write(motor_json(curves).dump(2) + "\n");
        json.commit();
    }
    if (options.json != "-") {
        const std::string text = motor_text(curves);
        AtomicOutput output("-");
        // The verdict on a motor is its locked rotor: the line before the table.
        const std::size_t verdict = text.find("locked rotor");
        output.write(options.quiet ? text.substr(verdict, text.find('\n', verdict) + 1 - verdict)
                                   : text);
        output.commit();
    }
    return ended_as_expected;
}

}  // namespace

void add_motor_command(CLI::App& app, int& exit_code) {
    auto options = std::make_shared<MotorOptions>();
    CLI::App* motor =
        app.add_subcommand("motor", "Torque and currents over speed, at rated voltage");
    motor->add_option("FILE", options->file, "scenario file (TOML), - for standard input")
        ->required();
    motor
        ->add_option("--json", options->json,
                     "write the result as JSON to FILE, - for standard output")
        ->type_name("FILE");
    motor->add_option("--slip", options->slips, "add a row at this slip; may be repeated")
        ->type_name("S")
        ->check(CLI::Range(-2.0, 3.0))
        ->check(refuse_no_number)
        ->allow_extra_args(false);
    motor->add_flag("--quiet", options->quiet, "print only the locked rotor");
    motor->footer("Example: runup motor sim/scenarios/reference_direct.toml --slip 0.05");
    motor->callback([options, &exit_code] { exit_code = run(*options); });
}

}  // namespace sim
