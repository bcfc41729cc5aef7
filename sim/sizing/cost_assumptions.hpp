// What things cost and how much sun there is: the inputs of the sum in costs.hpp.
//
// Every default is an example, not a quotation: round figures that show how the sum goes. A file
// with the table [costs] gives one's own (cost_file.hpp).
#pragma once

#include <map>
#include <string>
#include <string_view>

#include "plant_models/parameter_table.hpp"
#include "sim/scenario/parameter_keys.hpp"

namespace sim {

struct CostAssumptions {
    double years = 0.0;
    double limiter_price = 0.0;
    double capacitor_relay_price = 0.0;
    double thermistor_price = 0.0;
    double inverter_price_per_kVA = 0.0;
    double transformer_inverter_price_per_kVA = 0.0;
    double generator_price_per_kVA = 0.0;
    double idle_draw_percent = 0.0;  ///< of the rating, for an inverter that does not say its own
    double idle_hours_per_day = 0.0;
    double sun_hours_per_day = 0.0;
    double panel_yield_percent = 0.0;
    double panel_price_per_kWp = 0.0;
    double storage_hours_per_day = 0.0;
    double storage_depth_percent = 0.0;
    double storage_price_per_kWh = 0.0;
    double energy_price_per_kWh = 0.0;
    std::string_view idle_energy = "sun";
    std::string currency = "EUR";
    std::map<std::string, double> supply_prices;  ///< by name, in the place of the price per kVA

    bool idle_energy_is_bought() const { return idle_energy == "bought"; }

    static const plant_models::ParameterTable<CostAssumptions>& table();
    static const plant_models::WordTable<CostAssumptions>& word_table();
};

/// All the keys of [costs], `currency` with them.
TableForm form_of(CostAssumptions& target);

/// The defaults.
CostAssumptions example_costs();

}  // namespace sim
