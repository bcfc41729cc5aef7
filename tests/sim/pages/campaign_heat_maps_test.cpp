#include "sim/pages/campaign_heat_maps.hpp"

#include <gtest/gtest.h>

#include "reporting/sample_campaign.hpp"

namespace {

using sim_test::add_case;
using sim_test::failed_start;
using sim_test::passed_start;

sim::CasePlace with(const char* setting) {
    return {"matrix", "cold_room", "hut_inverter", "", "", setting};
}

TEST(CampaignHeatMaps, NeverMixSettingsInACellOfCompressorAndSupply) {
    sim::CampaignResults results = sim_test::campaign();
    add_case(results, passed_start(10.0), with("limiter"));
    add_case(results, failed_start("outcome"), with("directly"));
    const auto rates = sim::rate_maps(results);
    ASSERT_EQ(rates.size(), 3U);
    EXPECT_EQ(rates[0].caption,
              "Cases as expected, by compressor and supply, setting limiter, in percent");
    EXPECT_EQ(rates[0].cells[0][0].value, 100.0);
    EXPECT_EQ(rates[1].cells[0][0].value, 0.0);
    // Three of the figures that it tells are there, each for both settings.
    const auto figures = sim::figure_maps(results);
    ASSERT_EQ(figures.size(), 6U);
    EXPECT_EQ(figures[0].cells[0][0].value, 10.0);
    EXPECT_EQ(figures[1].cells[0][0].value, 25.0);
}

TEST(CampaignHeatMaps, SayNothingOfASettingWhereThereIsOne) {
    sim::CampaignResults results = sim_test::campaign();
    add_case(results, passed_start(), with(""));
    const auto rates = sim::rate_maps(results);
    ASSERT_EQ(rates.size(), 1U);
    EXPECT_EQ(rates[0].caption, "Cases as expected, by compressor and supply, in percent");
}

}  // namespace
