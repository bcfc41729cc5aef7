#include "library_plates.hpp"

#include <algorithm>
#include <cmath>

#include "plant_models/numeric/units.hpp"
#include "sim/bench/library_overview.hpp"
#include "sim/bench/start_run.hpp"
#include "sim/library/library.hpp"
#include "sim/scenario/scenario_reader.hpp"

namespace published {

// The published nameplates of 208/230 V 60 Hz units: 3 ton 17.6 / 90 and 16.2 / 96, 4 ton 23.6 /
// 120 and 23.3 / 118, 5 ton 30.8 / 141 A (seen). All other nameplates are invented.
const std::vector<Plate>& published_plates() {
    static const std::vector<Plate> plates = {
        {"outdoor_3_ton_scroll", 17.6, 90, 0, ' ', 3},
        {"outdoor_3_ton_reciprocating", 16.2, 96, 0, ' ', 3},
        {"outdoor_4_ton_scroll", 23.6, 120, 0, ' ', 4},
        {"outdoor_4_ton_scroll_r22", 23.3, 118, 0, ' ', 4},
        {"outdoor_5_ton_scroll", 30.8, 141, 0, ' ', 5},
    };
    return plates;
}

const std::vector<Plate>& invented_plates() {
    static const std::vector<Plate> plates = {
        {"small_refrigerator_115v_60hz", 2.6, 14, 1.0 / 6.0, 'L', 0},            // 9.66 kVA/hp
        {"reach_in_cooler_115v_60hz", 3.4, 20, 1.0 / 3.0, 'H', 0},               // 6.90
        {"dehumidifier_115v_60hz", 5.0, 26, 0.5, 'G', 0},                        // 5.98
        {"window_unit_115v_60hz", 8.4, 42, 1.0, 'E', 0},                         // 4.83
        {"old_outdoor_3_5_ton_r22", 18.0, 95, 4.5, 'E', 3.5},                    // 4.86
        {"walk_in_freezer_230v_60hz", 8.6, 48, 2.0, 'F', 0},                     // 5.52
        {"small_refrigerator_230v_50hz", 1.1, 6.2, 110 / watts_per_hp, 'L', 0},  // 9.67
        {"display_case_230v_50hz", 2.9, 14, 460 / watts_per_hp, 'F', 0},         // 5.22
        {"cold_room_230v_50hz", 6.2, 28, 1100 / watts_per_hp, 'D', 0},           // 4.37
        {"milk_cooler_240v_50hz", 8.4, 43, 1500 / watts_per_hp, 'F', 0},         // 5.13
        {"outdoor_1_5_ton_rotary", 9.0, 46, 0, ' ', 1.5},
        {"outdoor_2_ton_scroll", 11.8, 60, 0, ' ', 2},
        {"outdoor_2_5_ton_scroll", 14.4, 75, 0, ' ', 2.5},
        {"split_unit_230v_50hz", 5.2, 25, 0, ' ', 3500 / watts_per_ton},
        {"split_unit_twin_rotary_230v_50hz", 10.4, 52, 0, ' ', 7000 / watts_per_ton},
        {"heat_pump_scroll_230v_50hz", 14.5, 72, 0, ' ', 9000 / watts_per_ton},
    };
    return plates;
}

std::vector<Plate> all_plates() {
    std::vector<Plate> all = published_plates();
    all.insert(all.end(), invented_plates().begin(), invented_plates().end());
    return all;
}

sim::Scenario unit_named(std::string_view name) {
    return sim::parse_library_entry(*sim::find_entry(sim::library_compressors(), name));
}

double locked_rotor_A(std::string_view name) {
    const auto rows = sim::overview_of_compressors();
    return std::find_if(rows.begin(), rows.end(),
                        [name](const auto& row) { return row.name == name; })
        ->locked_rotor_A;
}

RatedRun run_at_rating(std::string_view name) {
    sim::Scenario scenario = unit_named(name);
    const plant_models::MotorParameters& motor = scenario.motor;
    scenario.conditions.ambient_C = scenario.refrigerant.rated_ambient_C;
    scenario.conditions.rest_s = 0.0;
    plant_models::GridParameters mains;
    mains.voltage_V = motor.rated_voltage_V;
    mains.frequency_Hz = motor.rated_frequency_Hz;
    mains.phase_deg = 90.0;
    scenario.source = mains;
    scenario.limiter = sim::NoLimiter{};
    scenario.run.duration_s = 2.5;
    scenario.run.initial_speed_rpm =
        plant_models::rad_per_s_to_rpm(motor.synchronous_speed_rad_per_s(motor.rated_frequency_Hz));

    const sim::StartResult result = sim::run_start(scenario);
    double square_A2 = 0.0;
    double speed_rpm = 0.0;
    int count = 0;
    for (const sim::CoursePoint& point : result.course) {
        if (point.time_s > scenario.run.duration_s - 1.0) {
            square_A2 += point.line_current_rms_A * point.line_current_rms_A;
            speed_rpm += point.speed_rpm;
            ++count;
        }
    }
    return {std::sqrt(square_A2 / count), speed_rpm / count, result.outcome};
}

}  // namespace published
