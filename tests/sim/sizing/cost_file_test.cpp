// The file of prices: what it may hold, and what is said where it holds something else.
#include "sim/sizing/cost_file.hpp"

#include <gtest/gtest.h>

#include <string>

namespace {

std::string complaint(const std::string& text) {
    try {
        sim::parse_costs(text, "prices.toml");
    } catch (const sim::InputError& error) {
        return error.what();
    }
    return "accepted";
}

TEST(CostFile, GivesWhatItSaysAndExamplesForTheRest) {
    const sim::CostAssumptions costs = sim::parse_costs(R"(
[costs]
years = 15
currency = "CHF"
idle_energy = "bought"

[[supply]]
name = "hut_inverter_3kva_230v_50hz"
price = 990
)",
                                                        "prices.toml");
    EXPECT_EQ(costs.years, 15.0);
    EXPECT_EQ(costs.currency, "CHF");
    EXPECT_TRUE(costs.idle_energy_is_bought());
    EXPECT_EQ(costs.supply_prices.at("hut_inverter_3kva_230v_50hz"), 990.0);
    EXPECT_EQ(costs.limiter_price, sim::example_costs().limiter_price);
}

TEST(CostFile, KeepsASuppliesPriceWhereverTheTablesStand) {
    const sim::CostAssumptions costs = sim::parse_costs(
        "[[supply]]\nname = \"house_grid_230v_50hz\"\nprice = 5\n[costs]\nyears = 3\n", "p.toml");
    EXPECT_EQ(costs.supply_prices.size(), 1U);
    EXPECT_EQ(costs.years, 3.0);
}

TEST(CostFile, SaysWhatItWouldHaveAcceptedAndWhere) {
    EXPECT_EQ(complaint("[costs]\nyears = 0\n"),
              "prices.toml:2: costs.years: 0 is not accepted; give a number from 1 to 40");
    EXPECT_EQ(complaint("[costs]\n\nlimiter_prize = 200\n"),
              "prices.toml:3: costs.limiter_prize: unknown key; did you mean limiter_price?");
    EXPECT_EQ(complaint("[cost]\nyears = 1\n"),
              "prices.toml:1: cost: unknown table; did you mean costs?");
    EXPECT_EQ(complaint("[[supply]]\nname = \"hut_inverter_3kva_230v_50hz\"\n"),
              "prices.toml:1: supply.price: this key is missing; give a number from 0 to 1000000 "
              "(what this one costs, in the place of the price per kVA)");
    EXPECT_NE(complaint("[[supply]]\nname = \"hut_invrter_3kva_230v_50hz\"\nprice = 1\n")
                  .find("(did you mean \"hut_inverter_3kva_230v_50hz\"?)"),
              std::string::npos);
    EXPECT_EQ(complaint("costs = 3\n"),
              "prices.toml:1: costs: this is not a table; give [costs] once, with its keys below");
    EXPECT_EQ(complaint("[supply]\nname = \"x\"\n"),
              "prices.toml:1: supply: this is not a list of tables; give [[supply]] with name and "
              "price below");
    EXPECT_NE(complaint("[costs\n").find("prices.toml:1: this is not valid TOML"),
              std::string::npos);
}

}  // namespace
