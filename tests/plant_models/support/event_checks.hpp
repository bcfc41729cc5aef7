// What must hold across an event that a test places by hand.
#pragma once

#include <gtest/gtest.h>

#include <cmath>

#include "plant_models/motor/motor_equations.hpp"
#include "support/live_plant.hpp"

namespace support {

/// Carries out `event` and expects the energy audit to close across it.
template <class Live, class Event>
void expect_audit_closes_across(Live& live, Event event) {
    const double before_J = live.unexplained_J();
    const auto audit = live.energy();
    const double size_J = 1.0 + std::abs(audit.stored_J) + std::abs(audit.source_J);
    event();
    EXPECT_NEAR(live.unexplained_J(), before_J, 1e-13 * size_J);
}

struct RotorFlux {
    double main_Vs, aux_Vs;
};

template <class Live>
RotorFlux rotor_flux(const Live& live, const plant_models::MotorParameters& motor) {
    using P = typename Live::Plant;
    const plant_models::MotorEquations<double> equations(motor);
    const plant_models::WindingCurrents<double> i = {
        live.x[P::main_current], live.x[P::aux_current], live.x[P::rotor_main_current],
        live.x[P::rotor_aux_current]};
    return {equations.rotor_main_flux(i), equations.rotor_aux_flux(i)};
}

/// Carries out `event` and expects the cage to keep its flux linkage on both axes.
template <class Live, class Event>
void expect_rotor_flux_is_kept(Live& live, const plant_models::MotorParameters& motor,
                               Event event) {
    const RotorFlux before = rotor_flux(live, motor);
    event();
    const RotorFlux after = rotor_flux(live, motor);
    EXPECT_NEAR(after.main_Vs, before.main_Vs, 1e-14);
    EXPECT_NEAR(after.aux_Vs, before.aux_Vs, 1e-14);
}

}  // namespace support
