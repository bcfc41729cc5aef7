// The lessons: what they say holds, and is said by their runs.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <set>
#include <string>
#include <variant>

#include "bench/cases.hpp"
#include "sim/bench/start_run.hpp"
#include "sim/lessons/lesson.hpp"
#include "sim/library/library.hpp"

namespace {

/// All text of the answer.
std::string answer_text(const sim::LessonContent& content) {
    std::string text;
    for (const sim::PagePart& part : content.answer) {
        if (const auto* paragraph = std::get_if<sim::Paragraph>(&part)) {
            text += paragraph->text + "\n";
        }
    }
    return text;
}

bool has_plot(const sim::LessonContent& content) {
    for (const sim::PagePart& part : content.answer) {
        if (std::holds_alternative<sim::Plot>(part)) {
            return true;
        }
    }
    return false;
}

TEST(BundledScenarioTexts, AreThoseOfTheFolder) {
    std::set<std::string> names;
    for (const sim::LibraryEntry& entry : sim::bundled_scenarios()) {
        names.insert(std::string(entry.name));
        EXPECT_EQ(sim::bundled_scenario(entry.name).title,
                  sim_test::bundled(std::string(entry.name)).title);
    }
    const auto in_folder = sim_test::bundled_names();
    EXPECT_EQ(names, std::set<std::string>(in_folder.begin(), in_folder.end()));
}

TEST(Lessons, RunAsTheyExpect) {
    for (const sim::Lesson& lesson : sim::lessons()) {
        const sim::LessonContent content = lesson.run();
        EXPECT_TRUE(content.surprises.empty()) << lesson.title << ": " << content.surprises.front();
        EXPECT_TRUE(has_plot(content)) << lesson.title;
    }
}

TEST(Lessons, TellARunThatDoesNotEndAsExpected) {
    sim::Scenario scenario = sim::bundled_scenario("reference_limited");
    scenario.expect.outcome = sim::Outcome::stalled;
    sim::LessonContent content;
    content.scenario = "reference_limited";
    sim::run_for_lesson(scenario, content);
    ASSERT_EQ(content.surprises.size(), 1U);
    const std::string page =
        sim::render(sim::lesson_page(sim::lessons().front(), content, nullptr));
    EXPECT_NE(page.find("did not end as this lesson expects"), std::string::npos);
}

TEST(Lessons, AskFirstAndFoldTheAnswerAway) {
    for (const sim::Lesson& lesson : sim::lessons()) {
        const sim::LessonContent content = lesson.run();
        const sim::Page page = sim::lesson_page(lesson, content, nullptr);
        bool asked = false;
        for (const sim::Section& section : page.sections) {
            asked = asked || section.heading == "Question";
            if (!asked) {
                // Before the question stands only the situation.
                ASSERT_EQ(section.parts.size(), 1U);
                EXPECT_EQ(std::get<sim::Paragraph>(section.parts.front()).text, content.situation);
            }
            for (const sim::PagePart& part : section.parts) {
                const bool answers = std::holds_alternative<sim::Plot>(part) ||
                                     std::holds_alternative<sim::Table>(part);
                EXPECT_TRUE(!answers || !section.folded_behind.empty()) << lesson.title;
            }
        }
        EXPECT_TRUE(asked);
        EXPECT_EQ(content.question.back(), '?') << lesson.title;
    }
}

// Independent of how the lesson gets at them: the numbers in its sentences are those of a run here.
TEST(Lessons, SayTheNumbersOfTheirRuns) {
    const sim::StartResult limited = sim::run_start(sim_test::bundled("hut_inverter"));
    const std::string inverter = answer_text(sim::small_inverter_lesson());
    EXPECT_NE(inverter.find(fmt::format("comes up in {:.2f} s", *limited.figures.time_to_speed_s)),
              std::string::npos)
        << inverter;
    // The design case: 80.3 A and 1.10 N m with the rotor locked.
    EXPECT_NE(inverter.find("80.3 A"), std::string::npos) << inverter;
    EXPECT_NE(inverter.find("1.10 N m"), std::string::npos) << inverter;

    const sim::StartResult cut = sim::run_start(sim_test::bundled("clinic_power_cut"));
    EXPECT_NE(answer_text(sim::reverse_scroll_lesson())
                  .find(fmt::format("it turns at {:.0f} r/min", cut.figures.final_speed_rpm)),
              std::string::npos);

    const sim::StartResult seized = sim::run_start(sim_test::bundled("creamery_seized_piston"));
    EXPECT_NE(answer_text(sim::locked_rotor_lesson())
                  .find(fmt::format("{:.0f} J heat the windings", seized.energy.copper_J)),
              std::string::npos);

    const sim::StartResult soon = sim::run_start(sim_test::bundled("bakery_short_rest"));
    EXPECT_NE(answer_text(sim::short_rest_lesson())
                  .find(fmt::format("{:.1f} A over 100 ms when it fails",
                                    *soon.figures.line_current_inrush_100ms_rms_A)),
              std::string::npos);
}

TEST(Lessons, HaveTheSameBytesEveryTime) {
    const sim::Lesson& lesson = sim::lessons().front();
    EXPECT_EQ(sim::render(sim::lesson_page(lesson, lesson.run(), nullptr)),
              sim::render(sim::lesson_page(lesson, lesson.run(), nullptr)));
}

TEST(LessonIndex, LeadsToEveryLesson) {
    std::vector<sim::LessonContent> contents(sim::lessons().size());
    const std::string index = sim::render(sim::lesson_index(contents));
    for (const sim::Lesson& lesson : sim::lessons()) {
        EXPECT_NE(index.find("href=\"" + std::string(lesson.file) + "\""), std::string::npos);
    }
}

}  // namespace
