// The unit's refrigerant side: two volumes, a compressor between them one way and an expansion
// device the other. Shared by all compressor loads; each holds one and puts its two states among
// its own.
//
//   C_s dp_s/dt = m_x - m_c          C_d dp_d/dt = m_c - m_x
//   m_x = k b f(p_d - p_s),  f(u) = sqrt(u) for u > 1 kPa, u / sqrt(1 kPa) for |u| <= 1 kPa, odd
//
//   symbol   | meaning                                                              | unit
//   p_s, p_d | suction, discharge pressure, absolute                                | kPa
//   m_c      | through the compressor, given by the load; negative: gas flows back  | kg/s
//   m_x      | through the expansion device (and leaks)                             | kg/s
//   b        | 1 while the compressor turns; at rest 1, bleed or leakage share       | -
//   C_s, C_d | effective capacitance dm/dp, liquid that boils and condenses included | kg/kPa
//
// The gas inside the compressor's chambers (below a gram) is counted with the suction side; so one
// flow leaves the one side and enters the other, and C_s p_s + C_d p_d is constant exactly.
//
// Where the constants come from:
//   rest at ambient    p_s = p_d = p_sat(ambient) is the equalised state, so the charge is
//                      (C_s + C_d) p_sat(ambient)
//   C_d / C_s          the rated pressures hold the charge of the rated ambient:
//                      (p_r0 - p_s0) / (p_d0 - p_r0)
//   k                  m_0 / sqrt(p_d0 - p_s0), m_0 being the compressor's mean flow at the rating
//   C_s C_d / (C_s + C_d) = m_0 t_e / (2 (p_d0 - p_s0)): with b = 1 sqrt(p_d - p_s) falls at a
//                      constant rate, to zero in the equalising time t_e
//
// Below 5 kPa of suction the compressor's flow fades, so that no suction is pumped empty, however
// small a volume the rating gives it.
//
// Assumed: heat exchangers follow the flow without lag; suction gas 11.1 K above saturation, its
// density proportional to its pressure; no check valve (a load may have one of its own).
// The structure is the usual lumped one; the choice of constants is this project's own.
#pragma once

#include <array>
#include <cstddef>

#include "plant_models/conditions.hpp"
#include "plant_models/refrigerant/gas.hpp"
#include "plant_models/refrigerant/refrigerant_parameters.hpp"

namespace plant_models {

/// What the circuit has to know of its compressor to find the running balance.
struct CompressorSize {
    double swept_m3_per_s;   ///< displacement x speed at the rating
    double clearance_share;  ///< of the displacement; 0 where nothing re-expands
};

class RefrigerantCircuit {
  public:
    enum StateIndex : std::size_t { suction_pressure, discharge_pressure };
    static constexpr std::size_t state_count = 2;
    /// Above this speed, either way, the compressor counts as running and the device is open.
    static constexpr double running_speed_rad_per_s = 20.0;

    RefrigerantCircuit(const RefrigerantParameters&, const Conditions&, const CompressorSize&);

    /// False if, at the rating, the clearance leaves less than a fifth of the displacement to pump.
    static bool can_pump(const RefrigerantParameters&, double clearance_share);

    /// Pressures, kPa: the running balance at the ambient, then `conditions.rest_s` of rest.
    std::array<double, state_count> initial_state() const { return initial_kPa_; }

    struct Pressures {
        double suction_kPa, discharge_kPa;
    };
    static Pressures pressures(const double* x) {
        return {x[suction_pressure], x[discharge_pressure]};
    }

    /// Rates of the two pressures. `compressor_kg_per_s`: from suction to discharge.
    void derivatives(const double* x, double* dxdt, double compressor_kg_per_s,
                     double speed_rad_per_s) const;
    /// A kink: the device opens or shuts here. 1 if it stays as it is at rest anyway.
    double running_guard(double speed_rad_per_s) const;

    /// Pressures after `duration_s` at rest, in closed form. `more_suction_kg_per_kPa`: of chambers
    /// that follow the suction pressure.
    void equalise(double* x, double duration_s, double more_suction_kg_per_kPa = 0.0) const;

    /// Density of the gas in the suction, proportional to its pressure.
    double suction_density_kg_per_m3(double suction_kPa) const {
        return suction_density_kg_per_m3_kPa_ * suction_kPa;
    }
    /// Density of suction gas that has been compressed without heat exchange.
    double discharge_density_kg_per_m3(double suction_kPa, double discharge_kPa) const;
    /// Mean flow of the compressor at the speed of the rating.
    double mean_flow_kg_per_s(double suction_kPa, double discharge_kPa) const;
    double expansion_flow_kg_per_s(double suction_kPa, double discharge_kPa, bool running) const;

    /// The equalised pressure of this charge over that of another: what a change of the ambient
    /// makes of every pressure, the two circuits being alike otherwise.
    double pressure_ratio_to(const RefrigerantCircuit& other) const {
        return equalised_kPa_ / other.equalised_kPa_;
    }

    double suction_capacitance_kg_per_kPa() const { return suction_capacitance_; }
    double discharge_capacitance_kg_per_kPa() const { return discharge_capacitance_; }
    const Gas& gas() const { return *gas_; }

  private:
    std::array<double, state_count> running_balance(double rest_kPa) const;

    const Gas* gas_;
    CompressorSize compressor_;
    double suction_density_kg_per_m3_kPa_;
    double inverse_exponent_;
    double flow_coefficient_;  ///< k, kg/s per sqrt(kPa)
    double share_at_rest_;     ///< b
    double suction_capacitance_;
    double discharge_capacitance_;
    double equalised_kPa_;  ///< saturation at the ambient
    std::array<double, state_count> initial_kPa_{};
};

}  // namespace plant_models
