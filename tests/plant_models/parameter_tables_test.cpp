// The parameter tables feed the scenario reader, the help and the documentation: what holds for
// one of them holds for all.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <set>
#include <string_view>
#include <type_traits>
#include <variant>

#include "plant_models/conditions.hpp"
#include "plant_models/loads/polynomial.hpp"
#include "plant_models/loads/reciprocating.hpp"
#include "plant_models/loads/rolling_piston.hpp"
#include "plant_models/loads/scroll_parameters.hpp"
#include "plant_models/motor/motor_parameters.hpp"
#include "plant_models/parameter_defaults.hpp"
#include "plant_models/refrigerant/refrigerant_parameters.hpp"
#include "plant_models/supplies/generator_parameters.hpp"
#include "plant_models/supplies/grid.hpp"
#include "plant_models/supplies/inverter.hpp"
#include "plant_models/supplies/split_phase.hpp"
#include "plant_models/supplies/transformer_inverter_parameters.hpp"
#include "plant_models/switches/limiter_parameters.hpp"
#include "plant_models/unit/contactor_coil.hpp"
#include "plant_models/unit/heat_network.hpp"
#include "plant_models/unit/line_break_protector.hpp"
#include "plant_models/unit/potential_relay.hpp"
#include "plant_models/unit/protection_module.hpp"
#include "plant_models/unit/thermistor.hpp"
#include "plant_models/wiring/wiring_parameters.hpp"
#include "support/machines.hpp"

namespace {

constexpr std::array<std::string_view, 25> units = {
    "_V",   "_A",       "_mA", "_W",   "_VA",      "_Hz",       "_ohm",          "_mohm", "_mH",
    "_uF",  "_s",       "_ms", "_deg", "_Nm",      "_rpm",      "_kg_m2",        "_kg",   "_m",
    "_cm3", "_percent", "_C",  "_K",   "_J_per_K", "_mW_per_K", "_percent_per_K"};
constexpr std::array<std::string_view, 8> pure_numbers = {
    "poles",        "turns_ratio",  "cylinders",  "rod_ratio",
    "radius_ratio", "volume_ratio", "wrap_turns", "tries"};

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
std::size_t words_of() {
    if constexpr (plant_models::HasWords<P>::value) {
        return P::word_table().size();
    } else {
        return 0;
    }
}

template <class P>
class ParameterTables : public testing::Test {};

using Models =
    testing::Types<plant_models::Conditions, plant_models::MotorParameters,
                   plant_models::LimiterParameters, plant_models::GridParameters,
                   plant_models::SplitPhaseParameters, plant_models::InverterParameters,
                   plant_models::TransformerInverterParameters, plant_models::GeneratorParameters,
                   plant_models::WiringParameters, plant_models::PolynomialLoadParameters,
                   plant_models::ReciprocatingParameters, plant_models::RollingPistonParameters,
                   plant_models::ScrollParameters, plant_models::RefrigerantParameters,
                   plant_models::HeatParameters, plant_models::LineBreakParameters,
                   plant_models::ProtectionModuleParameters, plant_models::ContactorParameters,
                   plant_models::PotentialRelayParameters, plant_models::ThermistorParameters>;
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
        if (!ends_with(row.key, "_deg") && !ends_with(row.key, "_C")) {
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
    // A struct with words holds views of them beside its numbers.
    EXPECT_EQ(table.size() * sizeof(double) + words_of<TypeParam>() * sizeof(std::string_view),
              sizeof(TypeParam));
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

TYPED_TEST(ParameterTables, WordsHaveADefaultAmongThemAndNoKeyTwice) {
    if constexpr (plant_models::HasWords<TypeParam>::value) {
        std::set<std::string_view> keys;
        for (const auto& row : TypeParam::table()) {
            keys.insert(row.key);
        }
        for (const auto& row : TypeParam::word_table()) {
            EXPECT_TRUE(keys.insert(row.key).second) << row.key;
            EXPECT_FALSE(row.meaning.empty()) << row.key;
            const std::set<std::string_view> words(row.words.begin(), row.words.end());
            EXPECT_EQ(words.size(), row.words.size()) << row.key;
            if (row.default_word) {
                EXPECT_EQ(words.count(*row.default_word), 1U) << row.key;
            }
        }
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
