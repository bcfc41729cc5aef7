// What stands behind the inverter's DC bus: a source that refills it in proportion to its sag.
//
//   refill    P = clamp(k (V_dc - v_dc), 0, P_max), full power at 5 % sag
//
//   stiff     P comes from an unlimited source, without loss
//   battery   P comes from a boost stage fed through a cable by a battery
//             into the boost    P_i = P / (1 - loss) + P_idle = v_i i,  v_i = V_oc - (R_b + R_c) i
//             so                i = 2 P_i / (V_oc + sqrt(V_oc^2 - 4 (R_b + R_c) P_i))
//             at its terminals  v_b = V_oc - R_b i
//
// The boost stage does not pull its input under 60 % of V_oc, which bounds P_i at 96 % of the most
// that the battery could give, V_oc^2 / (4 (R_b + R_c)); P_max is reduced to that.
//
// The battery has two timers. Its own protection opens for good
//   at once at the short-circuit current, or when t_b, never under 0, reaches battery_protection_s:
//   dt_b/dt = ((i / I_p)^2 - 1) / 3          twice I_p lasts battery_protection_s
// and the inverter stops by itself when the battery's terminals, read as a 20 ms mean (the current
// pulsates at twice the line frequency), fall below battery_minimum_V.
//
// Charge is not counted: V_oc stays. No energy is stored here. Own consumption (P_idle) is drawn
// before the boost stage as long as there is a source and the inverter has not tripped.
//
// Source: circuit laws; the form of the protection's curve and all figures are engineering
// judgement.
#pragma once

#include <cmath>
#include <cstddef>

#include "plant_models/numeric/select.hpp"
#include "plant_models/supplies/inverter/parameters.hpp"

namespace plant_models {

struct DcFlow {
    double into_bus_W = 0.0;
    double source_W = 0.0;
    double loss_W = 0.0;
    double battery_current_A = 0.0;
};

class DcSide {
  public:
    enum StateIndex { protection_timer, current_mean };
    static constexpr std::size_t state_count = 2;

    explicit DcSide(const InverterParameters& completed);

    /// The most that the boost stage can bring, in watts; not positive: nothing.
    static double largest_refill_W(const InverterParameters& completed);

    /// `running` is 1 until the inverter has tripped, then 0.
    DcFlow flow(double bus_V, double running) const {
        DcFlow flow;
        if (connected_ == 0.0) {
            return flow;
        }
        flow.into_bus_W = clamp(slope_W_per_V_ * (bus_voltage_V_ - bus_V), 0.0, largest_W_);
        const double idle_W = running * idle_W_;
        if (!battery_) {
            flow.source_W = flow.into_bus_W + idle_W;
            flow.loss_W = idle_W;
            return flow;
        }
        const double drawn_W = flow.into_bus_W * inverse_efficiency_ + idle_W;
        const double root =
            std::sqrt(battery_V_ * battery_V_ - 4.0 * loop_resistance_ohm_ * drawn_W);
        flow.battery_current_A = 2.0 * drawn_W / (battery_V_ + root);
        flow.source_W = battery_V_ * flow.battery_current_A;
        flow.loss_W = flow.source_W - flow.into_bus_W;
        return flow;
    }
    double battery_terminal_V(double current_A) const {
        return battery_V_ - battery_resistance_ohm_ * current_A;
    }
    void derivatives(const double* x, double* dxdt, double battery_current_A) const;

    /// After a time at the current of idling.
    void rest(double* x, double idle_current_A, double duration_s) const;

    /// Kinks where the refill begins and where it is full.
    double sag_V(double bus_V) const { return bus_voltage_V_ - bus_V; }
    double room_to_full_V(double bus_V) const { return sag_at_full_V_ - sag_V(bus_V); }
    /// Kink where the battery's rating is passed; the others are plain guards. 1 without battery.
    double rating_room_A(double battery_current_A) const {
        return armed() ? protection_A_ - battery_current_A : 1.0;
    }
    double timer_empty(const double* x) const {
        return x[protection_timer] == 0.0 ? 1.0 : x[protection_timer];
    }
    double protection_room(const double* x, double battery_current_A) const;
    double voltage_room_V(const double* x) const {
        return armed() ? battery_terminal_V(x[current_mean]) - minimum_V_ : 1.0;
    }
    void disconnect() { connected_ = 0.0; }

  private:
    bool armed() const { return battery_ && connected_ != 0.0; }

    bool battery_;
    double connected_ = 1.0;
    double bus_voltage_V_;
    double slope_W_per_V_;
    double largest_W_;
    double sag_at_full_V_;
    double idle_W_;
    double inverse_efficiency_;
    double battery_V_;
    double battery_resistance_ohm_;
    double loop_resistance_ohm_;
    double minimum_V_;
    double protection_A_;
    double protection_s_;
    double short_circuit_A_;
};

}  // namespace plant_models
