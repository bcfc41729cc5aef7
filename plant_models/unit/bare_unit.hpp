// A unit with nothing fitted around the motor: constant temperatures, no protector, an ideal
// contactor that the bench moves. It costs nothing at run time. `fitted_unit.hpp` is the other one.
//
// What a unit U offers to the plant, beyond what fitting_interface.hpp asks of a fitting:
//   WindingFactors resistance_factors(const double* x) const    resistance now / as given
//   bool has_heat() const, double hotter_winding_C(const double* x) const
//   double oil_drag_factor(const double* x) const               see loads/load_interface.hpp
//   double capacitor_leak_S(const double* x) const              across the run capacitor
//   double auxiliary_series_ohm(const double* x) const          in series with the auxiliary
//   bool auxiliary_through_thermistor() const                   with no capacitor in that branch
//   double largest_step_s(const double* x) const                accuracy limit of its fastest mode
//   bool line_closed() const                                    contacts in series with the line
//   bool moves_contactor() const, contactor_wanted() const      its own coil decides
//   bool moves_start_contact() const, start_contact_wanted() const
//   void set_coil_commanded(bool)
//   std::string_view trip_cause() const                         what holds it off now; or empty
//   int contactor_drop_outs() const                             while it was commanded to be closed
//   std::vector<std::string_view> channel_names() const         of what is fitted, with units
//   void write_channels(const double* x, double* out) const     at most channel_count of them
#pragma once

#include <array>
#include <cstddef>
#include <string_view>

#include "plant_models/unit/fitting_interface.hpp"

namespace plant_models {

struct WindingFactors {
    double main = 1.0;
    double aux = 1.0;
    double rotor = 1.0;
};

class BareUnit {
  public:
    static constexpr bool is_fitted = false;
    static constexpr std::size_t state_count = 0;
    static constexpr std::size_t guard_count = 0;
    static constexpr std::size_t channel_count = 0;

    static std::array<double, 0> initial_state() { return {}; }
    static std::array<std::string_view, 0> channel_names() { return {}; }
};

}  // namespace plant_models
