#include "sim/results/motor_json.hpp"

#include <complex>

#include "plant_models/numeric/units.hpp"

namespace sim {

nlohmann::ordered_json motor_json(const MotorCurves& curves) {
    using Json = nlohmann::ordered_json;
    const plant_models::SteadyState& locked = curves.locked_rotor;
    Json json;
    json["schema"] = "runup.motor/1";
    json["scenario"] = curves.scenario;
    json["voltage_V"] = curves.voltage_V;
    json["frequency_Hz"] = curves.frequency_Hz;
    json["locked_rotor"] = {{"line_current_A", std::abs(locked.line_current_A)},
                            {"power_factor", locked.power_factor},
                            {"torque_Nm", locked.torque_Nm}};
    Json rows = Json::array();
    for (const plant_models::SteadyState& row : curves.curve) {
        rows.push_back({{"slip", row.slip},
                        {"speed_rpm", plant_models::rad_per_s_to_rpm(row.speed_rad_per_s)},
                        {"torque_Nm", row.torque_Nm},
                        {"line_current_A", std::abs(row.line_current_A)},
                        {"main_current_A", std::abs(row.main_current_A)},
                        {"aux_current_A", std::abs(row.aux_current_A)},
                        {"power_factor", row.power_factor},
                        {"shaft_power_W", row.shaft_power_W},
                        {"efficiency", row.efficiency ? Json(*row.efficiency) : Json(nullptr)}});
    }
    json["curve"] = rows;
    return json;
}

}  // namespace sim
