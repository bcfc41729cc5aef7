#include "sim/lessons/lesson.hpp"

#include <fmt/format.h>

#include <stdexcept>
#include <utility>

#include "sim/library/library.hpp"
#include "sim/results/start_words.hpp"
#include "sim/scenario/scenario_reader.hpp"

namespace sim {

namespace {

constexpr const char* index_file = "index.html";

const LibraryEntry& bundled_entry(std::string_view name) {
    const LibraryEntry* entry = find_entry(bundled_scenarios(), name);
    if (entry == nullptr) {
        throw std::logic_error(fmt::format("the scenario {} is not bundled", name));
    }
    return *entry;
}

}  // namespace

Scenario bundled_scenario(std::string_view name) {
    const LibraryEntry& entry = bundled_entry(name);
    return parse_scenario(entry.text, std::string(entry.file));
}

RecordedStart run_for_lesson(const Scenario& scenario, LessonContent& content) {
    RecordedStart start = run_recorded_start(scenario);
    if (start.result.outcome != start.result.expected) {
        content.surprises.push_back(fmt::format(
            "A run of {} did not end as this lesson expects: {} Do not trust the words below.",
            scenario.name, start_sentence(start.result)));
    }
    return start;
}

Page lesson_page(const Lesson& lesson, const LessonContent& content, const Lesson* next) {
    Page page;
    page.title = lesson.title;
    std::vector<PagePart> question;
    for (const std::string& surprise : content.surprises) {
        question.emplace_back(Notice{surprise});
    }
    question.emplace_back(Paragraph{content.situation});
    page.sections.push_back({"", std::move(question), ""});
    page.sections.push_back({"Question", {Paragraph{content.question}}, ""});
    page.sections.push_back({"", content.answer, "Show the answer"});
    const LibraryEntry& scenario = bundled_entry(content.scenario);
    page.sections.push_back(
        {"Try it",
         {Paragraph{fmt::format("Save the scenario as {0}.toml, change a number, and look: runup "
                                "start {0}.toml --page {0}.html",
                                content.scenario)}},
         ""});
    page.sections.push_back({"", {Listing{std::string(scenario.text)}}, "Show the scenario"});
    std::vector<PagePart> links = {Link{"All lessons", index_file, ""}};
    if (next != nullptr) {
        links.emplace_back(Link{"Next: " + std::string(next->title), std::string(next->file), ""});
    }
    page.sections.push_back({"Where next", std::move(links), ""});
    return page;
}

Page lesson_index(const std::vector<LessonContent>& contents) {
    Page page;
    page.title = "Why a compressor does not start";
    page.lead =
        "Each page has one idea: a situation, a question, and behind it the answer, with the "
        "waves of runs that were made for it.";
    for (std::size_t k = 0; k < contents.size(); ++k) {
        const Lesson& lesson = lessons().at(k);
        page.sections.push_back({std::string(lesson.title),
                                 {Paragraph{contents[k].question},
                                  Link{"Go to the lesson", std::string(lesson.file), ""}},
                                 ""});
    }
    return page;
}

}  // namespace sim
