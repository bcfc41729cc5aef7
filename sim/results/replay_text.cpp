#include "sim/results/replay_text.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace sim {

namespace {

constexpr std::size_t most_rows = 40;
constexpr std::size_t column_width = 46;

bool is_same(const DecidedState& one, const DecidedState& other) {
    return one.time_s == other.time_s && one.state == other.state && one.reason == other.reason;
}

std::string cell(const DecidedState* state) {
    if (state == nullptr) {
        return {};
    }
    const bool has_reason = state->reason != firmware::Reason::none;
    return fmt::format("{:10.4f} s  {}{}{}", state->time_s, firmware::name_of(state->state),
                       has_reason ? ", " : "", has_reason ? firmware::name_of(state->reason) : "");
}

/// Both columns in the order of time, what happened at the same time side by side.
std::string state_table(const ReplayResult& result) {
    std::string text = fmt::format("    {:<{}}{}\n", "     THEN", column_width, "     NOW");
    auto then = result.then.begin();
    auto now = result.now.begin();
    std::size_t rows = 0;
    while (then != result.then.end() || now != result.now.end()) {
        if (++rows > most_rows) {
            return text + "    and so on; --json holds all of them\n";
        }
        const bool has_then =
            then != result.then.end() && (now == result.now.end() || then->time_s <= now->time_s);
        const bool has_now =
            now != result.now.end() && (then == result.then.end() || now->time_s <= then->time_s);
        const bool differs = !has_then || !has_now || !is_same(*then, *now);
        text +=
            fmt::format("  {} {:<{}}{}\n", differs ? '!' : ' ', cell(has_then ? &*then : nullptr),
                        column_width, cell(has_now ? &*now : nullptr));
        then += has_then ? 1 : 0;
        now += has_now ? 1 : 0;
    }
    return text;
}

std::string shown(const std::string& field, std::int64_t value) {
    const auto number = static_cast<std::uint8_t>(value);
    if (field == "state" && value < firmware::state_count) {
        return firmware::name_of(static_cast<firmware::State>(number));
    }
    if (field == "reason" && value < firmware::reason_count) {
        return firmware::name_of(static_cast<firmware::Reason>(number));
    }
    return fmt::format("{}", value);
}

}  // namespace

std::string replay_verdict(const ReplayResult& result) {
    if (!result.failure.empty()) {
        return fmt::format("{}: {}\n", result.scenario, result.failure);
    }
    if (result.is_same()) {
        return fmt::format("{}: the same decisions in all {} ticks\n", result.scenario,
                           result.ticks);
    }
    return fmt::format("{}: other decisions in {} of {} ticks\n", result.scenario,
                       result.different_ticks, result.ticks);
}

std::string replay_text(const ReplayResult& result) {
    std::string text = replay_verdict(result);
    if (result.first) {
        const FirstDifference& first = *result.first;
        text += fmt::format(
            "  The first at tick {} ({:.4f} s): {} was {} and is {}. The samples behind it answer\n"
            "  the decisions of then, not those of now.\n",
            first.tick, static_cast<double>(first.tick) / firmware::ticks_per_second, first.field,
            shown(first.field, first.then), shown(first.field, first.now));
    }
    return text + "\n" + state_table(result);
}

}  // namespace sim
