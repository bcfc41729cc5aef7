#include "sim/scenario/run_settings.hpp"

#include <limits>

namespace sim {

const plant_models::ParameterTable<RunSettings>& RunSettings::table() {
    using R = RunSettings;
    static const plant_models::ParameterTable<R> rows = {
        {"duration_s", &R::duration_s, 0.01, 7200, 3.0, "simulated time"},
        {"seed", &R::seed, 0, std::numeric_limits<int>::max(), 1.0, "seed of the random numbers"},
        {"initial_speed_rpm", &R::initial_speed_rpm, -10000, 10000, 0.0,
         "speed of the rotor when the run begins; negative: backwards"},
        {"call_on_s", &R::call_on_s, 0, 7200, 0.0, "when the call for cooling begins"},
        {"call_off_s", &R::call_off_s, 0, 7200, 0.0,
         "when the call for cooling ends; 0: it stays to the end"},
        {"rest_between_s", &R::rest_between_s, shortest_rest_between_s, longest_rest_between_s,
         300.0, "runup repeat: from the end of a start to the beginning of the next"},
        {"power_off_after_s", &R::power_off_after_s, 0, longest_rest_between_s, 1.0,
         "with power_between_starts = \"off\": from the end of a start, at the latest when the "
         "rest "
         "is over"},
    };
    return rows;
}

const plant_models::WordTable<RunSettings>& RunSettings::word_table() {
    using R = RunSettings;
    static const plant_models::WordTable<R> rows = {
        {"power_between_starts",
         &R::power_between_starts,
         {"on", "off"},
         "on",
         "runup repeat: whether the controller keeps its power between starts\n"
         "on: it does\n"
         "off: it loses all but its memory, and begins anew with the next start"},
    };
    return rows;
}

std::string_view RunSettings::inconsistency() const {
    if (call_off_s > 0.0 && call_off_s <= call_on_s) {
        return "call_off_s must be later than call_on_s, or 0 for a call that stays";
    }
    return {};
}

}  // namespace sim
