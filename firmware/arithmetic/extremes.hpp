// The smaller and the larger of two values: <algorithm> is no freestanding header.
#pragma once

namespace firmware {

template <class Value>
constexpr Value smaller(Value a, Value b) {
    return b < a ? b : a;
}

template <class Value>
constexpr Value larger(Value a, Value b) {
    return a < b ? b : a;
}

}  // namespace firmware
