// A lesson: one idea, as a page for people who are being taught. A situation and a question come
// first; the answer is folded away and holds only numbers that the lesson's own runs gave.
//
// Scenarios are bundled in the program, so a lesson works in any folder. What a lesson says in
// words holds as long as its runs end as their scenarios expect; one that does not is told on its
// page and in the exit code.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "sim/pages/page.hpp"
#include "sim/pages/start_page.hpp"
#include "sim/scenario/scenario.hpp"

namespace sim {

/// What a lesson's runs were made to say.
struct LessonContent {
    std::string situation;
    std::string question;
    std::vector<PagePart> answer;
    /// One line for each run of what did not end as the lesson expects; empty if all did.
    std::vector<std::string> surprises;
    std::string scenario;  ///< the bundled scenario that it is about
};

struct Lesson {
    std::string_view file;  ///< the page's name
    std::string_view title;
    LessonContent (*run)();
};

/// In the order in which they are taught. Adding one: write its file here, name it in
/// lesson_list.cpp.
const std::vector<Lesson>& lessons();

/// `next`: null for the last one.
Page lesson_page(const Lesson& lesson, const LessonContent& content, const Lesson* next);

/// Of all lessons, each with its question.
Page lesson_index(const std::vector<LessonContent>& contents);

/// Throws std::logic_error if it is not bundled.
Scenario bundled_scenario(std::string_view name);

/// Runs it and tells a surprise if it does not end as expected.
RecordedStart run_for_lesson(const Scenario& scenario, LessonContent& content);

LessonContent small_inverter_lesson();
LessonContent locked_rotor_lesson();
LessonContent short_rest_lesson();
LessonContent reverse_scroll_lesson();
LessonContent weak_capacitor_lesson();
LessonContent learning_lesson();

}  // namespace sim
