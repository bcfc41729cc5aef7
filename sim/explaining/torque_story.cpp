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

/// The time for which the rotor stood, or the cycle of it with the most torque.
struct Standing {
    double begin_s = 0.0;
    double standing_s = 0.0;
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

using Row = const HalfCycle*;

Standing mean_over(const Told& told, const std::vector<Row>& rows) {
    Standing standing;
    standing.begin_s = rows.front()->begin_s;
    double voltage_square = 0.0;
    const auto count = static_cast<double>(rows.size());
    for (const Row row : rows) {
        standing.standing_s += row->end_s - row->begin_s;
        standing.torque_Nm += row->torque_mean_Nm / count;
        standing.gas_Nm += row->load_torque_mean_Nm / count;
        voltage_square += row->line_voltage_rms_V * row->line_voltage_rms_V / count;
        standing.friction_Nm += static_friction_Nm(told, *row) / count;
    }
    standing.voltage_V = std::sqrt(voltage_square);
    return standing;
}

/// All of it in a direct start; through a limiter, whose stages differ, the strongest cycle. None
/// if it came up, or if it moved for most of the time that it was fed.
std::optional<Standing> standing_of(const Told& told) {
    const SwitchedAt* on = told.record.first(Switched::line_on);
    if (on == nullptr || told.start.figures.time_to_speed_s) {
        return std::nullopt;
    }
    std::vector<Row> rows;
    std::size_t fed = 0;
    for (const HalfCycle& row : told.record.half_cycles()) {
        const bool counts = row.connected_share == 1.0 && !row.tripped && row.begin_s >= on->time_s;
        fed += counts ? 1 : 0;
        if (counts && row.begin_s >= on->time_s + after_switching_s && stands(told, row)) {
            rows.push_back(&row);
        }
    }
    if (rows.size() < 2 || 2 * rows.size() < fed) {
        return std::nullopt;
    }
    if (!told.start.has_limiter) {
        return mean_over(told, rows);
    }
    Standing best = mean_over(told, {rows[0], rows[1]});
    for (std::size_t k = 2; k < rows.size(); ++k) {
        const Standing now = mean_over(told, {rows[k - 1], rows[k]});
        best = now.torque_Nm > best.torque_Nm ? now : best;
    }
    return best;
}

bool was_seized(const Told& told) {
    return std::any_of(
        told.scenario.faults.begin(), told.scenario.faults.end(),
        [](const Fault& fault) { return std::holds_alternative<RotorSeized>(fault.what); });
}

bool has_plain_connection(const Told& told) {
    return !told.start.has_limiter && told.scenario.faults.empty() &&
           std::holds_alternative<plant_models::NoStartAid>(told.scenario.unit.start_aid) &&
           told.scenario.motor.run_capacitor_uF > 0.0;
}

}  // namespace

void tell_standstill_torque(const Told& told, Story& story) {
    const std::optional<Standing> standing = standing_of(told);
    if (!standing) {
        return;
    }
    if (was_seized(told)) {
        story.push_back({standing->begin_s,
                         "torque",
                         fmt::format("the motor makes {:.2f} Nm, and a seized rotor stands against "
                                     "any torque",
                                     standing->torque_Nm),
                         {{"motor_torque_Nm", standing->torque_Nm}}});
        return;
    }
    // Gas that pushes forwards helps; what must be overcome is never less than nothing.
    const bool gas_counts =
        !std::holds_alternative<plant_models::PolynomialLoadParameters>(told.scenario.load) &&
        standing->gas_Nm > noticeable_gas_Nm;
    const double needed_Nm = standing->friction_Nm + (gas_counts ? standing->gas_Nm : 0.0);
    std::string text =
        told.start.has_limiter
            ? fmt::format(
                  "the standing rotor gets its most torque: {:.2f} Nm, averaged over a "
                  "cycle; to break away it needs {:.2f} Nm",
                  standing->torque_Nm, needed_Nm)
            : fmt::format(
                  "the rotor stands, for {:.2f} s in all; the motor makes {:.2f} Nm on "
                  "average meanwhile, and to break away it needs {:.2f} Nm",
                  standing->standing_s, standing->torque_Nm, needed_Nm);
    std::vector<StoryFigure> figures{{"motor_torque_Nm", standing->torque_Nm},
                                     {"needed_torque_Nm", needed_Nm},
                                     {"static_friction_Nm", standing->friction_Nm}};
    if (!told.start.has_limiter) {
        figures.push_back({"standing_s", standing->standing_s});
    }
    if (gas_counts) {
        text += fmt::format(", {:.2f} Nm of friction and {:.2f} Nm against the gas",
                            standing->friction_Nm, standing->gas_Nm);
        figures.push_back({"gas_torque_Nm", standing->gas_Nm});
    }
    story.push_back({standing->begin_s, "torque", text, figures});
}

void tell_torque_and_voltage(const Told& told, Story& story) {
    const std::optional<Standing> standing = standing_of(told);
    if (!standing || !has_plain_connection(told)) {
        return;
    }
    const double full_Nm = motor_curves(told.scenario, {}).locked_rotor.torque_Nm;
    const double rated_V = told.scenario.motor.rated_voltage_V;
    const double square = standing->voltage_V * standing->voltage_V / (rated_V * rated_V);
    story.push_back(
        {standing->begin_s,
         "torque",
         fmt::format(
             "with its rotor locked it makes {:.2f} Nm at its rated {:.0f} V; here the line has "
             "{:.0f} V, and torque goes with the square of the voltage: {:.2f} times {:.2f} Nm is "
             "{:.2f} Nm",
             full_Nm, rated_V, standing->voltage_V, square, full_Nm, square * full_Nm),
         {{"locked_rotor_torque_at_rated_voltage_Nm", full_Nm},
          {"rated_voltage_V", rated_V},
          {"line_voltage_rms_V", standing->voltage_V},
          {"voltage_share_squared", square},
          {"torque_by_square_Nm", square * full_Nm}}});
}

}  // namespace sim
