// The command line: parses, runs one verb, and turns every error into one sentence and an exit
// code.
#include <fmt/format.h>

#include <cstdio>
#include <exception>
#include <string>

#include "sim/commands/command_list.hpp"
#include "sim/files/input_error.hpp"
#include "sim/files/output_error.hpp"
#include "sim/files/unfinished_files.hpp"
#include "sim/regression/build_identity.hpp"
#include "sim/timeline/plant_run.hpp"

namespace {

int run(int argument_count, char** arguments) {
    CLI::App app{"runup runs the firmware of a compressor start limiter against an honest model"};
    app.require_subcommand(1);
    app.set_version_flag("--version", "runup " + std::string(sim::build_identity()),
                         "version, and a hash of the sources that it was built from");
    app.footer("Each verb has its own --help with an example.");
    int exit_code = sim::ended_as_expected;
    sim::add_all_commands(app, exit_code);
    sim::delete_unfinished_files_on_interrupt();
    try {
        app.parse(argument_count, arguments);
    } catch (const CLI::Success& asked_for_help) {
        return app.exit(asked_for_help);
    } catch (const CLI::ParseError& error) {
        fmt::print(stderr, "runup: {}; see runup --help\n", error.what());
        return sim::bad_input;
    } catch (const sim::InputError& error) {
        fmt::print(stderr, "{}\n", error.what());
        return sim::bad_input;
    } catch (const sim::OutputError& error) {
        fmt::print(stderr, "{}\n", error.what());
        return sim::bad_input;
    } catch (const sim::NumericFailure& error) {
        fmt::print(stderr, "runup: the run failed: {}\n", error.what());
        return sim::run_failed;
    } catch (const std::exception& error) {
        fmt::print(stderr, "runup: the run failed: {}\n", error.what());
        return sim::run_failed;
    }
    return exit_code;
}

}  // namespace

int main(int argument_count, char** arguments) {
    try {
        return run(argument_count, arguments);
    } catch (...) {
        // Only reached if even the message of an error could not be printed.
        return sim::run_failed;
    }
}
