#include "sim/explaining/story.hpp"

#include <algorithm>

namespace sim {

namespace {

using Finder = void (*)(const Told&, Story&);

/// Sentences of the same instant stand in this order.
constexpr Finder finders[] = {
    tell_faults,
    tell_switching_on,
    tell_thermistor,
    tell_sag,
    tell_current_limit,
    tell_lowest_voltage,
    tell_bus,
    tell_battery,
    tell_generator,
    tell_standstill_torque,
    tell_torque_and_voltage,
    tell_controller,
    tell_start_capacitor,
    tell_rotor,
    tell_drop_outs,
    tell_unit_trips,
    tell_winding_heat,
    tell_supply_trip,
    tell_end,
};

}  // namespace

Story tell_story(const Scenario& scenario, const StartRecord& record, const StartResult& start) {
    const Told told{scenario, record, start, start.synchronous_speed_rpm};
    Story story;
    for (const Finder find : finders) {
        find(told, story);
    }
    std::stable_sort(story.begin(), story.end(), [](const Sentence& one, const Sentence& other) {
        return one.time_s < other.time_s;
    });
    return story;
}

}  // namespace sim
