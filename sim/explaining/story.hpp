// What happened in a start, as a trainer would tell it: sentences, each of which somebody found in
// the recorded run, with its instant and its numbers.
//
// A finder looks at the record for one thing and tells it, or keeps silent. Adding one: its
// function in the file of its subject, its declaration here, its name in story.cpp.
#pragma once

#include <string>
#include <vector>

#include "sim/bench/start_result.hpp"
#include "sim/explaining/start_record.hpp"
#include "sim/scenario/scenario.hpp"

namespace sim {

struct StoryFigure {
    std::string name;  ///< ends in its unit
    double value = 0.0;
};

struct Sentence {
    double time_s = 0.0;
    std::string subject;  ///< "supply", "torque", "rotor", "limiter", "unit", "fault"
    std::string text;     ///< without a full stop
    std::vector<StoryFigure> figures;
};

/// By time.
using Story = std::vector<Sentence>;

/// What a finder may look at.
struct Told {
    const Scenario& scenario;
    const StartRecord& record;
    const StartResult& start;
    double synchronous_rpm = 0.0;
};

Story tell_story(const Scenario& scenario, const StartRecord& record, const StartResult& start);

// ---- supply_story.cpp
void tell_switching_on(const Told& told, Story& story);
void tell_lowest_voltage(const Told& told, Story& story);
void tell_generator(const Told& told, Story& story);
void tell_sag(const Told& told, Story& story);
void tell_supply_trip(const Told& told, Story& story);

// ---- inverter_story.cpp
void tell_current_limit(const Told& told, Story& story);
void tell_bus(const Told& told, Story& story);
void tell_battery(const Told& told, Story& story);

// ---- torque_story.cpp
void tell_standstill_torque(const Told& told, Story& story);
void tell_torque_and_voltage(const Told& told, Story& story);

// ---- rotor_story.cpp
void tell_rotor(const Told& told, Story& story);
void tell_end(const Told& told, Story& story);

// ---- limiter_story.cpp
void tell_controller(const Told& told, Story& story);
void tell_start_capacitor(const Told& told, Story& story);

// ---- unit_story.cpp
void tell_faults(const Told& told, Story& story);
void tell_unit_trips(const Told& told, Story& story);
void tell_drop_outs(const Told& told, Story& story);
void tell_thermistor(const Told& told, Story& story);
void tell_winding_heat(const Told& told, Story& story);

}  // namespace sim
