// The controller of the start limiter: one pure step per tick.
//
// Sensor frame in, actuator frame out; between steps it keeps only its own state. No heap, no
// clock, no input or output, no floating point: the same frames give the same frames on every
// processor. Any sensor frame is legal input, garbage too; every frame that comes out is legal:
// gate window inside the tick, never the bypass together with the start capacitor, neither of them
// nor the gate without the contactor's permit, and nothing at all without a call.
//
// A frame answers the samples of its tick and acts one tick later (gating/output_delay.hpp).
#pragma once

#include "firmware/contract/frames.hpp"
#include "firmware/contract/store.hpp"
#include "firmware/gating/gate_timer.hpp"
#include "firmware/learning/keeper.hpp"
#include "firmware/measurement/line_tracker.hpp"
#include "firmware/measurement/meters.hpp"
#include "firmware/sequence/sequence.hpp"
#include "firmware/settings/settings.hpp"
#include "firmware/telemetry.hpp"

namespace firmware {

class Controller {
  public:
    /// With settings that check() refuses the controller is locked out and never feeds the motor.
    /// `at_power_up`: what the store held; nothing of it is ever taken for a limit.
    explicit Controller(const Settings& settings, const StorePages& at_power_up = erased_store());

    /// One tick. Must be called once per tick, in order, without gaps; only behind a command that
    /// erases a page of the store may ticks be missing, and the line is then sought anew.
    ActuatorFrame step(const SensorFrame& frame);

    /// Sleeps for so many ticks, during all of which there is no call; then `step` goes on. As a
    /// processor would that is woken by its timer: the time counts for rest and tries, nothing is
    /// measured, the outputs are off, and the line has to be found again afterwards. Lasts up to
    /// the 119 hours that a tick count holds; 0 is no sleep at all.
    void rest(Ticks ticks);

    /// As of the last step or rest.
    const Telemetry& telemetry() const { return telemetry_; }
    /// Of the last step: to be carried out, once, before the next one; none after a rest.
    const StoreCommand& store_command() const { return store_command_; }

  private:
    friend class Watch;

    void forget_line();
    void observe(const Samples& samples);
    ActuatorFrame frame_from(const Orders& orders);
    void report(const Orders& orders);

    LineTracker line_tracker_;
    Meters meters_;
    Sequence sequence_;
    GateTimer gate_timer_;
    Keeper keeper_;
    StoreCommand store_command_;
    Observation observation_;
    Telemetry telemetry_;
};

}  // namespace firmware
