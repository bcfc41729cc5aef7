#include "sim/suites/suite_forms.hpp"

namespace sim {

namespace {

/// Of a block; more are better split into blocks.
constexpr int most_draws = 1'000'000;
constexpr int most_starts = 10'000;

void append_side_keys(Keys& keys, Block& target) {
    keys.push_back(names_key("compressors", most_suite_name_bytes, "those of the scenario",
                             "[[compressor]] tables of this file, bundled ones, or \"all\" bundled "
                             "ones",
                             target.compressors));
    keys.push_back(names_key("supplies", most_suite_name_bytes, "those of the scenario",
                             "[[supply]] tables of this file, bundled ones, \"all\" bundled ones, "
                             "or \"fitting\": of all, those that suit the compressor",
                             target.supplies));
    keys.push_back(names_key("conditions", most_suite_name_bytes, "as the scenario says",
                             "[[condition]] tables of this file", target.conditions));
    keys.push_back(names_key("faults", most_suite_name_bytes, "none",
                             "[[fault]] tables of this file; \"single\": every single fault as in "
                             "runup faults; the beginning of such a fault's name; \"none\": the "
                             "healthy start beside them",
                             target.faults));
    keys.push_back({"fault_at_s", NumberListRule{{0, 7200, false, false}, 1, 200}, "[0.3]",
                    "when the single faults begin, one case each",
                    [&target](const KeyValue& value) {
                        target.fault_at_s = std::get<std::vector<double>>(value);
                    }});
    keys.push_back(names_key("settings", most_suite_name_bytes, "as the scenario says",
                             "[[setting]] tables of this file, or a way of starting as runup size "
                             "names it: directly, thermistor, capacitor_relay or limiter",
                             target.settings));
    keys.push_back({"misfits", WordRule{{"refuse", "leave_out"}}, "\"refuse\"",
                    "what becomes of cells whose parts do not go together: a compressor on a "
                    "supply of another voltage or frequency, a fault of a part that is not there\n"
                    "refuse: the suite is bad input\n"
                    "leave_out: the matrix goes without them",
                    [&target](const KeyValue& value) {
                        target.leaves_out_misfits = std::get<std::string>(value) == "leave_out";
                    }});
}

}  // namespace

TableForm form_of(Block& target) {
    target.fault_at_s = {0.3};
    TableForm form;
    form.keys = {
        text_key("name", most_suite_name_bytes, std::nullopt, "as results show it", target.name),
        text_key("scenario", most_suite_path_bytes, "none",
                 "that everything is laid over: the name of a bundled one, or a path that "
                 "ends in .toml, from this file's folder; without one, a compressor of "
                 "the side on a supply of the side, started directly",
                 target.scenario)};
    append_side_keys(form.keys, target);
    form.keys.push_back(
        count_key("draws", most_draws, "cases in each cell, each with its own luck", target.draws));
    form.keys.push_back(names_key("spreads", most_suite_name_bytes, "none",
                                  "groups of [[spread]] from which each case draws",
                                  target.spreads));
    form.keys.push_back(count_key("starts", most_starts,
                                  "in each case; above 1 a series on one plant, with the rest and "
                                  "the power of [run]",
                                  target.starts));
    form.keys.push_back(text_key("expect", most_suite_name_bytes, "the scenario's [expect]",
                                 "name of an [[expectation]]", target.expect));
    form.keys.push_back({"success_at_least_percent", NumberRule{0, 100, false, false},
                         "every start",
                         "starts of the block that end as expected; the others then fail the suite "
                         "only together",
                         [&target](const KeyValue& value) {
                             target.success_at_least_percent = std::get<double>(value);
                         }});
    form.inconsistency = always_consistent;
    return form;
}

}  // namespace sim
