#include "plant_models/loads/polynomial.hpp"

namespace plant_models {

const ParameterTable<PolynomialLoadParameters>& PolynomialLoadParameters::table() {
    using L = PolynomialLoadParameters;
    static const ParameterTable<L> rows = {
        {"breakaway_torque_Nm",
         &L::breakaway_torque_Nm,
         0,
         500,
         {},
         "largest torque that the resting shaft withstands; constant_torque_Nm if that is larger"},
        {"constant_torque_Nm", &L::constant_torque_Nm, 0, 500, {}, "torque at any speed"},
        {"square_torque_Nm",
         &L::square_torque_Nm,
         0,
         500,
         {},
         "torque that grows with the square of the speed, at the reference speed"},
        {"reference_speed_rpm", &L::reference_speed_rpm, 1, 10000, {}, "reference speed"},
    };
    return rows;
}

}  // namespace plant_models
