// A generator of the size that is set up behind a house, on the bench.
#pragma once

#include "plant_models/supplies/generator.hpp"
#include "supplies/supply_bench.hpp"
#include "support/machines.hpp"

namespace support {

using GeneratorBench = SupplyBench<plant_models::Generator>;

/// 240 V 60 Hz, everything else by default: 7.7 kW engine, 5 % droop, 420 W without load.
inline plant_models::GeneratorParameters seven_kilovolt_amperes() {
    auto parameters = table_defaults<plant_models::GeneratorParameters>();
    parameters.voltage_V = 240.0;
    parameters.frequency_Hz = 60.0;
    parameters.rated_power_VA = 7000.0;
    return parameters;
}

/// With a coil that turns the current by 1 degree only, for the sake of the integration.
inline void connect_resistance(GeneratorBench& bench, double resistance_ohm) {
    bench.connect(resistance_ohm, 1e3 * 60e-6 * resistance_ohm);
}

}  // namespace support
