// What a way of starting costs on a supply over the years: what is bought for the start, and what
// the supply's idle draw takes while nothing runs. What the compressor itself uses is the same on
// every supply and left out; nothing is replaced within the years, and there is no interest.
//
//   idle energy   E_year = P_idle t_day 365 / 1000                         kWh per year
//   from the sun  panels  P_kWp = P_idle t_day / 1000 / (h_sun y)          y: panel yield
//                 battery C_kWh = P_idle t_dark / 1000 / d                 d: usable depth
//   bought        E_year x price x years
//
// A utility costs nothing here: it is there. A generator runs when it is needed and has no idle
// draw; its fuel is left out.
#pragma once

#include "sim/sizing/cost_assumptions.hpp"
#include "sim/sizing/supply_at_hand.hpp"
#include "sim/sizing/way.hpp"

namespace sim {

struct IdleCost {
    double draw_W = 0.0;
    bool draw_is_assumed = false;  ///< the supply does not say its own
    double energy_kWh_per_year = 0.0;
    double panel_kWp = 0.0;    ///< 0 if the energy is bought
    double storage_kWh = 0.0;  ///< 0 if the energy is bought
    double price = 0.0;        ///< of panels and storage, or of the energy over the years
};

IdleCost idle_cost(double draw_W, const CostAssumptions& costs);

struct WayCost {
    double supply = 0.0;     ///< purchase
    double start_aid = 0.0;  ///< purchase of what the way needs: limiter, relay, thermistor
    IdleCost idle;

    double total() const { return supply + start_aid + idle.price; }
};

WayCost cost_of(Way way, const SupplyAtHand& supply, const CostAssumptions& costs);

}  // namespace sim
