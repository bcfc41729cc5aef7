#include "firmware/units/quantity.hpp"

#include <gtest/gtest.h>

#include <cstdint>
#include <type_traits>
#include <utility>

#include "firmware/units/units.hpp"

namespace {

using firmware::MilliAmperes;
using firmware::MilliVolts;
using firmware::Permille;
using firmware::Ticks;

// What must not compile is asked of the type system: an expression that is ill-formed makes the
// detector false.
template <class A, class B, class = void>
struct Adds : std::false_type {};
template <class A, class B>
struct Adds<A, B, std::void_t<decltype(std::declval<A>() + std::declval<B>())>> : std::true_type {};

template <class A, class B, class = void>
struct Compares : std::false_type {};
template <class A, class B>
struct Compares<A, B, std::void_t<decltype(std::declval<A>() < std::declval<B>())>>
    : std::true_type {};

template <class A, class B, class = void>
struct Equates : std::false_type {};
template <class A, class B>
struct Equates<A, B, std::void_t<decltype(std::declval<A>() == std::declval<B>())>>
    : std::true_type {};

TEST(Quantity, QuantitiesOfOneUnitAddAndCompare) {
    EXPECT_TRUE((Adds<MilliVolts, MilliVolts>::value));
    EXPECT_TRUE((Compares<Ticks, Ticks>::value));
    EXPECT_EQ((MilliVolts{3} + MilliVolts{4}).count(), 7);
    EXPECT_EQ((MilliVolts{3} - MilliVolts{4}).count(), -1);
    EXPECT_LT(MilliVolts{3}, MilliVolts{4});
}

TEST(Quantity, QuantitiesOfDifferentUnitsNeitherAddNorCompare) {
    EXPECT_FALSE((Adds<MilliVolts, MilliAmperes>::value));
    EXPECT_FALSE((Adds<Permille, MilliAmperes>::value));
    EXPECT_FALSE((Compares<MilliVolts, MilliAmperes>::value));
    EXPECT_FALSE((Equates<MilliVolts, Permille>::value));
}

TEST(Quantity, BareIntegersDoNotSlipIn) {
    EXPECT_FALSE((Adds<MilliVolts, int>::value));
    EXPECT_FALSE((Equates<MilliVolts, int>::value));
    EXPECT_FALSE((std::is_convertible_v<int, MilliVolts>));
    EXPECT_FALSE((std::is_convertible_v<MilliVolts, int>));
    EXPECT_TRUE((std::is_constructible_v<MilliVolts, std::int32_t>));
}

TEST(Quantity, NarrowingSignChangesFloatsAndBoolsAreRefused) {
    EXPECT_FALSE((std::is_constructible_v<MilliVolts, std::int64_t>));
    EXPECT_FALSE((std::is_constructible_v<MilliVolts, std::uint32_t>));
    EXPECT_FALSE((std::is_constructible_v<Ticks, std::int32_t>));
    EXPECT_FALSE((std::is_constructible_v<MilliVolts, double>));
    EXPECT_FALSE((std::is_constructible_v<Ticks, bool>));
    EXPECT_TRUE((std::is_constructible_v<MilliVolts, std::int16_t>));
}

TEST(Quantity, OneUnitIsNotMadeFromAnother) {
    EXPECT_FALSE((std::is_constructible_v<MilliVolts, MilliAmperes>));
    EXPECT_FALSE((std::is_assignable_v<MilliVolts&, MilliAmperes>));
}

TEST(Quantity, CostsNoMoreThanTheBareInteger) {
    EXPECT_EQ(sizeof(MilliVolts), sizeof(std::int32_t));
    EXPECT_TRUE(std::is_trivially_copyable_v<MilliVolts>);
}

TEST(Units, OneSecondIsTenThousandTicks) {
    EXPECT_EQ(firmware::ticks_from_s(1).count(), 10000U);
    EXPECT_EQ(firmware::ticks_from_ms(1000), firmware::ticks_from_s(1));
    EXPECT_EQ(firmware::ticks_from_ms(1).count(), 10U);
    EXPECT_EQ(firmware::ticks_from_s(86400).count(), 864000000U);
}

TEST(Units, FractionAndPortionAreEachOthersInverse) {
    for (std::int32_t permille = 0; permille <= 1000; permille += 7) {
        const MilliAmperes whole{80000};
        const MilliAmperes part = firmware::portion(whole, Permille{permille});
        EXPECT_EQ(firmware::fraction(part, whole).count(), permille);
    }
}

TEST(Units, AFractionOfNothingIsNothing) {
    EXPECT_EQ(firmware::fraction(MilliVolts{5000}, MilliVolts{0}).count(), 0);
    EXPECT_EQ(firmware::fraction(MilliVolts{5000}, MilliVolts{-1}).count(), 0);
}

}  // namespace
