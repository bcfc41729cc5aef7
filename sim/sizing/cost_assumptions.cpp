#include "sim/sizing/cost_assumptions.hpp"

namespace sim {

const plant_models::ParameterTable<CostAssumptions>& CostAssumptions::table() {
    using C = CostAssumptions;
    static const plant_models::ParameterTable<C> rows = {
        {"years", &C::years, 1, 40, 10.0, "time over which is counted"},
        {"limiter_price", &C::limiter_price, 0, 1e5, 300.0, "start limiter, fitted"},
        {"capacitor_relay_price", &C::capacitor_relay_price, 0, 1e5, 60.0,
         "start capacitor with its potential relay, fitted"},
        {"thermistor_price", &C::thermistor_price, 0, 1e5, 25.0, "start thermistor, fitted"},
        {"inverter_price_per_kVA", &C::inverter_price_per_kVA, 0, 1e5, 350.0,
         "transformerless inverter, per kVA of its rating"},
        {"transformer_inverter_price_per_kVA", &C::transformer_inverter_price_per_kVA, 0, 1e5,
         500.0, "transformer inverter, per kVA of its rating"},
        {"generator_price_per_kVA", &C::generator_price_per_kVA, 0, 1e5, 200.0,
         "engine generator, per kVA of its rating"},
        {"idle_draw_percent", &C::idle_draw_percent, 0, 10, 1.0,
         "of its rating, for an inverter whose idle draw is not given (engineering judgement, as "
         "in the library)"},
        {"idle_hours_per_day", &C::idle_hours_per_day, 0, 24, 24.0, "how long the inverter is on"},
        {"sun_hours_per_day", &C::sun_hours_per_day, 0.2, 12, 4.0,
         "full-sun hours in the month that counts, kWh per day and kWp"},
        {"panel_yield_percent", &C::panel_yield_percent, 10, 100, 75.0,
         "of a panel's rated yield that arrives: heat, dirt, wires, charging"},
        {"panel_price_per_kWp", &C::panel_price_per_kWp, 0, 1e5, 800.0, "panels, mounted"},
        {"storage_hours_per_day", &C::storage_hours_per_day, 0, 240, 16.0,
         "how long the battery alone carries the idle draw"},
        {"storage_depth_percent", &C::storage_depth_percent, 10, 100, 80.0,
         "of a battery's capacity that may be used"},
        {"storage_price_per_kWh", &C::storage_price_per_kWh, 0, 1e5, 400.0,
         "battery, per kWh of its capacity"},
        {"energy_price_per_kWh", &C::energy_price_per_kWh, 0, 100, 0.30,
         "with idle_energy = \"bought\""},
    };
    return rows;
}

const plant_models::WordTable<CostAssumptions>& CostAssumptions::word_table() {
    using C = CostAssumptions;
    static const plant_models::WordTable<C> rows = {
        {"idle_energy",
         &C::idle_energy,
         {"sun", "bought"},
         "sun",
         "where an inverter's idle draw comes from\n"
         "sun: from panels and storage that are bought for it\n"
         "bought: from a grid or a generator, by the kWh"},
    };
    return rows;
}

TableForm form_of(CostAssumptions& target) {
    TableForm form;
    plant_models::set_defaults(target);
    append_parameter_keys(form.keys, target);
    append_word_keys(form.keys, target);
    form.keys.push_back(
        {"currency", TextRule{12}, "\"EUR\"", "of every price, for people",
         [&target](const KeyValue& value) { target.currency = std::get<std::string>(value); }});
    form.inconsistency = []() { return std::string(); };
    return form;
}

CostAssumptions example_costs() {
    CostAssumptions costs;
    form_of(costs);
    return costs;
}

}  // namespace sim
