#include "sim/sizing/bad_day.hpp"

#include <algorithm>
#include <boost/random/mersenne_twister.hpp>
#include <boost/random/seed_seq.hpp>
#include <boost/random/uniform_01.hpp>
#include <iterator>

#include "plant_models/loads/friction.hpp"
#include "sim/scenario/part_scaling.hpp"

namespace sim {

const std::vector<BadDayFigure>& bad_day_figures() {
    static const std::vector<BadDayFigure> figures = {
        {"hotter_K", &BadDay::hotter_K, 0.0, 10.0, "ambient above the one of the unit's rating",
         "engineering judgement"},
        {"rest_s", &BadDay::rest_s, 180.0, 300.0, "since the unit last ran, as its controls see to",
         "common practice: 3 to 5 min"},
        {"line_voltage_share", &BadDay::line_voltage_share, 0.917, 1.0,
         "of the nominal voltage, grid and split phase",
         "110 of 120 V, lowest service voltage of ANSI C84.1 range B (secondary)"},
        {"supply_share", &BadDay::supply_share, 0.8, 1.0,
         "of an inverter's limits or an engine's power: hot, high up, something else on",
         "engineering judgement"},
        {"battery_voltage_share", &BadDay::battery_voltage_share, 0.95, 1.0,
         "of the battery's voltage: nearly empty", "engineering judgement"},
        {"battery_resistance_factor", &BadDay::battery_resistance_factor, 1.0, 1.5,
         "on the battery's resistance: cold or aged", "engineering judgement"},
        {"run_capacitor_share", &BadDay::run_capacitor_share, 0.85, 1.0,
         "of the run capacitor: aged",
         "common practice: replaced when 6 to 10 % are gone; a few "
         "more is engineering judgement"},
        {"start_capacitor_factor", &BadDay::start_capacitor_factor, 0.85, 1.15,
         "on the start capacitor: its tolerance, and age",
         "engineering judgement; sold as ranges about that wide (common practice)"},
        {"friction_factor", &BadDay::friction_factor, 1.0, 1.3,
         "on what sticks and drags in the bearings", "engineering judgement"},
        {"phase_deg", &BadDay::phase_deg, 0.0, 360.0, "of the line when the contactor closes",
         "any is as likely as any other"},
    };
    return figures;
}

BadDay drawn_bad_day(std::uint32_t seed, std::uint32_t number) {
    const std::uint32_t words[] = {seed, number};
    boost::random::seed_seq sequence(std::begin(words), std::end(words));
    boost::random::mt19937_64 generator(sequence);
    boost::random::uniform_01<double> even;
    BadDay day;
    for (const BadDayFigure& figure : bad_day_figures()) {
        day.*figure.member = figure.lowest + (figure.highest - figure.lowest) * even(generator);
    }
    return day;
}

Scenario on_bad_day(const Scenario& scenario, const BadDay& day) {
    Scenario bad = scenario;
    bad.conditions.ambient_C = std::max(scenario.conditions.ambient_C,
                                        scenario.refrigerant.rated_ambient_C + day.hotter_K);
    bad.conditions.rest_s = std::min(scenario.conditions.rest_s, day.rest_s);
    scale_run_capacitor(bad.motor, day.run_capacitor_share);
    scale_line_voltage(bad.source, day.line_voltage_share);
    scale_supply_power(bad.source, day.supply_share);
    scale_battery_voltage(bad.source, day.battery_voltage_share);
    scale_battery_resistance(bad.source, day.battery_resistance_factor);
    set_phase(bad.source, day.phase_deg);
    plant_models::scale_friction(bad.load, day.friction_factor);
    scale_start_capacitor(bad, scenario.motor, day.start_capacitor_factor);
    return bad;
}

}  // namespace sim
