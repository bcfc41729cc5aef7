// Contactor "coil": its coil is fed from the same line as the motor, so that a sag that the motor
// causes can let it go.
//
//   tau dm/dt = (u / U_c)^2 - m     u: coil voltage, 0 while the coil circuit is open
//   pulls in at m = p^2, lets go at m = d^2;   p, d: pick-up and drop-out / rated coil voltage
//
// From m_0, at a constant RMS voltage v U_c, m passes a level m_1 after
//   t = tau ln((v^2 - m_0) / (v^2 - m_1))
//
// The mean square with a lag stands for the force of a coil with shading rings, which carry it over
// the zeros of the voltage. Then the contacts follow with their travel and bounce (contact.hpp).
//
// Defaults: drop-out 45 %, pick-up 50 %. Sets for simulating residential cooling units under low
// voltage let the first contactors go at 0.45 pu (the last at 0.35) and have the last ones closed
// again at 0.50 (the first at 0.40) (seen). This default is thus a contactor that lets go early and
// returns late. A standard contactor pulls in at 85 % at the latest and lets go between 20 and 75 %
// (IEC 60947-4-1; secondary: data sheets). Lag and contact times: engineering judgement; without
// voltage the coil lets go after 1.6 lags, two cycles.
#pragma once

#include <array>
#include <cstddef>
#include <string_view>

#include "plant_models/numeric/relaxation.hpp"
#include "plant_models/parameter_table.hpp"
#include "plant_models/switches/contact.hpp"
#include "plant_models/unit/fitting_interface.hpp"

namespace plant_models {

struct ContactorParameters {
    static constexpr std::string_view kind = "coil";

    double coil_voltage_V = 0.0;  ///< RMS; 0: the motor's rated voltage
    double pick_up_percent = 0.0;
    double drop_out_percent = 0.0;
    double coil_lag_ms = 0.0;
    double contact_close_ms = 0.0;   ///< pull-in to first touch
    double contact_open_ms = 0.0;    ///< release to contacts parted
    double contact_bounce_ms = 0.0;  ///< first touch to lasting contact

    ContactTiming contact_timing() const {
        return ContactTiming::from_milliseconds(contact_close_ms, contact_open_ms,
                                                contact_bounce_ms);
    }

    static const ParameterTable<ContactorParameters>& table();
    /// One sentence that says what is wrong between fields that are each in bounds; empty if none.
    std::string_view inconsistency() const;
};

/// The model; its members are described in fitting_interface.hpp. `UnitSignals::coil_commanded` is
/// the whole coil circuit: the call, and every protective contact in series with it.
class ContactorCoil {
  public:
    enum StateIndex : std::size_t { mean_square };  // of coil voltage / rated coil voltage
    enum GuardIndex : std::size_t { pulls_in, lets_go_by_sag, lets_go_by_command };
    static constexpr std::size_t state_count = 1;
    static constexpr std::size_t guard_count = 3;
    static constexpr std::size_t channel_count = 1;

    ContactorCoil(const ContactorParameters& contactor, double rated_voltage_V);

    std::array<double, state_count> initial_state() const { return {}; }
    void derivatives(const double* x, double* dxdt, const UnitSignals& signals) const;
    void guards(const double* x, const UnitSignals& signals, double* values) const;
    static bool guard_is_kink(std::size_t) { return false; }
    void on_guard(std::size_t guard, double* x);
    void continue_from(const ContactorCoil& before) {
        pulled_in_ = before.pulled_in_;
        drop_outs_ = before.drop_outs_;
    }
    bool settled(const double* /*x*/) const { return !pulled_in_; }
    void rest(double* x, const RestStep& step) {
        x[mean_square] = relaxed(x[mean_square], 0.0, lag_s_, step.duration_s);
    }

    bool wants_closed() const { return pulled_in_; }
    /// How often it let go while its circuit was closed.
    int drop_outs() const { return drop_outs_; }

    static std::array<std::string_view, channel_count> channel_names() { return {"coil_V"}; }
    std::array<double, channel_count> channels(const double* x) const;

  private:
    double coil_voltage_V_;
    double lag_s_;
    double pick_up_square_;
    double drop_out_square_;
    bool pulled_in_ = false;
    int drop_outs_ = 0;
};

}  // namespace plant_models
