// What must hold in every tick, whatever has happened before, judged from frames alone: with clocks
// of its own, which know nothing of the controller's.
#pragma once

#include <cstdint>
#include <string>

#include "firmware/controller.hpp"

namespace reachable_states {

class Always {
  public:
    explicit Always(const firmware::Settings& settings) : settings_(&settings) {}

    /// After a tick. The first broken rule is kept; none is looked for after it.
    /// @param store_says_rest_owed asked only when the motor begins to be fed
    template <class StoreSaysRestOwed>
    void look(const firmware::SensorFrame& in, const firmware::ActuatorFrame& out,
              const firmware::Telemetry& told, const firmware::StoreCommand& command,
              StoreSaysRestOwed&& store_says_rest_owed);

    /// The controller has slept, without a call.
    void slept(std::uint32_t ticks, const firmware::Telemetry& told);
    /// Its power has been cut; `told` is what it says before its first tick.
    void lost_power(bool store_damaged, const firmware::Telemetry& told);

    const std::string& broken() const { return broken_; }

    // For the explorer's classes of time.
    std::uint32_t ticks_in_state() const { return in_state_; }
    std::uint32_t ticks_since_fed() const { return since_fed_; }
    std::uint32_t ticks_without_call() const { return call_away_; }
    std::uint32_t ticks_of_start_capacitor() const { return capacitor_in_; }
    std::uint32_t rest_ticks() const;

  private:
    void frame_is_legal(const firmware::SensorFrame& in, const firmware::ActuatorFrame& out);
    void contacts_keep_their_times(const firmware::ActuatorFrame& out,
                                   const firmware::Telemetry& told);
    void gate_keeps_its_angles(const firmware::ActuatorFrame& out, const firmware::Telemetry& told);
    void states_follow_each_other(const firmware::Telemetry& told, bool call);
    void start_is_allowed(const firmware::Telemetry& told, bool store_says_rest_owed);
    void demand(bool holds, const char* rule);

    const firmware::Settings* settings_;
    std::string broken_;
    firmware::State state_ = firmware::State::resting;
    std::uint8_t tries_ = 0;
    std::uint8_t tries_written_ = 0;  // the store has had time for them
    std::uint32_t tries_stand_ = 0;   // ticks, while not fed
    std::uint8_t stage_ = 0;
    bool fed_ = false;
    std::uint32_t in_state_ = 0;
    std::uint32_t since_fed_ = 0xFFFFFFFFU;  // nothing is known of the time before
    std::uint32_t call_away_ = 0;
    std::uint32_t capacitor_in_ = 0;
    std::uint32_t since_capacitor_ = 0xFFFFFFFFU;
    std::uint32_t bypass_in_ = 0;
};

template <class StoreSaysRestOwed>
void Always::look(const firmware::SensorFrame& in, const firmware::ActuatorFrame& out,
                  const firmware::Telemetry& told, const firmware::StoreCommand& command,
                  StoreSaysRestOwed&& store_says_rest_owed) {
    if (!broken_.empty()) {
        return;
    }
    const bool call = in.version == firmware::frame_version && in.call_for_cooling == 1;
    call_away_ = call ? 0 : call_away_ + 1;
    frame_is_legal(in, out);
    demand(command.kind == firmware::StoreCommandKind::none || out.contactor_permit == 0,
           "ME-04: the store is touched while the motor is fed");
    if (out.contactor_permit == 1 && !fed_) {
        start_is_allowed(told, store_says_rest_owed());
    }
    states_follow_each_other(told, call);
    contacts_keep_their_times(out, told);
    gate_keeps_its_angles(out, told);
}

}  // namespace reachable_states
