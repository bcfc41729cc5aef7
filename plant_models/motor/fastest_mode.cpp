#include "plant_models/motor/fastest_mode.hpp"

#include <algorithm>
#include <cmath>

#include "plant_models/motor/winding_inductances.hpp"

namespace plant_models {

double fastest_mode_per_s(const MotorParameters& motor, const SeriesImpedance& line) {
    const WindingMatrix m = inverse_inductances(winding_inductances(motor, line.inductance_H),
                                                StatorConnection::both_on_line);
    const double decay = motor.main_resistance_ohm * m[0][0] +
                         (motor.aux_resistance_ohm + motor.run_capacitor_esr_ohm) * m[1][1] +
                         motor.rotor_resistance_ohm * (m[2][2] + m[3][3]) +
                         line.resistance_ohm * (m[0][0] + m[1][1] + 2.0 * m[0][1]);
    const double swing =
        motor.run_capacitor_uF > 0.0 ? std::sqrt(m[1][1] / (1e-6 * motor.run_capacitor_uF)) : 0.0;
    return std::max(decay, swing);
}

}  // namespace plant_models
