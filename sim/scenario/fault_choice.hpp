// Table [[fault]]: something that breaks, or somebody's slip, and when. It may be given many times.
//
// A kind is a struct in the list below: its word, what it is in words, what has to be fitted for
// it, and its own keys as a parameter table if it has any. Adding one: its struct here, its place
// in AnyFault, and what it does in sim/faults/fault_effects.cpp. The reader, the key reference, the
// rules of what fits together and the campaigns find it through the list.
//
// What each does to the plant, in equations: plant_models/damage.hpp.
#pragma once

#include <deque>
#include <string_view>
#include <variant>
#include <vector>

#include "plant_models/parameter_table.hpp"
#include "sim/scenario/parameter_keys.hpp"

namespace sim {

/// When a fault is there. It begins and ends at a tick of the controller (100 us).
struct FaultTiming {
    double at_s = 0.0;  ///< since the run began, the first start of a series
    std::string_view when =
        "clock";              ///< or the controller's state; see firmware/sequence/state.hpp
    double after_s = 0.0;     ///< since that state was entered for the first time
    double duration_s = 0.0;  ///< 0: to the end

    bool waits_for_state() const { return when != "clock"; }

    static const plant_models::ParameterTable<FaultTiming>& table();
    static const plant_models::WordTable<FaultTiming>& word_table();
    /// One sentence that says what is wrong between fields that are each in bounds; empty if none.
    std::string_view inconsistency() const;
};

/// What a kind of fault needs to be there.
enum class FaultNeeds { nothing, run_capacitor, limiter, start_capacitor };

template <class F>
using FaultTable = plant_models::ParameterTable<F>;
template <class F>
using FaultWords = plant_models::WordTable<F>;

struct SupplyVoltage {
    static constexpr std::string_view kind = "supply_voltage";
    static constexpr std::string_view meaning = "the supply's voltage changes, at any load";
    static constexpr FaultNeeds needs = FaultNeeds::nothing;
    double to_percent = 0.0;
    static const FaultTable<SupplyVoltage>& table();
};
struct SupplyFrequency {
    static constexpr std::string_view kind = "supply_frequency";
    static constexpr std::string_view meaning =
        "the supply's frequency changes, without a jump of phase; a generator's governor is set so";
    static constexpr FaultNeeds needs = FaultNeeds::nothing;
    double frequency_Hz = 0.0;
    static const FaultTable<SupplyFrequency>& table();
};
struct SupplyChatter {
    static constexpr std::string_view kind = "supply_chatter";
    static constexpr std::string_view meaning =
        "the supply is interrupted and comes back, over and over; or it is away";
    static constexpr FaultNeeds needs = FaultNeeds::nothing;
    double period_ms = 0.0;
    double open_percent = 0.0;
    static const FaultTable<SupplyChatter>& table();
};
struct CallRemoved {
    static constexpr std::string_view kind = "call_removed";
    static constexpr std::string_view meaning = "the thermostat's call goes away";
    static constexpr FaultNeeds needs = FaultNeeds::nothing;
};
struct ControllerUnpowered {
    static constexpr std::string_view kind = "controller_unpowered";
    static constexpr std::string_view meaning =
        "the controller loses its own supply: every output is off at once, what it knew is gone, "
        "and afterwards it powers up anew";
    static constexpr FaultNeeds needs = FaultNeeds::limiter;
};
struct MotorDisconnected {
    static constexpr std::string_view kind = "motor_disconnected";
    static constexpr std::string_view meaning = "R, S and C are all off the motor";
    static constexpr FaultNeeds needs = FaultNeeds::nothing;
};
struct WindingsSwapped {
    static constexpr std::string_view kind = "windings_swapped";
    static constexpr std::string_view meaning =
        "R and S were exchanged when the unit was installed; for the whole run";
    static constexpr FaultNeeds needs = FaultNeeds::nothing;
};
struct RunCapacitorOpen {
    static constexpr std::string_view kind = "run_capacitor_open";
    static constexpr std::string_view meaning = "the run capacitor carries no current any more";
    static constexpr FaultNeeds needs = FaultNeeds::run_capacitor;
};
struct RunCapacitorShorted {
    static constexpr std::string_view kind = "run_capacitor_shorted";
    static constexpr std::string_view meaning = "the run capacitor has broken down";
    static constexpr FaultNeeds needs = FaultNeeds::run_capacitor;
};
struct RotorSeized {
    static constexpr std::string_view kind = "rotor_seized";
    static constexpr std::string_view meaning = "the rotor stands, whatever the torque";
    static constexpr FaultNeeds needs = FaultNeeds::nothing;
};
struct ExtraLoad {
    static constexpr std::string_view kind = "extra_load";
    static constexpr std::string_view meaning =
        "something drags on the shaft, against the motion, and holds it at rest";
    static constexpr FaultNeeds needs = FaultNeeds::nothing;
    double torque_Nm = 0.0;
    static const FaultTable<ExtraLoad>& table();
};
struct BypassWelded {
    static constexpr std::string_view kind = "bypass_welded";
    static constexpr std::string_view meaning = "the bypass contact does not open any more";
    static constexpr FaultNeeds needs = FaultNeeds::limiter;
    std::string_view welds = "at_next_touch";
    static const FaultTable<BypassWelded>& table();
    static const FaultWords<BypassWelded>& word_table();
};
struct BypassStuckOpen {
    static constexpr std::string_view kind = "bypass_stuck_open";
    static constexpr std::string_view meaning = "the bypass contact does not close";
    static constexpr FaultNeeds needs = FaultNeeds::limiter;
};
struct StartContactStuckIn {
    static constexpr std::string_view kind = "start_contact_stuck_in";
    static constexpr std::string_view meaning = "the start capacitor's contact is closed for good";
    static constexpr FaultNeeds needs = FaultNeeds::start_capacitor;
};
struct StartContactStuckOut {
    static constexpr std::string_view kind = "start_contact_stuck_out";
    static constexpr std::string_view meaning = "the start capacitor's contact does not close";
    static constexpr FaultNeeds needs = FaultNeeds::start_capacitor;
};

/// For kinds that name a thyristor of the pair.
struct ThyristorFault {
    std::string_view polarity = "positive";
    bool is_positive() const { return polarity != "negative"; }
    bool is_negative() const { return polarity != "positive"; }
};
struct ThyristorShorted : ThyristorFault {
    static constexpr std::string_view kind = "thyristor_shorted";
    static constexpr std::string_view meaning =
        "a thyristor conducts its half wave without a gate pulse";
    static constexpr FaultNeeds needs = FaultNeeds::limiter;
    static const FaultTable<ThyristorShorted>& table();
    static const FaultWords<ThyristorShorted>& word_table();
};
struct ThyristorDead : ThyristorFault {
    static constexpr std::string_view kind = "thyristor_dead";
    static constexpr std::string_view meaning = "a thyristor takes no gate pulse";
    static constexpr FaultNeeds needs = FaultNeeds::limiter;
    static const FaultTable<ThyristorDead>& table();
    static const FaultWords<ThyristorDead>& word_table();
};

/// For kinds that hold a sensor's reading.
struct SensorFault {
    int counts = -1;  ///< of the converter; below 0: those of the last good sample
};
struct LineVoltageSensorStuck : SensorFault {
    static constexpr std::string_view kind = "line_voltage_sensor_stuck";
    static constexpr std::string_view meaning = "the controller's reading of L1 to C stands still";
    static constexpr FaultNeeds needs = FaultNeeds::limiter;
    static const FaultTable<LineVoltageSensorStuck>& table();
};
struct OutputCurrentSensorStuck : SensorFault {
    static constexpr std::string_view kind = "output_current_sensor_stuck";
    static constexpr std::string_view meaning =
        "the controller's reading of its output's current stands still";
    static constexpr FaultNeeds needs = FaultNeeds::limiter;
    static const FaultTable<OutputCurrentSensorStuck>& table();
};
struct StartTerminalSensorStuck : SensorFault {
    static constexpr std::string_view kind = "start_terminal_sensor_stuck";
    static constexpr std::string_view meaning = "the controller's reading of S to C stands still";
    static constexpr FaultNeeds needs = FaultNeeds::limiter;
    static const FaultTable<StartTerminalSensorStuck>& table();
};

using AnyFault =
    std::variant<SupplyVoltage, SupplyFrequency, SupplyChatter, CallRemoved, ControllerUnpowered,
                 MotorDisconnected, WindingsSwapped, RunCapacitorOpen, RunCapacitorShorted,
                 RotorSeized, ExtraLoad, BypassWelded, BypassStuckOpen, StartContactStuckIn,
                 StartContactStuckOut, ThyristorShorted, ThyristorDead, LineVoltageSensorStuck,
                 OutputCurrentSensorStuck, StartTerminalSensorStuck>;

struct Fault {
    AnyFault what;
    FaultTiming timing;
    int line = 0;  ///< in the scenario's file, for messages

    std::string_view kind() const;
    FaultNeeds needs() const;
    /// Of a part of the limiter, or when its controller does something.
    bool concerns_limiter() const;
};

/// A deque, because the reader fills the last one while the next is not there yet.
using Faults = std::deque<Fault>;

/// The kinds; each one's `begin` appends a fault to `target`.
std::vector<TableKind> fault_kinds(Faults& target);

/// Whether R and S are exchanged.
bool windings_are_swapped(const Faults& faults);

}  // namespace sim
