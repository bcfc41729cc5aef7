// Any variable of the controller as the one kind of number that a watch shows.
#pragma once

#include <cstddef>
#include <cstdint>
#include <type_traits>

#include "firmware/units/phase.hpp"
#include "firmware/units/quantity.hpp"
#include "firmware/units/stopwatch.hpp"
#include "firmware/watch/watch.hpp"

namespace firmware {

/// Integers, flags and enumerations.
template <class Value, class = std::enable_if_t<!std::is_class_v<Value>>>
constexpr std::int64_t number(Value value) {
    return static_cast<std::int64_t>(value);
}

template <class Tag, class Rep>
constexpr std::int64_t number(Quantity<Tag, Rep> value) {
    return number(value.count());
}

constexpr std::int64_t number(Phase value) {
    return number(value.count());
}

/// In ticks.
constexpr std::int64_t number(const Stopwatch& value) {
    return number(value.elapsed());
}

template <std::size_t count>
constexpr WatchedPart part_of(const WatchedVariable (&list)[count]) {
    return {list, count};
}

}  // namespace firmware
