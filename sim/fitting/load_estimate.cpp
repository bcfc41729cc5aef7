#include "sim/fitting/load_estimate.hpp"

#include "sim/fitting/five_digits.hpp"

namespace sim {

double breakaway_share(const Nameplate& plate) {
    const std::string compressor = plate.compressor.value_or("reciprocating");
    return compressor == "scroll" ? 0.10 : compressor == "rolling_piston" ? 0.15 : 0.20;
}

plant_models::PolynomialLoadParameters load_estimate(const Nameplate& plate,
                                                     const MotorFigures& figures) {
    const double held_Nm = five_digits(breakaway_share(plate) * figures.rated_torque_Nm);
    plant_models::PolynomialLoadParameters load;
    load.breakaway_torque_Nm = held_Nm;
    load.constant_torque_Nm = held_Nm;
    load.square_torque_Nm = five_digits(figures.rated_torque_Nm - held_Nm);
    load.reference_speed_rpm = five_digits(figures.rated_speed_rpm);
    return load;
}

std::optional<double> displacement_cm3(const Nameplate& plate, const MotorFigures& figures) {
    if (!plate.compressor || !plate.cooling_capacity_W || !plate.gas ||
        (plate.gas != "R410A" && plate.gas != "R22")) {
        return std::nullopt;
    }
    constexpr double volumetric_efficiency = 0.9;
    constexpr double computed_at_rpm = 3500.0;
    const double ideal_cm3_per_ton = plate.gas == "R410A" ? 10.7 : 15.2;
    return five_digits(ideal_cm3_per_ton * *plate.cooling_capacity_W / watts_per_ton *
                       computed_at_rpm / figures.rated_speed_rpm / volumetric_efficiency);
}

}  // namespace sim
