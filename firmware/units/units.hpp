// The units that the controller computes in.
//
// Electrical values are RMS or instantaneous as the name of the variable says; the unit is in the
// type. Fractions are per mille of a stated whole. Conversions between units of one dimension are
// free functions whose names say both ends; nothing converts silently.
#pragma once

#include <cstdint>

#include "firmware/arithmetic/quotient.hpp"
#include "firmware/contract/frames.hpp"
#include "firmware/units/quantity.hpp"

namespace firmware {

// The fixed-point arithmetic shifts negative numbers right and counts on the sign being kept. C++17
// leaves that to the compiler; all that matter keep it.
// cppcheck-suppress shiftNegativeLHS ; the assertion is about just that
static_assert((-5 >> 1) == -3, "a right shift must round towards minus infinity");

using MilliVolts = Quantity<struct MilliVoltTag, std::int32_t>;
using MilliAmperes = Quantity<struct MilliAmpereTag, std::int32_t>;
using MilliHertz = Quantity<struct MilliHertzTag, std::int32_t>;
using MilliDegrees = Quantity<struct MilliDegreeTag, std::int32_t>;  ///< electrical angle
using MicroSeconds = Quantity<struct MicroSecondTag, std::int32_t>;
using Ticks = Quantity<struct TickTag, std::uint32_t>;  ///< 119 hours before it would wrap
using Permille = Quantity<struct PermilleTag, std::int32_t>;

/// Exact: one tick is 100 us. From 0 to 429,496,729 ms.
constexpr Ticks ticks_from_ms(std::int32_t ms) {
    static_assert(ticks_per_second % 1000 == 0, "a millisecond is a whole number of ticks");
    return Ticks{static_cast<std::uint32_t>(ms) * (ticks_per_second / 1000U)};
}
/// From 0 to 429,496 s.
constexpr Ticks ticks_from_s(std::int32_t s) {
    return Ticks{static_cast<std::uint32_t>(s) * static_cast<std::uint32_t>(ticks_per_second)};
}

/// `part` as a fraction of `whole`, for two quantities of the same unit. 0 when the whole is not
/// positive. Parts of up to two million times the whole; more are not met in the sensors' ranges.
template <class Tag>
constexpr Permille fraction(Quantity<Tag, std::int32_t> part, Quantity<Tag, std::int32_t> whole) {
    if (whole.count() <= 0) {
        return Permille{0};
    }
    return Permille{static_cast<std::int32_t>(product_over(part.count(), 1000, whole.count()))};
}

/// The given fraction of a quantity, rounded towards zero. Wholes of up to 2^31 - 1 with
/// fractions of up to 1000; of up to 500 million with up to 4000, the largest fraction anywhere.
template <class Tag>
constexpr Quantity<Tag, std::int32_t> portion(Quantity<Tag, std::int32_t> whole, Permille part) {
    return Quantity<Tag, std::int32_t>{
        static_cast<std::int32_t>(product_over(whole.count(), part.count(), 1000))};
}

}  // namespace firmware
