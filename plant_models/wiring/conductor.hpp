// Conductors by size: resistance and inductance of one conductor per length.
//
//   copper, aluminium by gauge    R(T) = R75 [1 + a75 (T - 75)]     a75 = 0.00323 Cu, 0.00330 Al
//   copper, aluminium by area     R(T) = R20 [1 + a20 (T - 20)]     a20 = 0.00393 Cu, 0.00403 Al
//
// Both forms are the same straight line: 0.00393 / (1 + 55 x 0.00393) = 0.00323.
//
// Sources: resistance by gauge, direct current, uncoated, solid up to 8 AWG and stranded from
// 6 AWG: NEC (NFPA 70) chapter 9 table 8 (secondary: seen in pages that quote it). Resistance by
// area: IEC 60228 class 2, the largest that a conductor may have, so real cables lie 0-3 % below
// (secondary). Coefficients: notes to the same table 8 and IEC 60228 annex B (0.00323 secondary,
// the other three recalled). Inductance by gauge: reactance at 60 Hz of NEC chapter 9 table 9,
// plastic or aluminium conduit (secondary), made for three single conductors in a conduit.
// Inductance by area: 0.08 ohm/km at 50 Hz for every size, as IEC 60364-5-52 annex G takes it when
// nothing better is known (recalled). Skin effect is neglected; it is under 1 % up to 2/0 AWG.
#pragma once

#include <string_view>
#include <vector>

namespace plant_models {

enum class ConductorMaterial { copper, aluminium };

/// One size that can be asked for.
struct Conductor {
    std::string_view size;              ///< "10 AWG", "2/0 AWG", "2.5 mm2"
    double copper_ohm_per_km = 0.0;     ///< at the reference temperature
    double aluminium_ohm_per_km = 0.0;  ///< 0: not made of aluminium
    double reference_temperature_C = 0.0;
    double inductance_mH_per_km = 0.0;  ///< of one of the conductors that lie together

    bool is_made_of(ConductorMaterial material) const;
    /// Of one conductor; `material` must be one that it is made of.
    double resistance_ohm_per_km(ConductorMaterial material, double temperature_C) const;
};

/// All sizes, thinnest first, gauges before areas.
const std::vector<Conductor>& conductors();

/// Null if there is no such size.
const Conductor* find_conductor(std::string_view size);

}  // namespace plant_models
