// The parameter tables feed the scenario reader, the help and the documentation: what holds for
// one of them holds for all.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <set>
#include <string_view>
#include <variant>

#include "plant_models/loads/polynomial.hpp"
#include "plant_models/motor/motor_parameters.hpp"
#include "plant_models/supplies/grid.hpp"
#include "plant_models/supplies/inverter.hpp"
#include "plant_models/switches/limiter_parameters.hpp"
#include "support/machines.hpp"

namespace {

constexpr std::array<std::string_view, 14> units = {"_V",   "_A",  "_mA",  "_W",    "_Hz",
                                                    "_ohm", "_mH", "_uF",  "_s",    "_ms",
                                                    "_deg", "_Nm", "_rpm", "_kg_m2"};
constexpr std::array<std::string_view, 2> pure_numbers = {"poles", "turns_ratio"};

bool ends_with(std::string_view text, std::string_view ending) {
    return text.size() > ending.size() && text.substr(text.size() - ending.size()) == ending;
}

template <class P>
double read(const P& parameters, const plant_models::Parameter<P>& row) {
    return std::visit([&](auto member) { return static_cast<double>(parameters.*member); },
                      row.member);
}

template <class P>
void write(P& parameters, const plant_models::Parameter<P>& row, int value) {
    std::visit([&](auto member) { parameters.*member = value; }, row.member);
}

template <class P>
class ParameterTables : public testing::Test {};

using Models = testing::Types<plant_models::MotorParameters, plant_models::LimiterParameters,
                              plant_models::GridParameters, plant_models::InverterParameters,
                              plant_models::PolynomialLoadParameters>;
TYPED_TEST_SUITE(ParameterTables, Models);

TYPED_TEST(ParameterTables, EveryKeyEndsInItsUnit) {
    for (const auto& row : TypeParam::table()) {
        const bool has_unit = std::any_of(units.begin(), units.end(), [&](std::string_view unit) {
            return ends_with(row.key, unit);
        });
        const bool pure =
            std::find(pure_numbers.begin(), pure_numbers.end(), row.key) != pure_numbers.end();
        EXPECT_NE(has_unit, pure) << row.key;
    }
}

TYPED_TEST(ParameterTables, BoundsAreFiniteAndOrdered) {
    for (const auto& row : TypeParam::table()) {
        EXPECT_TRUE(std::isfinite(row.lowest) && std::isfinite(row.highest)) << row.key;
        EXPECT_LT(row.lowest, row.highest) << row.key;
        if (!ends_with(row.key, "_deg")) {
            EXPECT_GE(row.lowest, 0.0) << row.key;
        }
    }
}

TYPED_TEST(ParameterTables, DefaultsLieWithinTheBounds) {
    for (const auto& row : TypeParam::table()) {
        if (row.default_value) {
            EXPECT_GE(*row.default_value, row.lowest) << row.key;
            EXPECT_LE(*row.default_value, row.highest) << row.key;
        }
    }
}

TYPED_TEST(ParameterTables, KeysAreUniqueAndEachHasAMeaning) {
    std::set<std::string_view> keys;
    for (const auto& row : TypeParam::table()) {
        EXPECT_TRUE(keys.insert(row.key).second) << row.key;
        EXPECT_FALSE(row.meaning.empty()) << row.key;
        EXPECT_EQ(row.meaning.find('\n'), std::string_view::npos) << row.key;
    }
}

TYPED_TEST(ParameterTables, EveryFieldIsStoredUnderExactlyOneKey) {
    const auto& table = TypeParam::table();
    EXPECT_EQ(table.size() * sizeof(double), sizeof(TypeParam));
    TypeParam parameters;
    int number = 1000;
    for (const auto& row : table) {
        write(parameters, row, ++number);
    }
    number = 1000;
    for (const auto& row : table) {
        EXPECT_EQ(read(parameters, row), ++number) << row.key << " shares its field";
    }
}

TEST(ParameterTables, LimiterNeedsNoKeyAtAll) {
    for (const auto& row : plant_models::LimiterParameters::table()) {
        EXPECT_TRUE(row.default_value.has_value()) << row.key;
    }
}

TEST(ParameterTables, InverterNeedsVoltageFrequencyAndCurrentLimitOnly) {
    std::set<std::string_view> needed;
    for (const auto& row : plant_models::InverterParameters::table()) {
        if (!row.default_value) {
            needed.insert(row.key);
        }
    }
    EXPECT_EQ(needed,
              (std::set<std::string_view>{"voltage_V", "frequency_Hz", "peak_current_limit_A"}));
}

}  // namespace
