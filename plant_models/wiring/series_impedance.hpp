// A resistance and an inductance in series with the supply: its own, or its wiring's.
#pragma once

namespace plant_models {

struct SeriesImpedance {
    double resistance_ohm = 0.0;
    double inductance_H = 0.0;
};

}  // namespace plant_models
