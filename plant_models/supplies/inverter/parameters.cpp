#include "plant_models/supplies/inverter/parameters.hpp"

#include <cmath>

#include "plant_models/supplies/inverter/dc_side.hpp"

namespace plant_models {

namespace {
/// Usual size of the bus capacitors of a transformerless inverter.
constexpr double bus_energy_J_per_VA = 0.040;
/// The limited sine keeps a tenth below the hard clamp; the softening begins at the rating, about.
constexpr double limited_share_of_clamp = 0.9;
constexpr double threshold_share_of_limited = 0.75;
/// A bank that is neither small nor generous, and protection that does not act before the boost
/// stage is at its limit.
constexpr double battery_sag_at_full_refill = 0.04;
constexpr double battery_minimum_share = 0.84;
constexpr double protection_share_of_full_refill = 1.5;
constexpr double short_circuit_share_of_protection = 4.0;

constexpr double usual_angle_deg = 20.0;
constexpr double usual_foldback_ms = 40.0;
constexpr double usual_cable_mohm = 2.0;
constexpr double usual_boost_loss_percent = 5.0;
constexpr double usual_protection_s = 5.0;

double or_derived(double given, double derived) {
    return given == 0.0 ? derived : given;
}
}  // namespace

InverterParameters InverterParameters::completed() const {
    InverterParameters full = *this;
    const double largest_sine_A = peak_current_limit_A / std::sqrt(2.0);
    full.bus_voltage_V = or_derived(bus_voltage_V, 1.75 * voltage_V);
    full.bus_minimum_V = or_derived(bus_minimum_V, 1.30 * voltage_V);
    full.rated_current_A =
        or_derived(rated_current_A, peak_current_limit_A / (1.5 * std::sqrt(2.0)));
    full.refill_power_W = or_derived(refill_power_W, voltage_V * full.rated_current_A);
    if (full.bus_capacitance_uF == 0.0) {
        const double stored_J = bus_energy_J_per_VA * voltage_V * full.rated_current_A;
        full.bus_capacitance_uF = 1e6 * 2.0 * stored_J / (full.bus_voltage_V * full.bus_voltage_V);
    }
    full.limited_current_A = or_derived(limited_current_A, limited_share_of_clamp * largest_sine_A);
    full.virtual_threshold_A =
        or_derived(virtual_threshold_A, threshold_share_of_limited * full.limited_current_A);
    full.surge_power_W = or_derived(surge_power_W, voltage_V * largest_sine_A);
    full.surge_time_s = or_derived(surge_time_s, overload_time_s);
    if (has_battery() && battery_voltage_V > 0.0) {
        full.battery_resistance_mohm = or_derived(
            battery_resistance_mohm, 1e3 * battery_sag_at_full_refill * battery_voltage_V *
                                         battery_voltage_V / full.refill_power_W);
        full.battery_minimum_V =
            or_derived(battery_minimum_V, battery_minimum_share * battery_voltage_V);
        full.battery_protection_A =
            or_derived(battery_protection_A,
                       protection_share_of_full_refill * full.refill_power_W / battery_voltage_V);
        full.battery_short_circuit_A = or_derived(
            battery_short_circuit_A, short_circuit_share_of_protection * full.battery_protection_A);
    }
    return full;
}

const ParameterTable<InverterParameters>& InverterParameters::table() {
    using I = InverterParameters;
    static const ParameterTable<I> rows = {
        {"voltage_V", &I::voltage_V, 50, 300, {}, "output voltage, RMS"},
        {"frequency_Hz", &I::frequency_Hz, 45, 65, {}, "frequency"},
        {"peak_current_limit_A",
         &I::peak_current_limit_A,
         1,
         2000,
         {},
         "instantaneous limit of the bridge current"},
        {"phase_deg", &I::phase_deg, -360, 360, 0.0,
         "phase of the voltage's sine when the run begins; 0 is its rising zero"},
        {"filter_inductance_mH", &I::filter_inductance_mH, 0.1, 10, 1.0, "output filter"},
        {"filter_resistance_ohm", &I::filter_resistance_ohm, 0, 5, 0.05, "output filter"},
        {"filter_capacitance_uF", &I::filter_capacitance_uF, 1, 100, 10.0, "output filter"},
        {"current_loop_bandwidth_Hz", &I::current_loop_bandwidth_Hz, 100, 5000, 2000.0,
         "inner loop"},
        {"voltage_loop_bandwidth_Hz", &I::voltage_loop_bandwidth_Hz, 20, 1000, 400.0, "outer loop"},
        {"bus_voltage_V", &I::bus_voltage_V, 0, 900, 0.0, "DC bus; 0: 1.75 x voltage_V"},
        {"bus_minimum_V", &I::bus_minimum_V, 0, 900, 0.0,
         "DC bus undervoltage trip; 0: 1.30 x voltage_V"},
        {"bus_capacitance_uF", &I::bus_capacitance_uF, 0, 1e6, 0.0,
         "DC bus storage; 0: 40 J per kVA of voltage_V x rated_current_A"},
        {"refill_power_W", &I::refill_power_W, 0, 1e5, 0.0,
         "most that the DC side can bring; 0: voltage_V x rated_current_A"},
        {"rated_current_A", &I::rated_current_A, 0, 1000, 0.0,
         "RMS current it may carry for ever; 0: peak_current_limit_A / (1.5 sqrt 2)"},
        {"overload_time_s", &I::overload_time_s, 0.05, 600, 5.0,
         "time above the rated current until it trips"},
        {"limited_current_A", &I::limited_current_A, 0, 1500, 0.0,
         "RMS current that virtual_impedance lets into a short circuit and voltage_foldback "
         "settles to; 0: 0.9 x peak_current_limit_A / sqrt 2"},
        {"virtual_threshold_A", &I::virtual_threshold_A, 0, 1500, 0.0,
         "RMS current from which virtual_impedance acts; 0: 0.75 x limited_current_A"},
        {"virtual_impedance_angle_deg", &I::virtual_impedance_angle_deg, 0, 45, usual_angle_deg,
         "of virtual_impedance; 0 is resistive"},
        {"foldback_time_ms", &I::foldback_time_ms, 10, 1000, usual_foldback_ms,
         "time constant of voltage_foldback"},
        {"surge_power_W", &I::surge_power_W, 0, 1e6, 0.0,
         "surge rating of inverse_time, in volt-amperes; 0: voltage_V x peak_current_limit_A / "
         "sqrt 2"},
        {"surge_time_s", &I::surge_time_s, 0, 600, 0.0,
         "how long inverse_time bears the surge rating; 0: overload_time_s"},
        {"idle_draw_W", &I::idle_draw_W, 0, 1000, 0.0,
         "own consumption from the DC source, as long as it has not tripped"},
        {"battery_voltage_V", &I::battery_voltage_V, 0, 600, 0.0,
         "open-circuit voltage; has to be given with a battery"},
        {"battery_resistance_mohm", &I::battery_resistance_mohm, 0, 10000, 0.0,
         "of the battery itself; 0: 4 % sag at refill_power_W"},
        {"battery_cable_mohm", &I::battery_cable_mohm, 0, 1000, usual_cable_mohm,
         "battery cable both ways, with fuse and terminals"},
        {"boost_loss_percent", &I::boost_loss_percent, 0, 50, usual_boost_loss_percent,
         "share of the power into the boost stage that it loses"},
        {"battery_minimum_V", &I::battery_minimum_V, 0, 600, 0.0,
         "battery voltage at which the inverter stops; 0: 0.84 x battery_voltage_V"},
        {"battery_protection_A", &I::battery_protection_A, 0, 5000, 0.0,
         "current that the battery's protection bears for ever; 0: 1.5 x refill_power_W / "
         "battery_voltage_V"},
        {"battery_protection_s", &I::battery_protection_s, 0.01, 600, usual_protection_s,
         "time for which the battery's protection bears twice that current"},
        {"battery_short_circuit_A", &I::battery_short_circuit_A, 0, 20000, 0.0,
         "current at which the battery's protection opens at once; 0: 4 x battery_protection_A"},
    };
    return rows;
}

const WordTable<InverterParameters>& InverterParameters::word_table() {
    using I = InverterParameters;
    static const WordTable<I> rows = {
        {"limiting_method",
         &I::limiting_method,
         {"reference_clamp", "switch_clamp", "virtual_impedance", "voltage_foldback"},
         "reference_clamp",
         "how the current is limited\n"
         "reference_clamp: the reference of the current loop is clamped\n"
         "switch_clamp: the switches are held while the current is at its limit\n"
         "virtual_impedance: the voltage falls with the current above a threshold\n"
         "voltage_foldback: an RMS controller lowers the voltage"},
        {"overload_law",
         &I::overload_law,
         {"definite_time", "inverse_time"},
         "definite_time",
         "when an overload trips\n"
         "definite_time: after overload_time_s above the rated current, however far above\n"
         "inverse_time: after surge_time_s at surge_power_W, sooner above, later below"},
        {"dc_side",
         &I::dc_side,
         {"stiff", "battery"},
         "stiff",
         "what refills the DC bus\n"
         "stiff: a source without loss, up to refill_power_W\n"
         "battery: a battery with its protection, a cable and a boost stage"},
    };
    return rows;
}

std::string_view InverterParameters::inconsistency() const {
    const InverterParameters full = completed();
    if (full.bus_voltage_V <= full.bus_minimum_V) {
        return "bus_minimum_V must be below bus_voltage_V";
    }
    if (full.bus_voltage_V < std::sqrt(2.0) * voltage_V) {
        return "bus_voltage_V must be at least the crest of voltage_V (1.414 x voltage_V)";
    }
    if (const auto fault = limiting_inconsistency(); !fault.empty()) {
        return fault;
    }
    if (const auto fault = overload_inconsistency(); !fault.empty()) {
        return fault;
    }
    return battery_inconsistency();
}

std::string_view InverterParameters::limiting_inconsistency() const {
    const InverterParameters full = completed();
    if (!limits_by_voltage()) {
        if (limited_current_A != 0.0) {
            return "limited_current_A belongs to the limiting_method \"virtual_impedance\" or "
                   "\"voltage_foldback\"";
        }
    } else if (full.limited_current_A > peak_current_limit_A / std::sqrt(2.0)) {
        return "limited_current_A must be at most peak_current_limit_A / sqrt 2, or the clamp "
               "limits first";
    }
    if (limiting_method != "virtual_impedance") {
        if (virtual_threshold_A != 0.0) {
            return "virtual_threshold_A belongs to the limiting_method \"virtual_impedance\"";
        }
    } else if (full.virtual_threshold_A > 0.9 * full.limited_current_A) {
        return "virtual_threshold_A must be at most 0.9 x limited_current_A";
    }
    return {};
}

std::string_view InverterParameters::overload_inconsistency() const {
    if (overload_law != "inverse_time") {
        if (surge_power_W != 0.0) {
            return "surge_power_W belongs to the overload_law \"inverse_time\"";
        }
        if (surge_time_s != 0.0) {
            return "surge_time_s belongs to the overload_law \"inverse_time\"";
        }
        return {};
    }
    const InverterParameters full = completed();
    if (full.surge_power_W < 1.01 * voltage_V * full.rated_current_A) {
        return "surge_power_W must be at least 1 % above voltage_V x rated_current_A";
    }
    return {};
}

std::string_view InverterParameters::battery_inconsistency() const {
    const InverterParameters full = completed();
    if (!has_battery()) {
        const bool given = battery_voltage_V != 0.0 || battery_resistance_mohm != 0.0 ||
                           battery_minimum_V != 0.0 || battery_protection_A != 0.0 ||
                           battery_short_circuit_A != 0.0;
        return given ? "battery_voltage_V and the battery's other keys need dc_side = \"battery\""
                     : "";
    }
    if (battery_voltage_V == 0.0) {
        return "battery_voltage_V must be given with the dc_side \"battery\"";
    }
    if (battery_voltage_V >= full.bus_voltage_V) {
        return "battery_voltage_V must be below bus_voltage_V: the boost stage only raises it";
    }
    if (full.battery_minimum_V >= battery_voltage_V) {
        return "battery_minimum_V must be below battery_voltage_V";
    }
    if (full.battery_short_circuit_A <= full.battery_protection_A) {
        return "battery_short_circuit_A must be above battery_protection_A";
    }
    if (DcSide::largest_refill_W(full) <= 0.0) {
        return "battery_resistance_mohm leaves the boost stage no power beyond idle_draw_W";
    }
    return {};
}

}  // namespace plant_models
