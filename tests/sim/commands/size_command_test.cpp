// runup size, end to end.
#include <gtest/gtest.h>
#include <unistd.h>

#include <algorithm>
#include <csignal>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <sstream>

#include "commands/program.hpp"
#include "files/temporary_folder.hpp"

namespace {

using sim_test::run_program;

bool holds(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

std::size_t widest_line(const std::string& text) {
    std::size_t widest = 0;
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) {
        widest = std::max(widest, line.size());
    }
    return widest;
}

TEST(SizeCommand, AnswersForASupplyAndFitsOneHundredColumns) {
    const sim_test::Outcome run =
        run_program({"size", "outdoor_3_ton_scroll", "--supply", "house_inverter_6kva_240v_60hz",
                     "--supply", "house_service_240v_60hz", "--draws", "40"});
    EXPECT_EQ(run.exit_code, 0) << run.errors;
    EXPECT_TRUE(holds(run.output, "No limiter is needed on house_service_240v_60hz"));
    EXPECT_TRUE(holds(run.output, "stays slow"));
    EXPECT_TRUE(holds(run.output, "On site"));
    EXPECT_TRUE(holds(run.output, "EXAMPLE prices"));
    EXPECT_TRUE(holds(run.output, "isolate and prove dead"));
    EXPECT_LE(widest_line(run.output), 100U) << run.output;
}

TEST(SizeCommand, WritesItsSchema) {
    const sim_test::Outcome run =
        run_program({"size", "cold_room_230v_50hz", "--supply", "house_grid_230v_50hz", "--draws",
                     "40", "--json", "-"});
    EXPECT_EQ(run.exit_code, 0) << run.errors;
    const auto json = nlohmann::json::parse(run.output);
    EXPECT_EQ(json["schema"], "runup.size/1");
    EXPECT_EQ(json["supplies"][0]["answer"], "utility_carries_it");
    EXPECT_EQ(json["supplies"][0]["rated_VA"], nullptr);
    EXPECT_EQ(json["supplies"][0]["ways"].size(), 4U);
    EXPECT_EQ(json["supplies"][0]["ways"][0]["bad_days"]["draws"], 40);
    EXPECT_EQ(json["assumptions"]["costs"]["are_examples"], true);
    EXPECT_EQ(json["smallest"].size(), 0U);
}

TEST(SizeCommand, SaysThatNothingListedStartsIt) {
    const sim_test::Outcome run =
        run_program({"size", "outdoor_5_ton_scroll", "--supply", "house_inverter_6kva_240v_60hz",
                     "--draws", "40", "--quiet"});
    EXPECT_EQ(run.exit_code, 1) << run.errors;
    EXPECT_EQ(sim_test::line_count(run.output), 1);
    EXPECT_TRUE(holds(run.output, "too small for it as it runs")) << run.output;
}

TEST(SizeCommand, NeedsNoLimiterForACompressorWithADriveOfItsOwn) {
    const sim_test::Outcome run = run_program({"size", "outdoor_3_ton_scroll", "--variable-speed"});
    EXPECT_EQ(run.exit_code, 0);
    EXPECT_TRUE(holds(run.output, "No limiter is needed, nor may one be fitted"));
    EXPECT_TRUE(holds(run.output, "isolate and prove dead"));
}

TEST(SizeCommand, LooksOnlyAtTheUtilityWhenTheCompressorIsNotBackedUp) {
    const sim_test::Outcome run = run_program(
        {"size", "outdoor_3_ton_scroll", "--not-backed-up", "--draws", "40", "--quiet"});
    EXPECT_EQ(run.exit_code, 0) << run.errors;
    EXPECT_TRUE(holds(run.output, "house_service_240v_60hz no limiter needed"));
    EXPECT_FALSE(holds(run.output, "inverter")) << run.output;
    const sim_test::Outcome none = run_program({"size", "outdoor_3_ton_scroll", "--not-backed-up",
                                                "--supply", "house_inverter_6kva_240v_60hz"});
    EXPECT_EQ(none.exit_code, 2);
    EXPECT_TRUE(holds(none.errors, "--not-backed-up: the compressor is then on the utility"));
}

TEST(SizeCommand, TakesANameplateAndSaysWhatThatLeavesOut) {
    const sim_test::Outcome run = run_program(
        {"size", std::string(RUNUP_SOURCE_FOLDER) + "/sim/nameplates/cold_room_50hz.toml",
         "--supply", "hut_inverter_3kva_230v_50hz", "--draws", "40"});
    EXPECT_EQ(run.exit_code, 0) << run.errors;
    EXPECT_TRUE(holds(run.output, "Cold room, 230 V 50 Hz\n"));
    EXPECT_TRUE(holds(run.output, "a nameplate says nothing about the gas"));
}

TEST(SizeCommand, LooksAtAScenariosOwnSupplyFirst) {
    const sim_test::Outcome run =
        run_program({"size", sim_test::bundled_path("hut_inverter"), "--supply",
                     "house_service_240v_60hz", "--draws", "40", "--json", "-"});
    const auto json = nlohmann::json::parse(run.output);
    ASSERT_EQ(json["supplies"].size(), 2U);
    EXPECT_EQ(json["supplies"][0]["name"], "own_supply");
    EXPECT_EQ(json["supplies"][0]["kind"], "inverter");
}

TEST(SizeCommand, TakesPricesFromAFile) {
    const sim_test::TemporaryFolder folder;
    const std::string path = folder.path() + "/prices.toml";
    std::ofstream(path) << "[costs]\ncurrency = \"CHF\"\nyears = 5\n";
    const sim_test::Outcome run =
        run_program({"size", "cold_room_230v_50hz", "--supply", "hut_inverter_3kva_230v_50hz",
                     "--draws", "40", "--costs", path});
    EXPECT_EQ(run.exit_code, 0) << run.errors;
    EXPECT_TRUE(
        holds(run.output, "its cost over 5 years in CHF (what the file leaves out: EXAMPLES)\n"))
        << run.output;
    std::ofstream(path) << "[costs]\nyears = 50\n";
    const sim_test::Outcome wrong = run_program({"size", "cold_room_230v_50hz", "--costs", path});
    EXPECT_EQ(wrong.exit_code, 2);
    EXPECT_TRUE(
        holds(wrong.errors, ":2: costs.years: 50 is not accepted; give a number from 1 to 40"))
        << wrong.errors;
}

TEST(SizeCommand, WritesAPageWithAllOfItsTables) {
    const sim_test::TemporaryFolder folder;
    const std::string path = folder.path() + "/size.html";
    const sim_test::Outcome run =
        run_program({"size", "outdoor_3_ton_scroll", "--supply", "house_inverter_6kva_240v_60hz",
                     "--draws", "40", "--page", path});
    EXPECT_TRUE(holds(run.output, "house_inverter_6kva_240v_60hz")) << run.errors;
    std::ifstream file(path);
    const std::string html{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
    for (const char* part : {"The answer", "Supplies and ways to start", "stays slow",
                             "What each way costs", "On site", "never by shorting", "warranty",
                             "A bad day: each figure", "friction_factor"}) {
        EXPECT_TRUE(holds(html, part)) << part;
    }
}

TEST(SizeCommand, NamesWhatItCannotUse) {
    const auto complaint = [](const std::vector<std::string>& arguments) {
        const sim_test::Outcome run = run_program(arguments);
        EXPECT_EQ(run.exit_code, 2);
        EXPECT_EQ(run.output, "");
        return run.errors;
    };
    EXPECT_TRUE(holds(complaint({"size", "cold_rom_230v_50hz"}),
                      "no compressor of the library and no file; did you mean "
                      "cold_room_230v_50hz?"));
    EXPECT_TRUE(holds(complaint({"size", "cold_room_230v_50hz", "--supply", "hut_invertr"}),
                      "--supply: \"hut_invertr\" is no supply of the library"));
    EXPECT_TRUE(holds(
        complaint({"size", "cold_room_230v_50hz", "--supply", "house_service_240v_60hz"}),
        "house_service_240v_60hz has 240 V, 60 Hz and the motor 230 V, 50 Hz; give one within"));
    EXPECT_TRUE(holds(complaint({"size", "cold_room_230v_50hz", "--draws", "20"}),
                      "--draws: 20 bad days cannot show 90 %, even if none is lost; give at least "
                      "35"));
    EXPECT_TRUE(holds(complaint({"size", sim_test::bundled_path("hut_thyristor_shorted")}),
                      "fault: a supply is chosen for a unit that is whole"));
    EXPECT_TRUE(holds(complaint({"size", "missing.toml"}), "missing.toml"));
}

TEST(SizeCommand, PrintsWhatABadDayIsAndTheKeysOfAPriceFile) {
    const sim_test::Outcome run = run_program({"size", "--assumptions"});
    EXPECT_EQ(run.exit_code, 0);
    EXPECT_TRUE(holds(run.output, "rest_s 180 to 300"));
    EXPECT_TRUE(holds(run.output, "common practice"));
    EXPECT_TRUE(holds(run.output, "limiter_price = a number from 0 to 100000; default 300"));
    EXPECT_TRUE(holds(run.output, "example, not a quotation"));
}

// By SIGTERM: a shell that runs tests in the background has them ignore SIGINT.
TEST(SizeCommand, PrintsWhatIsKnownWhenItIsInterrupted) {
    const sim_test::Outcome run =
        run_program({"size", "cold_room_230v_50hz", "--draws", "5000"}, {}, [](int process) {
            ::sleep(3);
            ::kill(process, SIGTERM);
        });
    EXPECT_EQ(run.exit_code, 1) << run.errors;
    EXPECT_TRUE(holds(run.output, "ENDED EARLY, after "));
    EXPECT_TRUE(holds(run.output, "On site"));
}

}  // namespace
