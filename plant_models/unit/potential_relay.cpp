#include "plant_models/unit/potential_relay.hpp"

#include <algorithm>
#include <cmath>
#include <complex>

#include "plant_models/motor/steady_state.hpp"

namespace plant_models {

namespace {

constexpr double switching_speed = 0.80;  ///< share of synchronous
constexpr double least_over_locked = 1.2;
constexpr double drop_out_share = 0.35;

double usual_pick_up_V(const MotorParameters& motor, const PotentialRelayParameters& relay) {
    AuxiliaryConnection both = run_connection(motor);
    both.start = CapacitorBranch{relay.start_capacitor_uF, relay.start_capacitor_esr_ohm};
    const SinusoidalSupply rated{motor.rated_voltage_V, motor.rated_frequency_Hz, 0.0, 0.0};
    const auto coil_V = [&](double speed_share) {
        return std::abs(steady_state(motor, rated, both, 1.0 - speed_share).s_voltage_V);
    };
    return std::max(coil_V(switching_speed), least_over_locked * coil_V(0.0));
}

}  // namespace

PotentialRelayParameters PotentialRelayParameters::completed(const MotorParameters& motor) const {
    PotentialRelayParameters full = *this;
    if (full.pick_up_V == 0.0) {
        full.pick_up_V = usual_pick_up_V(motor, full);
    }
    if (full.drop_out_V == 0.0) {
        full.drop_out_V = drop_out_share * full.pick_up_V;
    }
    return full;
}

const ParameterTable<PotentialRelayParameters>& PotentialRelayParameters::table() {
    using P = PotentialRelayParameters;
    static const ParameterTable<P> rows = {
        {"start_capacitor_uF", &P::start_capacitor_uF, 1, 1000, {}, "start capacitor"},
        {"start_capacitor_esr_ohm", &P::start_capacitor_esr_ohm, 0.005, 20, 0.15,
         "series resistance of the start capacitor"},
        {"start_capacitor_bleed_ohm", &P::start_capacitor_bleed_ohm, 100, 1e7, 15000.0,
         "resistor that discharges the start capacitor while it is out"},
        {"pick_up_V", &P::pick_up_V, 0, 600, 0.0,
         "coil voltage (S to C, RMS) that takes the start capacitor out; 0: that at 80 % speed"},
        {"drop_out_V", &P::drop_out_V, 0, 500, 0.0,
         "coil voltage (S to C, RMS) that puts it back in; 0: 0.35 x pick_up_V"},
        {"coil_lag_ms", &P::coil_lag_ms, 5, 200, 15.0,
         "time constant with which the coil's force follows the squared voltage"},
        // A tenth of a millisecond at least: the bench moves contacts after its own tick.
        {"contact_close_ms", &P::contact_close_ms, 0.1, 100, 12.0, "drop-out to first touch"},
        {"contact_open_ms", &P::contact_open_ms, 0.1, 100, 8.0, "pick-up to contacts parted"},
        {"contact_bounce_ms", &P::contact_bounce_ms, 0, 20, 1.5, "first touch to lasting contact"},
    };
    return rows;
}

std::string_view PotentialRelayParameters::inconsistency() const {
    if ((pick_up_V != 0.0 && pick_up_V < 10.0) || (drop_out_V != 0.0 && drop_out_V < 1.0)) {
        return "pick_up_V must be 0 or at least 10, and drop_out_V 0 or at least 1";
    }
    if (pick_up_V == 0.0 && drop_out_V > 0.0) {
        return "drop_out_V must be given together with pick_up_V";
    }
    if (pick_up_V > 0.0 && drop_out_V > 0.9 * pick_up_V) {
        return "drop_out_V must be at most 0.9 x pick_up_V";
    }
    return {};
}

PotentialRelay::PotentialRelay(const PotentialRelayParameters& relay, const MotorParameters& motor)
    : parameters_(relay.completed(motor)), lag_s_(1e-3 * relay.coil_lag_ms) {
    const double share = parameters_.drop_out_V / parameters_.pick_up_V;
    drop_out_square_ = share * share;
}

void PotentialRelay::derivatives(const double* x, double* dxdt, const UnitSignals& signals) const {
    const double share = signals.start_terminal_voltage_V / parameters_.pick_up_V;
    dxdt[mean_square] = (share * share - x[mean_square]) / lag_s_;
}

void PotentialRelay::guards(const double* x, const UnitSignals& /*signals*/, double* values) const {
    values[picks_up] = picked_up_ ? 1.0 : 1.0 - x[mean_square];
    values[drops_out] = picked_up_ ? x[mean_square] - drop_out_square_ : 1.0;
}

std::array<double, PotentialRelay::channel_count> PotentialRelay::channels(const double* x) const {
    return {parameters_.pick_up_V * std::sqrt(std::max(x[mean_square], 0.0))};
}

}  // namespace plant_models
