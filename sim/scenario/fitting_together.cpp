#include "sim/scenario/fitting_together.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <variant>

#include "plant_models/numeric/units.hpp"
#include "sim/files/input_error.hpp"

namespace sim {

std::string misfit_of_fault(const Fault& fault, const Scenario& scenario) {
    const auto* limiter = parts_of(scenario.limiter);
    const std::string it = fmt::format("\"{}\"", fault.kind());
    if (fault.timing.waits_for_state() && limiter == nullptr) {
        return fmt::format(
            "without a limiter no controller is ever \"{}\"; give at_s, or a limiter",
            fault.timing.when);
    }
    if (fault.concerns_limiter() && limiter == nullptr) {
        return it + " is a fault of a limiter; give a [limiter] that is not \"none\"";
    }
    if (fault.needs() == FaultNeeds::start_capacitor && limiter->start_capacitor_uF == 0.0) {
        return it + " needs a start capacitor; give [limiter] start_capacitor_uF above 0";
    }
    const bool is_run_capacitors = fault.needs() == FaultNeeds::run_capacitor;
    if (is_run_capacitors && scenario.motor.run_capacitor_uF == 0.0) {
        return it + " needs a run capacitor; give [motor] run_capacitor_uF of at least 0.5";
    }
    const bool has_aid = !std::holds_alternative<plant_models::NoStartAid>(scenario.unit.start_aid);
    const bool is_at_aid = is_run_capacitors || std::holds_alternative<WindingsSwapped>(fault.what);
    if (has_aid && is_at_aid) {
        return it + " beside a start aid is not modelled; give [start_aid] kind = \"none\"";
    }
    return {};
}

namespace {

/// A motor's own iron bears a little more; beyond this the missing saturation would show.
constexpr double most_frequency_difference_Hz = 2.5;

[[noreturn]] void refuse(const KeyLocator& where, const std::string& table, const std::string& key,
                         const std::string& fault) {
    const TablePlace place = where(table, key);
    throw InputError(place.file, place.line, table + "." + key, fault);
}

void check_start_aid(const Scenario& scenario, const KeyLocator& where) {
    using namespace plant_models;
    const auto* limiter = parts_of(scenario.limiter);
    const bool has_aid = !std::holds_alternative<NoStartAid>(scenario.unit.start_aid);
    const bool has_thermistor =
        std::holds_alternative<ThermistorParameters>(scenario.unit.start_aid);
    if (has_aid && limiter != nullptr) {
        refuse(where, "start_aid", "kind",
               "a limiter replaces every other start aid; give [start_aid] kind = \"none\", or "
               "[limiter] kind = \"none\"");
    }
    const bool fed_otherwise =
        has_thermistor || (limiter != nullptr && limiter->start_capacitor_uF > 0.0);
    if (scenario.motor.run_capacitor_uF == 0.0 && !fed_otherwise) {
        refuse(
            where, "motor", "run_capacitor_uF",
            "without a run capacitor nothing feeds the auxiliary winding; give at least 0.5, or a "
            "[start_aid] of kind \"thermistor\"");
    }
}

void check_frequency(const Scenario& scenario, const KeyLocator& where) {
    const double supply_Hz = nominal_frequency_Hz(scenario.source);
    if (std::abs(supply_Hz - scenario.motor.rated_frequency_Hz) > most_frequency_difference_Hz) {
        refuse(where, "source", "frequency_Hz",
               fmt::format("{:g} Hz does not fit a motor rated at {:g} Hz; give a frequency within "
                           "{:g} Hz of it (saturation, which another frequency brings, is not "
                           "modelled)",
                           supply_Hz, scenario.motor.rated_frequency_Hz,
                           most_frequency_difference_Hz));
    }
}

void check_refrigerant(const Scenario& scenario, const KeyLocator& where) {
    const bool has_gas =
        !std::holds_alternative<plant_models::PolynomialLoadParameters>(scenario.load);
    const TablePlace place = where("refrigerant", "");
    if (!has_gas && place.line > 0) {
        throw InputError(place.file, place.line, "refrigerant",
                         "a load of kind \"polynomial\" pumps nothing; leave [refrigerant] out, or "
                         "give a compressor as [load]");
    }
}

/// What a compressor's size and the refrigerant's pressures say only together.
template <class Load>
void check_compression(const Load& load, const Scenario& scenario, const KeyLocator& where) {
    const std::string_view fault = load.inconsistency_with(scenario.refrigerant);
    if (!fault.empty()) {
        const TablePlace place = where("load", "");
        throw InputError(place.file, place.line, "load", std::string(fault));
    }
}
void check_compression(const plant_models::PolynomialLoadParameters&, const Scenario&,
                       const KeyLocator&) {}
void check_compression(const plant_models::ScrollParameters&, const Scenario&, const KeyLocator&) {}

/// A drag that would stop the rotor within microseconds at its own synchronous speed is a slip of
/// the pen, and no step could follow it.
void check_drag(const Scenario& scenario, const KeyLocator& where) {
    constexpr double fastest_per_s = 5e4;
    const auto* load = std::get_if<plant_models::PolynomialLoadParameters>(&scenario.load);
    if (load == nullptr) {
        return;
    }
    const double synchronous =
        scenario.motor.synchronous_speed_rad_per_s(scenario.motor.rated_frequency_Hz);
    const double initial = std::abs(plant_models::rpm_to_rad_per_s(scenario.run.initial_speed_rpm));
    const double reference = plant_models::rpm_to_rad_per_s(load->reference_speed_rpm);
    const double slope_Nm_s =
        2.0 * load->square_torque_Nm * std::max(synchronous, initial) / (reference * reference);
    if (slope_Nm_s > fastest_per_s * scenario.motor.inertia_kg_m2) {
        const TablePlace place = where("load", "square_torque_Nm");
        throw InputError(place.file, place.line, "load",
                         "square_torque_Nm at this reference_speed_rpm would stop the rotor within "
                         "microseconds at the motor's speed; give less drag or a higher "
                         "reference_speed_rpm");
    }
}

void check_faults(const Scenario& scenario, const KeyLocator& where) {
    for (const Fault& fault : scenario.faults) {
        const std::string problem = misfit_of_fault(fault, scenario);
        if (!problem.empty()) {
            throw InputError(where("fault", "").file, fault.line, "fault.kind", problem);
        }
    }
}

}  // namespace

std::vector<std::string> check_fits_together(const Scenario& scenario, const KeyLocator& where) {
    check_start_aid(scenario, where);
    check_frequency(scenario, where);
    check_refrigerant(scenario, where);
    check_drag(scenario, where);
    check_faults(scenario, where);
    std::visit([&](const auto& load) { check_compression(load, scenario, where); }, scenario.load);
    std::vector<std::string> warnings;
    const double share = nominal_voltage_V(scenario.source) / scenario.motor.rated_voltage_V;
    if (share < 0.8 || share > 1.2) {
        warnings.push_back(fmt::format(
            "the supply's {:.0f} V is {:.0f} % of the motor's rated {:.0f} V",
            nominal_voltage_V(scenario.source), 100.0 * share, scenario.motor.rated_voltage_V));
    }
    return warnings;
}

void check_change(const Scenario& scenario, const ScenarioChange& change) {
    const bool follows_the_line =
        std::holds_alternative<plant_models::GridParameters>(scenario.source) ||
        std::holds_alternative<plant_models::SplitPhaseParameters>(scenario.source);
    if (change.line_voltage_factor && !follows_the_line) {
        throw InputError(change.file, change.line, "change.line_voltage_factor",
                         "this [source] holds its voltage by itself; give the factor with a source "
                         "of kind \"grid\" or \"split_phase\"");
    }
    const bool ages = change.run_capacitor_factor || change.run_capacitor_factor_per_start;
    if (ages && change.compressor == nullptr && scenario.motor.run_capacitor_uF == 0.0) {
        throw InputError(change.file, change.line, "change",
                         "run_capacitor_factor of a motor without a run capacitor changes nothing; "
                         "leave it out");
    }
}

std::string_view fitting_rules() {
    return R"(Refused together, because the model could not answer honestly
  a motor and a supply more than 2.5 Hz apart
      the iron would saturate, and saturation is not modelled
  a [start_aid] beside a limiter
      the trade takes the one out when it fits the other
  run_capacitor_uF = 0 with neither a thermistor nor a limiter's start capacitor
      nothing would feed the auxiliary winding
  [refrigerant] for a load of kind "polynomial"
      it pumps nothing
  a drag that would stop the rotor within microseconds
      no step could follow it
  a clearance that swallows the rated pressure ratio
      the compressor could not pump at its own rating
  line_voltage_factor in [[change]] for a source that holds its voltage by itself
      it would be another inverter or generator
  run_capacitor_factor in [[change]] for a motor without a run capacitor
      it would change nothing
  a [[fault]] of a part that is not fitted, or one that waits for a controller where there is none
      it would never be there
  a [[fault]] that waits for a state of a controller from a library that tells none
      it would never be there
  a fault of the run capacitor or of the windings' order beside a [start_aid]
      what the aid does then is not modelled
Warned about ("Beware" in the text, "warnings" in the JSON)
  a supply outside 80 to 120 % of the motor's rated voltage
      it may be just what somebody wants to see
)";
}

}  // namespace sim
