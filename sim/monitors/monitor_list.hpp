// The list of monitors. Adding one: write its file beside these, name it here.
#pragma once

#include "sim/monitors/bypass_speed.hpp"
#include "sim/monitors/call_gone.hpp"
#include "sim/monitors/gate_supply_limits.hpp"
#include "sim/monitors/monitor_set.hpp"
#include "sim/monitors/rest_before_retry.hpp"
#include "sim/monitors/standing_rotor.hpp"
#include "sim/monitors/start_capacitor_time.hpp"
#include "sim/monitors/store_rules.hpp"
#include "sim/monitors/store_while_driving.hpp"
#include "sim/monitors/winding_temperature.hpp"

namespace sim {

using Monitors =
    MonitorSet<BypassSpeed, StartCapacitorTime, StandingRotor, RestBeforeRetry, GateSupplyLimits,
               CallGone, StoreRules, StoreWhileDriving, WindingTemperature>;

}  // namespace sim
