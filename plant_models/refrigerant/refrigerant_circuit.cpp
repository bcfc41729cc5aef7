#include "plant_models/refrigerant/refrigerant_circuit.hpp"

#include <algorithm>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>

#include "plant_models/numeric/select.hpp"
#include "plant_models/refrigerant/cooling_rating.hpp"
#include "plant_models/refrigerant/saturation.hpp"

namespace plant_models {

namespace {

/// Below this pressure difference the flow is linear in it, so that its slope stays finite.
constexpr double linear_below_kPa = 1.0;
/// Below this suction pressure, a vacuum that no gas of the list is used at, pumping fades out.
constexpr double vacuum_kPa = 5.0;

/// A compressor that pumps less than this at its rating is none.
constexpr double least_volumetric_efficiency = 0.2;

double share_open_at_rest(const RefrigerantParameters& refrigerant) {
    if (refrigerant.expansion == "bleed_valve") {
        return 0.01 * refrigerant.bleed_percent;
    }
    if (refrigerant.expansion == "tight_valve") {
        return 0.01 * refrigerant.leakage_percent;
    }
    return 1.0;
}

double orifice_law(double difference_kPa) {
    const double size = magnitude(difference_kPa);
    return difference_kPa / std::sqrt(size > linear_below_kPa ? size : linear_below_kPa);
}

}  // namespace

RefrigerantCircuit::RefrigerantCircuit(const RefrigerantParameters& refrigerant,
                                       const Conditions& conditions,
                                       const CompressorSize& compressor)
    : gas_(&gas_named(refrigerant.gas)),
      compressor_(compressor),
      inverse_exponent_(1.0 / gas_->isentropic_exponent),
      share_at_rest_(share_open_at_rest(refrigerant)),
      equalised_kPa_(saturation_pressure_kPa(*gas_, conditions.ambient_C)) {
    const double suction = saturation_pressure_kPa(*gas_, refrigerant.evaporating_C);
    const double discharge = saturation_pressure_kPa(*gas_, refrigerant.condensing_C);
    const double rest = saturation_pressure_kPa(*gas_, refrigerant.rated_ambient_C);
    // Beyond the rating the gas is taken as ideal: density in proportion to pressure.
    suction_density_kg_per_m3_kPa_ =
        vapour_density_kg_per_m3(*gas_, suction, refrigerant.evaporating_C + suction_superheat_K) /
        suction;
    // The floor keeps an impossible pair of clearance and rating finite until it is refused.
    const double rated_kg_per_s = std::max(mean_flow_kg_per_s(suction, discharge),
                                           least_volumetric_efficiency * compressor.swept_m3_per_s *
                                               suction_density_kg_per_m3(suction));
    flow_coefficient_ = rated_kg_per_s / orifice_law(discharge - suction);

    // What the root law of equalisation needs for its end in the given time.
    const double in_series =
        rated_kg_per_s * refrigerant.equalising_s / (2.0 * (discharge - suction));
    const double ratio = (rest - suction) / (discharge - rest);
    suction_capacitance_ = in_series * (1.0 + 1.0 / ratio);
    discharge_capacitance_ = in_series * (1.0 + ratio);

    initial_kPa_ = running_balance(equalised_kPa_);
    equalise(initial_kPa_.data(), conditions.rest_s);
}

bool RefrigerantCircuit::can_pump(const RefrigerantParameters& refrigerant,
                                  double clearance_share) {
    const Gas& gas = gas_named(refrigerant.gas);
    return volumetric_efficiency(gas, clearance_share,
                                 saturation_pressure_kPa(gas, refrigerant.evaporating_C),
                                 saturation_pressure_kPa(gas, refrigerant.condensing_C)) >=
           least_volumetric_efficiency;
}

std::array<double, RefrigerantCircuit::state_count> RefrigerantCircuit::running_balance(
    double rest_kPa) const {
    const double per_suction = suction_capacitance_ / discharge_capacitance_;
    const auto discharge_at = [&](double suction) {
        return rest_kPa + per_suction * (rest_kPa - suction);
    };
    // Pumped less expanded: positive when equalised, negative when the suction is all but empty.
    const auto surplus = [&](double suction) {
        const double discharge = discharge_at(suction);
        return mean_flow_kg_per_s(suction, discharge) -
               expansion_flow_kg_per_s(suction, discharge, true);
    };
    std::uintmax_t iterations = 100;
    const auto bracket = boost::math::tools::toms748_solve(
        surplus, 1e-6 * rest_kPa, rest_kPa, boost::math::tools::eps_tolerance<double>(48),
        iterations);
    const double suction = 0.5 * (bracket.first + bracket.second);
    return {suction, discharge_at(suction)};
}

double RefrigerantCircuit::mean_flow_kg_per_s(double suction_kPa, double discharge_kPa) const {
    return compressor_.swept_m3_per_s * suction_density_kg_per_m3(suction_kPa) *
           volumetric_efficiency(*gas_, compressor_.clearance_share, suction_kPa, discharge_kPa);
}

double RefrigerantCircuit::discharge_density_kg_per_m3(double suction_kPa,
                                                       double discharge_kPa) const {
    // A step that tries a point beyond an empty suction must still find a number.
    constexpr double all_but_empty_kPa = 1e-3;
    const double suction = std::max(suction_kPa, all_but_empty_kPa);
    return suction_density_kg_per_m3(suction) *
           std::exp(inverse_exponent_ *
                    std::log(std::max(discharge_kPa, all_but_empty_kPa) / suction));
}

double RefrigerantCircuit::expansion_flow_kg_per_s(double suction_kPa, double discharge_kPa,
                                                   bool running) const {
    return flow_coefficient_ * (running ? 1.0 : share_at_rest_) *
           orifice_law(discharge_kPa - suction_kPa);
}

void RefrigerantCircuit::derivatives(const double* x, double* dxdt, double compressor_kg_per_s,
                                     double speed_rad_per_s) const {
    const bool running = magnitude(speed_rad_per_s) > running_speed_rad_per_s;
    const double fading = clamp(x[suction_pressure] / vacuum_kPa, 0.0, 1.0);
    const double pumped =
        compressor_kg_per_s > 0.0 ? fading * compressor_kg_per_s : compressor_kg_per_s;
    const double gain =
        pumped - expansion_flow_kg_per_s(x[suction_pressure], x[discharge_pressure], running);
    dxdt[suction_pressure] = -gain / suction_capacitance_;
    dxdt[discharge_pressure] = gain / discharge_capacitance_;
}

double RefrigerantCircuit::running_guard(double speed_rad_per_s) const {
    return share_at_rest_ == 1.0 ? 1.0 : running_speed_rad_per_s - magnitude(speed_rad_per_s);
}

void RefrigerantCircuit::equalise(double* x, double duration_s,
                                  double more_suction_kg_per_kPa) const {
    const double suction_capacitance = suction_capacitance_ + more_suction_kg_per_kPa;
    const double total = suction_capacitance + discharge_capacitance_;
    const double mean = (suction_capacitance * x[suction_pressure] +
                         discharge_capacitance_ * x[discharge_pressure]) /
                        total;
    const double difference = x[discharge_pressure] - x[suction_pressure];
    const double rate = flow_coefficient_ * share_at_rest_ *
                        (1.0 / suction_capacitance + 1.0 / discharge_capacitance_);
    // The square root of the difference falls in proportion to time until the law turns linear,
    // and exponentially from there on.
    const double threshold = std::sqrt(linear_below_kPa);
    const double root = std::sqrt(magnitude(difference));
    double left_root = root - 0.5 * rate * duration_s;
    double left = left_root * left_root;
    if (left_root < threshold) {
        const double start = std::min(root, threshold);
        // duration x rate beyond the root phase; written so that a rate of 0 does no harm
        const double beyond = rate * duration_s - 2.0 * (root - start);
        left = start * start * std::exp(-beyond / threshold);
    }
    left = std::copysign(left, difference);
    x[suction_pressure] = mean - left * discharge_capacitance_ / total;
    x[discharge_pressure] = mean + left * suction_capacitance / total;
}

}  // namespace plant_models
