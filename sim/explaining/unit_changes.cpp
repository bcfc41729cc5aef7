// Changes of what is fitted around the motor: its run capacitor, contactor and protection module;
// and a compressor that turns harder.
#include <algorithm>
#include <variant>

#include "plant_models/loads/friction.hpp"
#include "sim/explaining/change_list.hpp"
#include "sim/scenario/scenario_reader.hpp"

namespace sim {

namespace {

/// Half as much again is the most that a motor's auxiliary winding may be asked to bear.
constexpr double largest_run_capacitor = 1.5;
constexpr double smallest_run_capacitor = 0.6;
/// A capacitor is taken out at 90 to 94 % (common practice); one at 30 % has all but failed.
constexpr double most_aged = 0.3;
/// The lowest that IEC 60947-4-1 lets a contactor hold (recalled).
constexpr double lowest_drop_out_percent = 20.0;
constexpr double least_of_module = 0.25;
constexpr double tightest_factor = 10.0;

Changes run_capacitor(const Scenario& scenario, const char* name, const char* what, double factor) {
    if (scenario.motor.run_capacitor_uF <= 0.0) {
        return {};
    }
    Change change;
    change.name = name;
    change.what = what;
    change.unit = "uF";
    change.subject = "run capacitor";
    change.spacing = Spacing::ratio;
    change.given = scenario.motor.run_capacitor_uF;
    change.boldest = factor * change.given;
    change.set = [](Scenario& changed, double value) { changed.motor.run_capacitor_uF = value; };
    return {change};
}

}  // namespace

/// Where the scenario has less than the compressor of the library that it names.
Changes fresh_run_capacitor(const Scenario& scenario) {
    if (scenario.library.compressor == nullptr) {
        return {};
    }
    const double nominal_uF =
        parse_library_entry(*scenario.library.compressor).motor.run_capacitor_uF;
    if (scenario.motor.run_capacitor_uF >= nominal_uF) {
        return {};
    }
    Change change;
    change.name = "fresh_run_capacitor";
    change.what = "a fresh run capacitor";
    change.unit = "uF";
    change.subject = "run capacitor";
    change.spacing = Spacing::steps;
    change.given = scenario.motor.run_capacitor_uF;
    change.boldest = nominal_uF;
    change.steps = {nominal_uF};
    change.set = [](Scenario& changed, double value) { changed.motor.run_capacitor_uF = value; };
    return {change};
}

Changes larger_run_capacitor(const Scenario& scenario) {
    return run_capacitor(scenario, "larger_run_capacitor", "a larger run capacitor",
                         largest_run_capacitor);
}

Changes smaller_run_capacitor(const Scenario& scenario) {
    return run_capacitor(scenario, "smaller_run_capacitor", "a smaller run capacitor",
                         smallest_run_capacitor);
}

Changes aged_run_capacitor(const Scenario& scenario) {
    return run_capacitor(scenario, "aged_run_capacitor", "an aged run capacitor", most_aged);
}

Changes steadier_contactor(const Scenario& scenario) {
    const auto* coil = std::get_if<plant_models::ContactorParameters>(&scenario.unit.contactor);
    if (coil == nullptr || coil->drop_out_percent <= lowest_drop_out_percent) {
        return {};
    }
    Change change;
    change.name = "steadier_contactor";
    change.what = "a contactor that holds to a lower voltage";
    change.unit = "% of its coil's";
    change.subject = "contactor";
    change.spacing = Spacing::ratio;
    change.given = coil->drop_out_percent;
    change.boldest = lowest_drop_out_percent;
    change.set = [](Scenario& changed, double value) {
        std::get<plant_models::ContactorParameters>(changed.unit.contactor).drop_out_percent =
            value;
    };
    return {change};
}

/// Both of its currents in proportion.
Changes module_set_lower(const Scenario& scenario) {
    const auto* module =
        std::get_if<plant_models::ProtectionModuleParameters>(&scenario.unit.protection_module);
    if (module == nullptr) {
        return {};
    }
    Change change;
    change.name = "module_set_lower";
    change.what =
        "a protection module set lower, its start current and with it its running current";
    change.unit = "A";
    change.subject = "protection module";
    change.spacing = Spacing::ratio;
    change.given = module->expected_start_current_A;
    change.boldest = least_of_module * change.given;
    change.set = [given = *module](Scenario& changed, double value) {
        auto& set =
            std::get<plant_models::ProtectionModuleParameters>(changed.unit.protection_module);
        set.expected_start_current_A = value;
        set.running_current_A = given.running_current_A * value / given.expected_start_current_A;
    };
    return {change};
}

/// Worn or dry bearings, a tight piston.
Changes tighter_compressor(const Scenario& scenario) {
    const double given_Nm =
        std::visit([](const auto& load) { return load.breakaway_torque_Nm; }, scenario.load);
    if (given_Nm <= 0.0) {
        return {};
    }
    Change change;
    change.name = "tighter_compressor";
    change.what = "a tighter compressor, friction at rest and dragging";
    change.unit = "Nm to break away";
    change.subject = "friction";
    change.spacing = Spacing::ratio;
    change.given = given_Nm;
    change.boldest = tightest_factor * given_Nm;
    change.set = [given_Nm](Scenario& changed, double value) {
        plant_models::scale_friction(changed.load, value / given_Nm);
    };
    return {change};
}

}  // namespace sim
