// What torque the motor made while it stood, and what it would have taken to break away.
//
// The motor's torque pulsates at twice the line's frequency; what counts is its mean over a cycle
// (two half cycles). Static friction is the load's and the bearings', with the oil as thick as it
// was; gas torque is what the run's own pressures pressed back with.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <variant>

#include "plant_models/motor/steady_state.hpp"
#include "plant_models/numeric/units.hpp"
#include "plant_models/unit/oil_viscosity.hpp"
#include "sim/bench/motor_curves.hpp"
#include "sim/explaining/story.hpp"

namespace sim {

namespace {

/// Slower than this, a rotor counts as standing.
constexpr double standing_share = 0.02;
/// The switching transient of the first cycles is no torque that lasts.
constexpr double after_switching_s = 0.05;
constexpr double noticeable_gas_Nm = 0.01;

/// A cycle with the rotor standing.
struct Standing {
    double end_s = 0.0;
    double torque_Nm = 0.0;
    double gas_Nm = 0.0;
    double voltage_V = 0.0;
    double friction_Nm = 0.0;
};

double static_friction_Nm(const Told& told, const HalfCycle& row) {
    const Scenario& scenario = told.scenario;
    const auto shell = told.record.channel("shell_C");
    const double drag = shell ? plant_models::oil_drag_factor(row.channels[*shell].mean) : 1.0;
    const double load_Nm = std::visit(
        [&](const auto& parameters) {
            const auto load =
                plant_models::load_model(parameters, scenario.refrigerant, scenario.conditions);
            const auto state = load.initial_state();
            return load.breakaway_torque_Nm(state.data(), drag);
        },
        scenario.load);
    double extra_Nm = 0.0;
    for (const Fault& fault : scenario.faults) {
        const auto* extra = std::get_if<ExtraLoad>(&fault.what);
        const double end_s = fault.timing.at_s + fault.timing.duration_s;
        const bool is_there = extra != nullptr && !fault.timing.waits_for_state() &&
                              row.begin_s >= fault.timing.at_s &&
                              (fault.timing.duration_s == 0.0 || row.end_s <= end_s);
        extra_Nm += is_there ? extra->torque_Nm : 0.0;
    }
    const double rated_rad_per_s =
        scenario.motor.synchronous_speed_rad_per_s(scenario.motor.rated_frequency_Hz);
    return load_Nm + extra_Nm + scenario.motor.friction_loss_W / rated_rad_per_s;
}

bool stands(const Told& told, const HalfCycle& row) {
    const double limit_rpm = standing_share * told.synchronous_rpm;
    return row.connected_share == 1.0 && !row.tripped &&
           std::max(std::abs(row.speed_lowest_rpm), std::abs(row.speed_highest_rpm)) < limit_rpm;
}

/// The cycle in which a standing rotor got the most torque; none if it never stood for so long.
std::optional<Standing> strongest_standing(const Told& told) {
    const SwitchedAt* on = told.record.first(Switched::line_on);
    if (on == nullptr) {
        return std::nullopt;
    }
    const auto& rows = told.record.half_cycles();
    std::optional<Standing> best;
    for (std::size_t k = 1; k < rows.size(); ++k) {
        const HalfCycle& one = rows[k - 1];
        const HalfCycle& other = rows[k];
        if (!stands(told, one) || !stands(told, other) ||
            one.begin_s < on->time_s + after_switching_s) {
            continue;
        }
        const double torque_Nm = 0.5 * (one.torque_mean_Nm + other.torque_mean_Nm);
        if (!best || torque_Nm > best->torque_Nm) {
            best = Standing{other.end_s, torque_Nm,
                            0.5 * (one.load_torque_mean_Nm + other.load_torque_mean_Nm),
                            std::sqrt(0.5 * (one.line_voltage_rms_V * one.line_voltage_rms_V +
                                             other.line_voltage_rms_V * other.line_voltage_rms_V)),
                            static_friction_Nm(told, other)};
        }
    }
    return best;
}

bool has_plain_connection(const Told& told) {
    return !told.start.has_limiter && told.scenario.faults.empty() &&
           std::holds_alternative<plant_models::NoStartAid>(told.scenario.unit.start_aid) &&
           told.scenario.motor.run_capacitor_uF > 0.0;
}

}  // namespace

void tell_standstill_torque(const Told& told, Story& story) {
    const std::optional<Standing> standing = strongest_standing(told);
    if (!standing) {
        return;
    }
    // Gas that pushes forwards helps; what must be overcome is never less than nothing.
    const bool gas_counts =
        !std::holds_alternative<plant_models::PolynomialLoadParameters>(told.scenario.load) &&
        standing->gas_Nm > noticeable_gas_Nm;
    const double needed_Nm = standing->friction_Nm + (gas_counts ? standing->gas_Nm : 0.0);
    std::string text = fmt::format(
        "the standing rotor gets its most torque: {:.2f} Nm, averaged "
        "over a cycle; to break away it needs {:.2f} Nm",
        standing->torque_Nm, needed_Nm);
    std::vector<Figure> figures{{"motor_torque_Nm", standing->torque_Nm},
                                {"needed_torque_Nm", needed_Nm},
                                {"static_friction_Nm", standing->friction_Nm}};
    if (gas_counts) {
        text += fmt::format(", {:.2f} Nm of friction and {:.2f} Nm against the gas",
                            standing->friction_Nm, standing->gas_Nm);
        figures.push_back({"gas_torque_Nm", standing->gas_Nm});
    }
    story.push_back({standing->end_s, "torque", text, figures});
}

void tell_torque_and_voltage(const Told& told, Story& story) {
    const std::optional<Standing> standing = strongest_standing(told);
    if (!standing || !has_plain_connection(told)) {
        return;
    }
    const double full_Nm = motor_curves(told.scenario, {}).locked_rotor.torque_Nm;
    const double rated_V = told.scenario.motor.rated_voltage_V;
    const double square = standing->voltage_V * standing->voltage_V / (rated_V * rated_V);
    story.push_back(
        {standing->end_s,
         "torque",
         fmt::format(
             "at its rated {:.0f} V it would make {:.2f} Nm with the rotor locked; the line "
             "has {:.0f} V now, and torque goes with the square of it: {:.2f} of {:.2f} Nm "
             "is {:.2f} Nm",
             rated_V, full_Nm, standing->voltage_V, square, full_Nm, square * full_Nm),
         {{"locked_rotor_torque_at_rated_voltage_Nm", full_Nm},
          {"line_voltage_rms_V", standing->voltage_V},
          {"voltage_share_squared", square},
          {"torque_by_square_Nm", square * full_Nm}}});
}

}  // namespace sim
