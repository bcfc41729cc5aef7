#include "sim/faults/fault_schedule.hpp"

#include <algorithm>
#include <limits>
#include <string>
#include <string_view>
#include <variant>

#include "firmware/contract/frames.hpp"
#include "sim/timeline/tick.hpp"

namespace sim {

namespace {

constexpr std::int64_t never_tick = std::numeric_limits<std::int64_t>::max();

std::int64_t after(std::int64_t begin, double duration_s) {
    return duration_s > 0.0 ? begin + to_ticks(duration_s) : never_tick;
}

/// A state's name as scenarios write it: `handing_over` for "handing over".
bool is_named(firmware::State state, std::string_view word) {
    const std::string_view name = firmware::name_of(state);
    return std::equal(name.begin(), name.end(), word.begin(), word.end(),
                      [](char in_name, char in_word) {
                          return in_name == in_word || (in_name == ' ' && in_word == '_');
                      });
}

}  // namespace

FaultSchedule::FaultSchedule(const Faults& faults, double supply_Hz) : supply_Hz_(supply_Hz) {
    for (const Fault& fault : faults) {
        const bool waits = fault.timing.waits_for_state();
        const std::int64_t begin = waits ? never_tick : to_ticks(fault.timing.at_s);
        windows_.push_back(
            {fault, begin, waits ? never_tick : after(begin, fault.timing.duration_s), waits});
    }
}

bool FaultSchedule::advance(std::int64_t tick, const firmware::Telemetry* controller) {
    bool begins_or_ends = false;
    bool chatters = false;
    for (Window& window : windows_) {
        if (window.waits && controller != nullptr &&
            is_named(controller->state, window.fault.timing.when)) {
            window.waits = false;
            window.begin = tick + to_ticks(window.fault.timing.after_s);
            window.end = after(window.begin, window.fault.timing.duration_s);
        }
        const bool is_there = tick >= window.begin && tick < window.end;
        begins_or_ends = begins_or_ends || is_there != window.is_there;
        chatters =
            chatters || (is_there && std::holds_alternative<SupplyChatter>(window.fault.what));
        window.is_there = is_there;
    }
    if (!begins_or_ends && !chatters) {
        return false;
    }
    const bool interrupted = effects_.damage.supply_interrupted;
    effects_ = {};
    for (const Window& window : windows_) {
        if (window.is_there) {
            const double elapsed_s =
                static_cast<double>(tick - window.begin) / firmware::ticks_per_second;
            add_effect(window.fault, {elapsed_s, supply_Hz_}, effects_);
        }
    }
    return begins_or_ends || effects_.damage.supply_interrupted != interrupted;
}

}  // namespace sim
