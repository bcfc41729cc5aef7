// Which inverters are accepted, and what is filled in for figures that were not given.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string_view>
#include <vector>

#include "support/machines.hpp"

namespace {

using plant_models::InverterParameters;

InverterParameters on_battery() {
    InverterParameters parameters = support::small_inverter();
    parameters.dc_side = "battery";
    parameters.battery_voltage_V = 51.2;
    return parameters;
}

std::string_view first_word(std::string_view sentence) {
    return sentence.substr(0, sentence.find(' '));
}

template <class Change>
std::string_view fault(InverterParameters parameters, Change change) {
    change(parameters);
    return first_word(parameters.inconsistency());
}

TEST(InverterWords, DefaultsAreThoseOfTheTableAndEveryWordIsAccepted) {
    const InverterParameters defaults;
    for (const auto& row : InverterParameters::word_table()) {
        ASSERT_TRUE(row.default_word.has_value());
        EXPECT_EQ(defaults.*row.member, *row.default_word) << row.key;
        EXPECT_EQ(std::count(row.words.begin(), row.words.end(), *row.default_word), 1);
        for (const auto word : row.words) {
            InverterParameters parameters = support::small_inverter();
            parameters.*row.member = word;
            if (word == "battery") {
                parameters.battery_voltage_V = 48.0;
            }
            EXPECT_EQ(parameters.inconsistency(), "") << word;
            EXPECT_NE(row.meaning.find(word), std::string_view::npos) << word;
        }
    }
}

TEST(InverterWords, FiguresWithoutTheirWordAreRefused) {
    const InverterParameters plain = support::small_inverter();
    using P = InverterParameters;
    EXPECT_EQ(fault(plain, [](P& p) { p.limited_current_A = 30.0; }), "limited_current_A");
    EXPECT_EQ(fault(plain, [](P& p) { p.virtual_threshold_A = 30.0; }), "virtual_threshold_A");
    EXPECT_EQ(fault(plain,
                    [](P& p) {
                        p.limiting_method = "voltage_foldback";
                        p.virtual_threshold_A = 30.0;
                    }),
              "virtual_threshold_A");
    EXPECT_EQ(fault(plain, [](P& p) { p.surge_power_W = 9000.0; }), "surge_power_W");
    EXPECT_EQ(fault(plain, [](P& p) { p.surge_time_s = 5.0; }), "surge_time_s");
    for (const auto member :
         {&P::battery_voltage_V, &P::battery_resistance_mohm, &P::battery_minimum_V,
          &P::battery_protection_A, &P::battery_short_circuit_A}) {
        EXPECT_EQ(fault(plain, [&](P& p) { p.*member = 45.0; }), "battery_voltage_V");
    }
}

TEST(InverterWords, LimitsThatCannotActAreRefused) {
    InverterParameters parameters = support::small_inverter();
    using P = InverterParameters;
    for (const std::string_view method : {"virtual_impedance", "voltage_foldback"}) {
        parameters.limiting_method = method;
        EXPECT_EQ(fault(parameters, [](P& p) { p.limited_current_A = 42.0; }), "");
        EXPECT_EQ(fault(parameters, [](P& p) { p.limited_current_A = 43.0; }), "limited_current_A");
    }
    parameters.limiting_method = "virtual_impedance";
    parameters.limited_current_A = 40.0;
    EXPECT_EQ(fault(parameters, [](P& p) { p.virtual_threshold_A = 36.0; }), "");
    EXPECT_EQ(fault(parameters, [](P& p) { p.virtual_threshold_A = 36.1; }), "virtual_threshold_A");
}

TEST(InverterWords, SurgeHasToBeMoreThanTheContinuousRating) {
    InverterParameters parameters = support::small_inverter();
    parameters.overload_law = "inverse_time";
    parameters.rated_current_A = 30.0;
    using P = InverterParameters;
    EXPECT_EQ(fault(parameters, [](P& p) { p.surge_power_W = 1.02 * 6900.0; }), "");
    EXPECT_EQ(fault(parameters, [](P& p) { p.surge_power_W = 1.00 * 6900.0; }), "surge_power_W");
    EXPECT_EQ(fault(parameters, [](P& p) { p.rated_current_A = 45.0; }), "surge_power_W");
}

TEST(InverterWords, BatteriesThatCannotFeedItAreRefused) {
    using P = InverterParameters;
    const InverterParameters good = on_battery();
    EXPECT_EQ(good.inconsistency(), "");
    EXPECT_EQ(fault(good, [](P& p) { p.battery_voltage_V = 0.0; }), "battery_voltage_V");
    EXPECT_EQ(fault(good, [](P& p) { p.battery_voltage_V = 402.5; }), "battery_voltage_V");
    EXPECT_EQ(fault(good, [](P& p) { p.battery_minimum_V = 51.2; }), "battery_minimum_V");
    EXPECT_EQ(fault(good, [](P& p) { p.battery_minimum_V = 51.0; }), "");
    EXPECT_EQ(fault(good,
                    [](P& p) {
                        p.battery_protection_A = 200.0;
                        p.battery_short_circuit_A = 200.0;
                    }),
              "battery_short_circuit_A");
    EXPECT_EQ(fault(good,
                    [](P& p) {
                        p.battery_resistance_mohm = 2000.0;
                        p.idle_draw_W = 400.0;
                    }),
              "battery_resistance_mohm");
}

TEST(InverterWords, ZeroMeansDerivedFromTheOthers) {
    const InverterParameters full = on_battery().completed();
    const double power_W = 230.0 * 60.0 / (1.5 * std::sqrt(2.0));
    EXPECT_DOUBLE_EQ(full.limited_current_A, 0.9 * 60.0 / std::sqrt(2.0));
    EXPECT_DOUBLE_EQ(full.virtual_threshold_A, 0.75 * full.limited_current_A);
    // 4 % of the voltage is lost at the current of the full refill.
    EXPECT_NEAR(1e-3 * full.battery_resistance_mohm * power_W / 51.2, 0.04 * 51.2, 1e-9);
    EXPECT_DOUBLE_EQ(full.battery_minimum_V, 0.84 * 51.2);
    EXPECT_NEAR(full.battery_protection_A, 1.5 * power_W / 51.2, 1e-9);
    EXPECT_NEAR(full.battery_short_circuit_A, 4.0 * full.battery_protection_A, 1e-9);
    const InverterParameters stiff = support::small_inverter().completed();
    EXPECT_EQ(stiff.battery_resistance_mohm, 0.0);
    EXPECT_EQ(stiff.battery_protection_A, 0.0);
}

// Every combination of words at the ends of every bound either says what is wrong or is built and
// gives numbers.
TEST(InverterWords, EveryBoundIsRefusedOrWorks) {
    int built = 0;
    for (const auto& row : InverterParameters::table()) {
        for (const double value : {row.lowest, row.highest}) {
            for (const bool battery : {false, true}) {
                for (const std::string_view method :
                     {"switch_clamp", "virtual_impedance", "voltage_foldback"}) {
                    InverterParameters parameters =
                        battery ? on_battery() : support::small_inverter();
                    parameters.limiting_method = method;
                    parameters.overload_law = "inverse_time";
                    parameters.*std::get<double InverterParameters::*>(row.member) = value;
                    if (!parameters.inconsistency().empty()) {
                        continue;
                    }
                    ++built;
                    const plant_models::Inverter inverter(parameters);
                    auto x = inverter.initial_state();
                    x[plant_models::Inverter::mean_square] = 900.0;
                    x[plant_models::Inverter::first_limiter_state] = 0.9;
                    std::array<double, plant_models::Inverter::state_count> rate{};
                    inverter.derivatives(x.data(), rate.data(), 0.0, {20.0, 0.0, 100.0});
                    for (const double r : rate) {
                        EXPECT_TRUE(std::isfinite(r)) << row.key << value;
                    }
                }
            }
        }
    }
    EXPECT_GT(built, 200);
}

}  // namespace
