// A load whose driving torque swings like a sine, whatever the rotor does: it can carry the rotor
// through rest, stop it and start it the other way. Its phase lives in two states of its own.
#pragma once

#include <array>
#include <cmath>
#include <cstddef>
#include <string_view>

#include "plant_models/loads/load_interface.hpp"

namespace support {

class SwingingLoad {
  public:
    struct Figures {
        double swing_Nm;  ///< T_driving = swing * sin(angular frequency * t)
        double rad_per_s;
        double sliding_Nm;    ///< friction while it turns
        double breakaway_Nm;  ///< friction at rest
    };
    static constexpr std::size_t state_count = 2;
    static constexpr std::size_t guard_count = 0;
    static constexpr std::size_t channel_count = 0;

    explicit SwingingLoad(const Figures& figures) : figures_(figures) {}

    std::array<double, 2> initial_state() const { return {0.0, 1.0}; }
    using Motion = plant_models::LoadMotion<double>;
    using Torque = plant_models::LoadTorque<double>;
    Torque torque(const double* x, const Motion& /*motion*/) const {
        return {figures_.swing_Nm * x[0], figures_.sliding_Nm};
    }
    double breakaway_torque_Nm(const double* /*x*/, double /*oil_drag_factor*/) const {
        return figures_.breakaway_Nm;
    }
    Torque torque_and_derivatives(const double* x, double* dxdt, const Motion& motion) const {
        dxdt[0] = figures_.rad_per_s * x[1];
        dxdt[1] = -figures_.rad_per_s * x[0];
        return torque(x, motion);
    }
    static std::array<std::string_view, 0> channel_names() { return {}; }

  private:
    Figures figures_;
};

}  // namespace support
