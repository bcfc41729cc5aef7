#include "plant_models/unit/contactor_coil.hpp"

#include <algorithm>
#include <cmath>

namespace plant_models {

const ParameterTable<ContactorParameters>& ContactorParameters::table() {
    using C = ContactorParameters;
    static const ParameterTable<C> rows = {
        {"coil_voltage_V", &C::coil_voltage_V, 0, 300, 0.0,
         "rated voltage of the coil, RMS; 0: the motor's rated voltage"},
        {"pick_up_percent", &C::pick_up_percent, 10, 100, 50.0,
         "coil voltage from which it pulls in, of coil_voltage_V"},
        {"drop_out_percent", &C::drop_out_percent, 5, 95, 45.0,
         "coil voltage below which it lets go, of coil_voltage_V"},
        {"coil_lag_ms", &C::coil_lag_ms, 5, 200, 20.0,
         "time constant with which the coil's force follows the squared voltage"},
        // A tenth of a millisecond at least: the bench moves contacts after its own tick.
        {"contact_close_ms", &C::contact_close_ms, 0.1, 100, 15.0, "pull-in to first touch"},
        {"contact_open_ms", &C::contact_open_ms, 0.1, 100, 10.0, "release to contacts parted"},
        {"contact_bounce_ms", &C::contact_bounce_ms, 0, 20, 2.0, "first touch to lasting contact"},
    };
    return rows;
}

std::string_view ContactorParameters::inconsistency() const {
    if (coil_voltage_V != 0.0 && coil_voltage_V < 10.0) {
        return "coil_voltage_V must be 0 or at least 10";
    }
    if (drop_out_percent > pick_up_percent - 2.0) {
        return "drop_out_percent must be at least 2 below pick_up_percent";
    }
    return {};
}

ContactorCoil::ContactorCoil(const ContactorParameters& contactor, double rated_voltage_V)
    : coil_voltage_V_(contactor.coil_voltage_V == 0.0 ? rated_voltage_V : contactor.coil_voltage_V),
      lag_s_(1e-3 * contactor.coil_lag_ms),
      pick_up_square_(1e-4 * contactor.pick_up_percent * contactor.pick_up_percent),
      drop_out_square_(1e-4 * contactor.drop_out_percent * contactor.drop_out_percent) {}

void ContactorCoil::derivatives(const double* x, double* dxdt, const UnitSignals& signals) const {
    const double share = signals.coil_commanded ? signals.supply_voltage_V / coil_voltage_V_ : 0.0;
    dxdt[mean_square] = (share * share - x[mean_square]) / lag_s_;
}

void ContactorCoil::guards(const double* x, const UnitSignals& signals, double* values) const {
    const double above = x[mean_square] - drop_out_square_;
    values[pulls_in] = pulled_in_ ? 1.0 : pick_up_square_ - x[mean_square];
    values[lets_go_by_sag] = pulled_in_ && signals.coil_commanded ? above : 1.0;
    values[lets_go_by_command] = pulled_in_ && !signals.coil_commanded ? above : 1.0;
}

void ContactorCoil::on_guard(std::size_t guard, double* /*x*/) {
    pulled_in_ = guard == pulls_in;
    drop_outs_ += guard == lets_go_by_sag ? 1 : 0;
}

std::array<double, ContactorCoil::channel_count> ContactorCoil::channels(const double* x) const {
    return {coil_voltage_V_ * std::sqrt(std::max(x[mean_square], 0.0))};
}

}  // namespace plant_models
