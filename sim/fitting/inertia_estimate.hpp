// The inertia of a rotor with its compressor, which no nameplate prints.
//
//   J = 2 H S / w_sync^2,   H = 0.04 s
//
// S is rated voltage times rated-load current, w_sync the shaft's synchronous speed. H is that of a
// 3.5 kVA two-pole residential unit, 0.002 kg m2 (N. Lu, Y. Xie, Z. Huang, "Air Conditioner
// Compressor Performance Model", PNNL-17796, 2008). That other sizes have the same H, and that a
// unit may have 0.6 to 1.6 times this, is engineering judgement.
#pragma once

#include "sim/fitting/nameplate.hpp"

namespace sim {

struct InertiaEstimate {
    double lowest_kg_m2;
    double usual_kg_m2;
    double highest_kg_m2;
};

InertiaEstimate inertia_estimate(const Nameplate&);

}  // namespace sim
