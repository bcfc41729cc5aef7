// runup faults FILE...: every single fault at every instant of a start.
#include <memory>
#include <string>
#include <variant>
#include <vector>

#include "sim/campaigns/fault_campaign.hpp"
#include "sim/commands/asked_output.hpp"
#include "sim/commands/command_list.hpp"
#include "sim/commands/counter.hpp"
#include "sim/commands/interrupt.hpp"
#include "sim/files/atomic_output.hpp"
#include "sim/files/input_error.hpp"
#include "sim/results/fault_campaign_json.hpp"
#include "sim/results/fault_campaign_text.hpp"
#include "sim/scenario/scenario_reader.hpp"

namespace sim {

namespace {

struct FaultsOptions {
    std::vector<std::string> files;
    std::string json;
    double every_ms = 10.0;
    double until_ms = 1200.0;
    double offset_ms = 0.0;
    int threads = 1;
    std::string only;
    bool quiet = false;
};

std::vector<Scenario> units_of(const FaultsOptions& options) {
    std::vector<Scenario> units;
    for (const std::string& file : options.files) {
        units.push_back(read_scenario(file));
        if (std::holds_alternative<NoLimiter>(units.back().limiter)) {
            throw InputError(file, 0, "limiter.kind",
                             "there is no controller that a fault could meet; give [limiter] kind "
                             "= \"builtin\"");
        }
        if (!units.back().faults.empty()) {
            throw InputError(file, units.back().faults.front().line, "fault",
                             "a campaign breaks everything in turn, one thing at a time; leave "
                             "[[fault]] out");
        }
    }
    return units;
}

int run(const FaultsOptions& options) {
    const std::vector<Scenario> units = units_of(options);
    // Opened before the work, so that a wrong path costs no time.
    AskedOutput json(options.json);
    FaultCampaignPlan plan;
    plan.every_s = 1e-3 * options.every_ms;
    plan.until_s = 1e-3 * options.until_ms;
    plan.offset_s = 1e-3 * options.offset_ms;
    plan.threads = options.threads;
    plan.only = options.only;
    Counter counter("starts; ctrl-C shows what is known");
    const InterruptLatch latch;
    const CampaignResult result = run_fault_campaign(units, plan, [&counter](int done, int of) {
        counter.show(done, of);
        return !InterruptLatch::interrupted();
    });
    counter.clear();
    if (result.runs == 0) {
        throw InputError("faults", 0, "--only",
                         "no fault's name begins so; give one that runup faults prints");
    }
    if (json) {
        json.put(fault_campaign_json(result));
    }
    if (options.json != "-") {
        AtomicOutput output("-");
        output.write(options.quiet ? fault_campaign_verdict(result) : fault_campaign_text(result));
        output.commit();
    }
    return result.runs_with_broken_monitors == 0 ? ended_as_expected : ended_otherwise;
}

}  // namespace

void add_faults_command(CLI::App& app, int& exit_code) {
    auto options = std::make_shared<FaultsOptions>();
    CLI::App* faults =
        app.add_subcommand("faults", "Every single fault at every instant of a start");
    faults->add_option("FILE", options->files, "scenario files (TOML), each one unit")->required();
    faults->add_option("--every-ms", options->every_ms, "from one instant to the next; 10")
        ->type_name("MS")
        ->check(CLI::Range(0.1, 10000.0));
    faults->add_option("--until-ms", options->until_ms, "the last instant; 1200")
        ->type_name("MS")
        ->check(CLI::Range(0.0, 100000.0));
    faults->add_option("--offset-ms", options->offset_ms, "later than that, every instant; 0")
        ->type_name("MS")
        ->check(CLI::Range(0.0, 10000.0));
    faults->add_option("--only", options->only, "faults whose name begins so")->type_name("NAME");
    faults->add_option("--threads", options->threads, "starts that run at the same time; 1")
        ->type_name("N")
        ->check(CLI::Range(1, 64));
    faults
        ->add_option("--json", options->json,
                     "write the result as JSON to FILE, - for standard output")
        ->type_name("FILE");
    faults->add_flag("--quiet", options->quiet, "print only how many starts broke a monitor");
    faults->footer(
        "Example: runup faults sim/scenarios/reference_limited.toml --every-ms 100 --threads 2\n"
        "Exit code: 0 no monitor was broken, 1 one was, 2 bad input.\n"
        "ctrl-C ends the campaign; what was known until then is printed.");
    faults->callback([options, &exit_code] { exit_code = run(*options); });
}

}  // namespace sim
