#include "sim/pages/campaign_heat_maps.hpp"

#include <gtest/gtest.h>

#include <optional>
#include <string>
#include <vector>

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
    EXPECT_EQ(rates[0].scale_from, 0.0) << "the other's, too, so that colours can be compared";
    EXPECT_EQ(rates[1].scale_from, 0.0);
    // Three of the figures that it tells are there, each for both settings.
    const auto figures = sim::figure_maps(results);
    ASSERT_EQ(figures.size(), 6U);
    EXPECT_EQ(figures[0].cells[0][0].value, 10.0);
    EXPECT_EQ(figures[1].cells[0][0].value, 25.0);
}

TEST(CampaignHeatMaps, KeepApartWhatNeverMeets) {
    sim::CampaignResults results = sim_test::campaign();
    const auto add = [&results](const char* compressor, const char* supply) {
        add_case(results, passed_start(10.0), {"matrix", compressor, supply, "", "", ""});
    };
    add("cold_room", "hut_inverter");
    add("scroll", "house_service");
    add("cold_room", "rural_grid");
    add("milk_cooler", "rural_grid");
    const auto rates = sim::rate_maps(results);
    ASSERT_EQ(rates.size(), 2U);
    EXPECT_EQ(rates[0].rows, (std::vector<std::string>{"cold_room", "milk_cooler"}));
    EXPECT_EQ(rates[0].columns, (std::vector<std::string>{"hut_inverter", "rural_grid"}));
    EXPECT_EQ(rates[0].cells[1][0].value, std::nullopt);
    EXPECT_EQ(rates[0].cells[1][1].value, 100.0);
    EXPECT_EQ(rates[1].rows, std::vector<std::string>{"scroll"});
    EXPECT_EQ(rates[1].columns, std::vector<std::string>{"house_service"});
}

TEST(CampaignHeatMaps, OfASparseCampaignAreNotCutIntoCrumbs) {
    sim::CampaignResults results = sim_test::campaign();
    for (const char* name : {"a", "b", "c", "d", "e", "f"}) {
        add_case(results, passed_start(10.0), {"matrix", name, name, "", "", ""});
    }
    const auto rates = sim::rate_maps(results);
    ASSERT_EQ(rates.size(), 1U);
    EXPECT_EQ(rates[0].rows.size(), 6U);
}

TEST(CampaignHeatMaps, SayNothingOfASettingWhereThereIsOne) {
    sim::CampaignResults results = sim_test::campaign();
    add_case(results, passed_start(), with(""));
    const auto rates = sim::rate_maps(results);
    ASSERT_EQ(rates.size(), 1U);
    EXPECT_EQ(rates[0].caption, "Cases as expected, by compressor and supply, in percent");
}

}  // namespace
