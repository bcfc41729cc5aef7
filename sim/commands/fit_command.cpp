// runup fit NAMEPLATE: from what is printed on a unit to the tables [motor] and [load].
#include <memory>
#include <optional>
#include <string>

#include "sim/commands/command_list.hpp"
#include "sim/commands/standard_output.hpp"
#include "sim/files/atomic_output.hpp"
#include "sim/fitting/fit_file.hpp"
#include "sim/results/fit_json.hpp"
#include "sim/results/fit_text.hpp"
#include "sim/results/fit_toml.hpp"

namespace sim {

namespace {

struct FitOptions {
    std::string file;
    std::string json;
    std::string toml;
    bool quiet = false;
};

int run(const FitOptions& options) {
    const bool prints_text =
        standard_output_is_free({{"--json", options.json}, {"--toml", options.toml}});
    const NameplateFit fit = fit_file(options.file);
    std::optional<AtomicOutput> json;
    std::optional<AtomicOutput> toml;
    // Both are opened before either is written, so that a wrong path leaves neither behind.
    if (!options.json.empty()) {
        json.emplace(options.json);
    }
    if (!options.toml.empty()) {
        toml.emplace(options.toml);
    }
    if (json) {
        json->write(fit_json(fit).dump(2) + "\n");
    }
    if (toml) {
        toml->write(fit_toml(fit));
    }
    for (auto* output : {&json, &toml}) {
        if (*output) {
            (*output)->commit();
        }
    }
    if (prints_text) {
        print_text(options.quiet ? fit_verdict(fit) : fit_text(fit));
    }
    return ended_as_expected;
}

}  // namespace

void add_fit_command(CLI::App& app, int& exit_code) {
    auto options = std::make_shared<FitOptions>();
    CLI::App* fit = app.add_subcommand("fit", "From a unit's nameplate to its motor and load");
    fit->add_option("NAMEPLATE", options->file,
                    "file (TOML) with the table [nameplate], - for standard input")
        ->required();
    fit->add_option("--json", options->json,
                    "write the result as JSON to FILE, - for standard output")
        ->type_name("FILE");
    fit->add_option("--toml", options->toml,
                    "write [motor] and [load] for a scenario to FILE, - for standard output")
        ->type_name("FILE");
    fit->add_flag("--quiet", options->quiet, "print only how well it fits");
    fit->footer(
        "Example: runup fit sim/nameplates/three_ton_outdoor.toml --toml -\n"
        "Keys of [nameplate]: voltage_V, or lowest_voltage_V and highest_voltage_V; frequency_Hz,\n"
        "rated_load_current_A, locked_rotor_current_A, run_capacitor_uF (0: none); at least one "
        "of\n"
        "power_hp, shaft_power_W, cooling_capacity_W. Optional: title, poles, compressor, gas,\n"
        "start_thermistor_ohm.");
    fit->callback([options, &exit_code] { exit_code = run(*options); });
}

}  // namespace sim
