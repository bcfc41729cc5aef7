// A number that knows what it measures.
//
// `Quantity<Tag, Rep>` holds one integer of type `Rep`; `Tag` says which unit. Two quantities add,
// subtract and compare only when their tags are equal, so a current cannot be added to a voltage
// and milliseconds cannot be used as ticks. It is made only explicitly and read only through
// `count()`. It costs nothing: same size and same instructions as the bare integer.
//
// Overflow: the same as the bare integer's. The ranges are kept by the callers, who know them.
#pragma once

#include <cstdint>
#include <type_traits>

namespace firmware {

template <class Tag, class Rep>
class Quantity {
    static_assert(std::is_integral_v<Rep>, "the controller has no floating point");

    template <class Integer>
    static constexpr bool keeps_value =
        std::is_integral_v<Integer> && !std::is_same_v<Integer, bool> &&
        std::is_signed_v<Integer> == std::is_signed_v<Rep> && sizeof(Integer) <= sizeof(Rep);

  public:
    using Count = Rep;

    constexpr Quantity() = default;

    /// From a bare integer of the same sign and no greater width: a narrowing or a change of sign
    /// must be written out. (Asking for the very same type would not do: on some processors
    /// `std::int32_t` is `long`, on others `int`.)
    template <class Integer, class = std::enable_if_t<keeps_value<Integer>>>
    explicit constexpr Quantity(Integer count) : count_(count) {}

    constexpr Rep count() const { return count_; }

    constexpr Quantity& operator+=(Quantity other) {
        count_ = static_cast<Rep>(count_ + other.count_);
        return *this;
    }
    constexpr Quantity& operator-=(Quantity other) {
        count_ = static_cast<Rep>(count_ - other.count_);
        return *this;
    }

    friend constexpr Quantity operator+(Quantity a, Quantity b) { return a += b; }
    friend constexpr Quantity operator-(Quantity a, Quantity b) { return a -= b; }

    friend constexpr bool operator==(Quantity a, Quantity b) { return a.count_ == b.count_; }
    friend constexpr bool operator!=(Quantity a, Quantity b) { return a.count_ != b.count_; }
    friend constexpr bool operator<(Quantity a, Quantity b) { return a.count_ < b.count_; }
    friend constexpr bool operator>(Quantity a, Quantity b) { return a.count_ > b.count_; }
    friend constexpr bool operator<=(Quantity a, Quantity b) { return a.count_ <= b.count_; }
    friend constexpr bool operator>=(Quantity a, Quantity b) { return a.count_ >= b.count_; }

  private:
    Rep count_ = 0;
};

}  // namespace firmware
