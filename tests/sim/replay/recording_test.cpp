// The file of a recording: whole, or refused in one sentence.
#include "sim/replay/recording.hpp"

#include <gtest/gtest.h>

#include <string>

#include "bench/cases.hpp"
#include "replay/recorded_start.hpp"
#include "sim/controllers/commissioned_store.hpp"
#include "sim/files/input_error.hpp"

namespace {

std::string short_recording() {
    sim::Scenario scenario = sim_test::bundled("reference_limited");
    scenario.run.duration_s = 0.003;
    return sim_test::recorded_start(scenario);
}

std::string refusal(const std::string& text) {
    const sim_test::TemporaryFolder folder;
    const std::string path = folder.put("a.rec", text);
    try {
        sim::read_recording(path);
    } catch (const sim::InputError& error) {
        const std::string words = error.what();
        return words.substr(path.size() - 5);
    }
    return "accepted";
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
    const std::size_t at = text.find(from);
    EXPECT_NE(at, std::string::npos) << from;
    return text.replace(at, from.size(), to);
}

TEST(Recording, HoldsTheBeginningAndEveryTick) {
    sim::Scenario scenario = sim_test::bundled("reference_limited");
    scenario.run.duration_s = 0.003;
    const sim::Recording recording = sim_test::read_back(short_recording());
    EXPECT_EQ(recording.events.size(), 30U);
    EXPECT_EQ(recording.beginning.scenario, "reference_limited");
    EXPECT_EQ(recording.beginning.page_erase, sim::usual_page_erase);
    ASSERT_TRUE(recording.beginning.settings.has_value());
    EXPECT_EQ(recording.beginning.settings->rated_voltage_V, 230) << "as installed";
    const firmware::StorePages store = sim::commissioned_store();
    for (std::size_t page = 0; page < firmware::store_page_count; ++page) {
        for (std::size_t k = 0; k < firmware::store_page_words; ++k) {
            EXPECT_EQ(recording.beginning.store.words[page][k], store.words[page][k]);
        }
    }
    EXPECT_EQ(recording.events.front().samples.call_for_cooling, 1);
    EXPECT_NEAR(recording.events.front().samples.line_voltage_counts, 2048, 2);
}

TEST(Recording, ThatIsCutShortIsRefusedWhereverItIsCut) {
    const std::string text = short_recording();
    ASSERT_EQ(refusal(text), "accepted");
    // The last line end alone tells nothing.
    for (std::size_t length = text.size() - 2; length > 40; length -= length > 4000 ? 1 : 37) {
        ASSERT_NE(refusal(text.substr(0, length)), "accepted") << length;
    }
    EXPECT_EQ(refusal(text.substr(0, text.find("end,"))),
              "a.rec:32: the recording is cut short: its last line, end, is missing; record it "
              "again");
}

TEST(Recording, ThatWasChangedIsRefusedInOneSentence) {
    const std::string text = short_recording();
    EXPECT_EQ(refusal("time_s,line_voltage_V\n"),
              "a.rec:1: this is no recording; give a file that runup start --record has written");
    EXPECT_EQ(refusal(""),
              "a.rec: the file is empty; give a file that runup start --record has "
              "written");
    EXPECT_EQ(refusal(replaced(text, "end,30", "end,31")),
              "a.rec:33: the end of the recording does not fit its ticks; record it again");
    EXPECT_EQ(refusal(replaced(text, "end,30", "rest,-1\nend,30")),
              "a.rec:33: \"-1\" is not accepted; give a whole number from 0 to 4294967295");
    EXPECT_EQ(refusal(replaced(text, "end,30", "power_lost,burnt,0\nend,30")),
              "a.rec:33: \"burnt\" is not accepted; give untouched, in_part, garbage or "
              "reads_as_done");
    EXPECT_EQ(refusal(replaced(text, "end,30", "1,2,3\nend,30")).rfind("a.rec:33: \"1,2,3\"", 0),
              0U);
    EXPECT_EQ(refusal(replaced(text, "\nend,30", ",0\nend,30")), "a.rec:32: more than 11 columns");
    EXPECT_EQ(refusal(replaced(text, "\"frame_version\":1", "\"frame_version\":2"))
                  .rfind("a.rec:1: frame_version: ", 0),
              0U);
    EXPECT_EQ(refusal(replaced(text, "\"page_erase_ticks\":300", "\"page_erase_ticks\":0")),
              "a.rec:1: page_erase_ticks: give a whole number from 1 to 100000");
    EXPECT_EQ(refusal(replaced(text, "4c52", "4c5")),
              "a.rec:1: store: give two pages of 512 hexadecimal digits");
    EXPECT_EQ(refusal(replaced(text, "\"frame_version\":1", "\"frame_version\":\"x\""))
                  .rfind("a.rec:1: frame_version: ", 0),
              0U);
}

}  // namespace
