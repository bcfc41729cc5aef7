// What every supply model offers to the plant, and what it is told.
//
// A supply is an EMF behind a series resistance and inductance. The EMF is a function of time and
// of the supply's own states, never of the load's derivative, so the plant needs no algebraic loop:
// a grid's EMF is its sine; an inverter's is the voltage of its output capacitor.
//
// A supply class S has:
//   using Parameters                                    with `kind`, `table()`, `inconsistency()`
//   static constexpr std::size_t state_count, guard_count, channel_count
//   double series_resistance_ohm() const, series_inductance_H() const
//   double largest_step_s() const                       accuracy limit of its fastest mode
//   void set_origin(double t)                           called before each step
//   std::array<double, state_count> initial_state() const
//   double emf_V(const double* x, double t) const
//   SupplyPower derivatives(const double* x, double* dxdt, double t, const SupplyLoading&) const
//   double stored_energy_J(const double* x) const
//   void guards(const double* x, double t, const SupplyLoading&, double* values) const
//   bool guard_is_kink(std::size_t) const               see below
//   void on_guard(std::size_t, double* x)
//   std::string_view trip_cause() const                 empty while it has not tripped
//   bool disconnected() const                           its breaker or relay has opened, see below
//   double frequency_Hz(const double* x) const          of the EMF now; a generator's is a state
//   void set_frequency_share(double share, double t)    from t on, of its own frequency; its phase
//                                                       does not jump, a generator follows slowly
//   bool settled(const double* x) const                 what a load left behind has died away, but
//                                                       for slow states
//   double whole_rest_s(double wanted_s) const          of a rest: how much may pass in one step; a
//                                                       supply that hums on may want whole cycles
//   void rest(double* x, double begin_s, double end_s)  unloaded, from one instant to another
//   static std::array<std::string_view, channel_count> channel_names()   with units
//   std::array<double, channel_count> channels(const double* x, double t, const SupplyLoading&)
//   const
//
// A guard is a function whose change of sign is an event. A plain guard is positive while armed and
// fires when it becomes zero or negative; a kink only says that the right-hand side has a corner
// there: the step ends on it, and nothing else happens.
//
// A trip has a cause and may open the supply's own breaker. An EMF behind an impedance cannot block
// a current by itself (at EMF 0 the motor would be shorted through the source), so a supply whose
// breaker or relay has opened says `disconnected()`, for good, and the plant opens the line: what
// current there is burns on to its next zero. A supply that fails without opening anything (a
// stalled generator, an inverter that takes its own current to zero) has a cause but stays
// connected.
//
// The drop of the small iron current across the series impedance is not fed back. What a supply's
// EMF gives beyond terminal voltage x iron current is its loss, or is left out on both sides.
#pragma once

namespace plant_models {

struct SupplyLoading {
    double winding_current_A = 0.0;  ///< through the series impedance
    double iron_current_A = 0.0;     ///< drawn at the terminal by the iron loss
    double terminal_voltage_V = 0.0;
    double line_current_A() const { return winding_current_A + iron_current_A; }
};

struct SupplyPower {
    double source_W = 0.0;  ///< energy that enters the system here
    double loss_W = 0.0;    ///< lost inside the supply, apart from its series resistance
};

}  // namespace plant_models
