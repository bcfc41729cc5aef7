#include "sim/replay/replay.hpp"

#include <array>
#include <utility>
#include <variant>

#include "plant_models/numeric/units.hpp"
#include "sim/actuators/power_stage.hpp"
#include "sim/bench/tick_view.hpp"
#include "sim/controllers/builtin_controller.hpp"
#include "sim/files/bounded_input.hpp"
#include "sim/files/input_error.hpp"

namespace sim {

namespace {

struct FrameField {
    const char* name;
    std::int64_t (*value)(const firmware::ActuatorFrame& frame);
};
using Frame = const firmware::ActuatorFrame&;
constexpr std::array<FrameField, 7> fields = {{
    {"state", [](Frame frame) -> std::int64_t { return frame.status & 0xFFU; }},
    {"reason", [](Frame frame) -> std::int64_t { return frame.status >> 8U; }},
    {"gate_on_us", [](Frame frame) -> std::int64_t { return frame.gate_on_us; }},
    {"gate_off_us", [](Frame frame) -> std::int64_t { return frame.gate_off_us; }},
    {"start_capacitor_contact",
     [](Frame frame) -> std::int64_t { return frame.start_capacitor_contact; }},
    {"bypass_contact", [](Frame frame) -> std::int64_t { return frame.bypass_contact; }},
    {"contactor_permit", [](Frame frame) -> std::int64_t { return frame.contactor_permit; }},
}};

void note_state(std::vector<DecidedState>& states, Frame frame, double time_s) {
    const auto state = static_cast<firmware::State>(frame.status & 0xFFU);
    const auto reason = static_cast<firmware::Reason>(frame.status >> 8U);
    if (states.empty() || states.back().state != state || states.back().reason != reason) {
        states.push_back({time_s, state, reason});
    }
}

class Replay {
  public:
    Replay(ControllerPort& controller, TickObserver* observer)
        : controller_(controller), observer_(observer) {}

    void go_through(const RecordedEvent& event) {
        switch (event.kind) {
            case RecordedEvent::Kind::step:
                step(event);
                break;
            case RecordedEvent::Kind::rest:
                change_power();
                controller_.rest(event.ticks);
                tick_ += event.ticks.count();
                answer_ = firmware::ActuatorFrame{};
                commands_ = PowerCommands{};
                break;
            case RecordedEvent::Kind::power_lost:
            case RecordedEvent::Kind::power_came:
                power_events_.push_back(&event);
                break;
        }
    }

    ReplayResult result;

  private:
    void change_power() {
        for (const RecordedEvent* event : power_events_) {
            if (event->kind == RecordedEvent::Kind::power_came) {
                controller_.power_up();
            } else {
                controller_.lose_power(event->torn, event->seed);
                answer_ = firmware::ActuatorFrame{};
            }
        }
        power_events_.clear();
    }

    /// As the bench does it (sim/timeline/plant_run.hpp): power changes after everybody has looked.
    void step(const RecordedEvent& event) {
        const bool call = event.samples.call_for_cooling != 0;
        show(event.samples, call);
        change_power();
        commands_ = drive(answer_, call);
        answer_ = controller_.step(event.samples);
        compare(event.answer);
        ++result.ticks;
        ++tick_;
    }

    void show(const firmware::SensorFrame& samples, bool call) {
        if (observer_ == nullptr) {
            return;
        }
        no_plant_.time_s = plant_models::to_seconds(tick_ * tick_length);
        TickView view{tick_ * tick_length, no_plant_, commands_, call};
        view.samples = &samples;
        view.controller = &controller_.telemetry();
        view.store = &controller_.store();
        view.answer = &answer_;
        view.port = &controller_;
        observer_->observe(view);
    }

    void compare(Frame recorded) {
        const double time_s = plant_models::to_seconds(tick_ * tick_length);
        note_state(result.then, recorded, time_s);
        note_state(result.now, answer_, time_s);
        for (const FrameField& field : fields) {
            const std::int64_t then = field.value(recorded);
            const std::int64_t now = field.value(answer_);
            if (then == now) {
                continue;
            }
            ++result.different_ticks;
            if (!result.first) {
                result.first = FirstDifference{tick_, field.name, then, now};
            }
            return;
        }
    }

    ControllerPort& controller_;
    TickObserver* observer_;
    plant_models::PlantOutputs no_plant_;
    PowerCommands commands_;
    firmware::ActuatorFrame answer_;
    std::int64_t tick_ = 0;
    std::vector<const RecordedEvent*> power_events_;  ///< since the last tick
};

}  // namespace

std::unique_ptr<ControllerPort> controller_for(const Recording& recording, const std::string& path,
                                               const Scenario* other) {
    const FlashStore store(recording.beginning.store, recording.beginning.page_erase);
    if (other != nullptr) {
        if (std::holds_alternative<NoLimiter>(other->limiter)) {
            throw InputError(other->name, 0, "limiter.kind",
                             "a direct start has no controller to ask; give another kind");
        }
        return make_controller(other->limiter, other->motor, store);
    }
    if (!recording.beginning.settings) {
        throw InputError(input_name(path), 1, "settings",
                         "the recorded controller was not ours; give --settings with a scenario "
                         "whose [limiter] is to be asked");
    }
    auto controller = std::make_unique<BuiltinController>(*recording.beginning.settings, store);
    controller->power_up();
    return controller;
}

ReplayResult replay(const Recording& recording, ControllerPort& controller,
                    TickObserver* observer) {
    Replay run(controller, observer);
    run.result.scenario = recording.beginning.scenario;
    for (const RecordedEvent& event : recording.events) {
        run.go_through(event);
    }
    if (controller.failure()) {
        run.result.failure = controller.failure()->words;
    }
    return std::move(run.result);
}

}  // namespace sim
