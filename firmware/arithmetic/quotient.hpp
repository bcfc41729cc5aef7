// Division of a product that may need 64 bits and mostly does not. A small processor divides 32
// bits in a few instructions or some dozens, and 64 in hundreds; the result is the same.
#pragma once

#include <cstdint>

namespace firmware {

/// Towards zero, like the language's own. The divisor is positive.
constexpr std::int64_t quotient(std::int64_t dividend, std::int32_t divisor) {
    // The size of the smallest number fits no signed one.
    const std::uint64_t size = dividend < 0 ? static_cast<std::uint64_t>(-(dividend + 1)) + 1
                                            : static_cast<std::uint64_t>(dividend);
    if ((size >> 32) != 0) {
        return dividend / divisor;
    }
    const auto result = static_cast<std::int64_t>(static_cast<std::uint32_t>(size) /
                                                  static_cast<std::uint32_t>(divisor));
    return dividend < 0 ? -result : result;
}

/// value * by / divisor, towards zero. The divisor is positive.
constexpr std::int64_t quotient_of_product(std::int32_t value, std::int32_t by,
                                           std::int32_t divisor) {
    constexpr std::uint32_t value_limit = 1U << 20;
    constexpr std::uint32_t by_limit = 1U << 12;
    const auto factor = static_cast<std::uint32_t>(value);
    const auto other = static_cast<std::uint32_t>(by);
    // Negative ones are beyond the limits, too.
    if (factor < value_limit && other < by_limit) {
        return factor * other / static_cast<std::uint32_t>(divisor);
    }
    return quotient(static_cast<std::int64_t>(value) * by, divisor);
}

/// part * 10,000 / whole, towards zero, in two digits of base 100 where 32 bits do not hold the
/// product. Neither is negative, and the whole is positive.
constexpr std::int64_t ten_thousandths(std::int32_t part, std::int32_t whole) {
    constexpr std::uint32_t base = 100;
    constexpr std::uint32_t most_times_base = 0xFFFFFFFFU / base;
    const auto dividend = static_cast<std::uint32_t>(part);
    const auto divisor = static_cast<std::uint32_t>(whole);
    if (dividend <= most_times_base / base) {
        return dividend * (base * base) / divisor;
    }
    if (dividend > most_times_base || divisor > most_times_base) {
        return static_cast<std::int64_t>(part) * base * base / whole;
    }
    const std::uint32_t hundredths = dividend * base / divisor;
    const std::uint32_t rest = dividend * base - hundredths * divisor;
    return static_cast<std::int64_t>(hundredths) * base + rest * base / divisor;
}

/// part * 1,000,000 / whole, digit by digit in base 1000. Neither is negative, and the whole is
/// positive.
constexpr std::int64_t millionths(std::int32_t part, std::int32_t whole) {
    constexpr std::uint32_t base = 1000;
    constexpr std::uint32_t largest_whole = 0xFFFFFFFFU / base;
    const auto divisor = static_cast<std::uint32_t>(whole);
    auto rest = static_cast<std::uint32_t>(part);
    if (divisor > largest_whole) {
        return static_cast<std::int64_t>(part) * base * base / whole;
    }
    const std::uint32_t ones = rest / divisor;
    rest = (rest - ones * divisor) * base;
    const std::uint32_t thousandths = rest / divisor;
    rest = (rest - thousandths * divisor) * base;
    const std::uint32_t below_one = thousandths * base + rest / divisor;
    return static_cast<std::int64_t>(ones) * base * base + below_one;
}

}  // namespace firmware
