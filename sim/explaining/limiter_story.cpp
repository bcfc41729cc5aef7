// What the limiter's controller did, and its start capacitor.
#include <fmt/format.h>

#include <variant>

#include "sim/explaining/reason_words.hpp"
#include "sim/explaining/story.hpp"

namespace sim {

namespace {

using firmware::State;

std::string because(firmware::Reason reason) {
    const std::string_view words = reason_words(reason);
    return words.empty() ? std::string() : fmt::format(": {}", words);
}

Sentence step(const ControllerMoment& now, const std::string& text) {
    return {now.time_s, "limiter", text, {}};
}

Sentence probed(const ControllerMoment& now) {
    const double estimate_A = 1e-3 * now.told.locked_rotor_estimate_mA;
    return {now.time_s,
            "limiter",
            fmt::format("the controller has probed the motor: {:.0f} A with the rotor locked, by "
                        "its reckoning; the ladder begins",
                        estimate_A),
            {{"locked_rotor_estimate_A", estimate_A}}};
}

Sentence next_stage(const ControllerMoment& now, const firmware::Settings* settings) {
    if (settings == nullptr) {
        return {now.time_s,
                "limiter",
                fmt::format("stage {} of the ramp", now.told.stage + 1),
                {{"stage", now.told.stage + 1.0}}};
    }
    const firmware::StageSettings& stage = settings->stages[now.told.stage];
    const double percent = 0.1 * stage.target_permille;
    return {now.time_s,
            "limiter",
            fmt::format("stage {} of the ladder: {:.0f} % of the locked-rotor current",
                        now.told.stage + 1, percent),
            {{"stage", now.told.stage + 1.0}, {"stage_percent", percent}}};
}

/// Somebody else's controller, which says no more than its state and its reason.
void tell_foreign_state(const ControllerMoment* before, const ControllerMoment& now, Story& story) {
    if (before != nullptr) {
        story.push_back(
            step(now, fmt::format("the controller says that it is {}{}",
                                  firmware::name_of(now.told.state), because(now.told.reason))));
    }
}

/// One that says nothing: what its outputs do.
void tell_seen(const ControllerMoment* before, const ControllerMoment& now, Story& story) {
    const SeenDoing was =
        before != nullptr ? before->seen.value_or(SeenDoing::off) : SeenDoing::off;
    const bool fed = was == SeenDoing::feeding || was == SeenDoing::feeding_with_start_capacitor;
    switch (*now.seen) {
        case SeenDoing::off:
            // Where every run begins.
            if (before != nullptr) {
                story.push_back(step(now, "the controller has everything off"));
            }
            return;
        case SeenDoing::feeding:
            story.push_back(
                step(now, fed ? "the controller lets the start capacitor go and feeds on"
                              : "the controller permits the contactor, start capacitor "
                                "and bypass out"));
            return;
        case SeenDoing::feeding_with_start_capacitor:
            story.push_back(step(now, fed ? "the controller puts the start capacitor in"
                                          : "the controller permits the contactor and puts the "
                                            "start capacitor in"));
            return;
        case SeenDoing::bypassed:
            story.push_back(step(now, "the controller closes the bypass"));
            return;
        case SeenDoing::let_go:
            story.push_back(
                step(now, "the controller lets go, though it is called; it gives no reason"));
            return;
        case SeenDoing::failed:
            story.push_back(step(now, "the controller fails; everything is off from here on"));
            return;
    }
}

void tell_step(const ControllerMoment* before, const ControllerMoment& now,
               const firmware::Settings* settings, Story& story) {
    if (now.seen) {
        tell_seen(before, now, story);
        return;
    }
    if (now.tells_only_states) {
        tell_foreign_state(before, now, story);
        return;
    }
    const bool same_state = before != nullptr && before->told.state == now.told.state;
    switch (now.told.state) {
        case State::resting:
            // Where every run begins.
            if (before != nullptr) {
                story.push_back(step(now, "the controller rests" + because(now.told.reason)));
            }
            return;
        case State::listening:
            return;
        case State::probing:
            story.push_back(step(now,
                                 "the controller closes the contactor and probes the motor "
                                 "with a few late pulses"));
            return;
        case State::climbing:
            story.push_back(same_state ? next_stage(now, settings) : probed(now));
            return;
        case State::handing_over:
            story.push_back(step(now,
                                 "the controller takes the rotor for up: start capacitor out, "
                                 "full conduction"));
            return;
        case State::running:
            story.push_back(step(now, "the bypass is in, the controller watches the motor"));
            return;
        case State::backing_off:
            story.push_back(step(now, "the controller lets go" + because(now.told.reason)));
            return;
        case State::locked_out:
            story.push_back(step(now, "the controller locks out, and asks for somebody to come" +
                                          because(now.told.reason)));
            return;
    }
}

}  // namespace

void tell_controller(const Told& told, Story& story) {
    if (std::holds_alternative<NoLimiter>(told.scenario.limiter)) {
        return;
    }
    const firmware::Settings* settings = settings_of(told.scenario.limiter);
    const ControllerMoment* before = nullptr;
    for (const ControllerMoment& now : told.record.controller()) {
        tell_step(before, now, settings, story);
        before = &now;
    }
    if (before != nullptr && !before->seen && before->told.state == State::listening) {
        story.push_back(
            step(*before, "the controller does not begin" + because(before->told.reason)));
    }
}

void tell_start_capacitor(const Told& told, Story& story) {
    const SwitchedAt* in = told.record.first(Switched::start_capacitor_in);
    const SwitchedAt* out = told.record.first(Switched::start_capacitor_out);
    if (in == nullptr || out == nullptr) {
        return;
    }
    story.push_back(
        {out->time_s,
         "limiter",
         fmt::format("the start capacitor is out again, after {:.2f} s", out->time_s - in->time_s),
         {{"start_capacitor_in_s", out->time_s - in->time_s}}});
}

}  // namespace sim
