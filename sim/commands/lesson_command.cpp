// runup lesson FOLDER: pages for a trainer, each with one idea, a question, and its answer.
#include <fmt/format.h>

#include <filesystem>
#include <list>
#include <memory>
#include <nlohmann/json.hpp>
#include <string>
#include <system_error>
#include <vector>

#include "sim/commands/asked_output.hpp"
#include "sim/commands/command_list.hpp"
#include "sim/commands/counter.hpp"
#include "sim/files/atomic_output.hpp"
#include "sim/files/output_error.hpp"
#include "sim/lessons/lesson.hpp"

namespace sim {

namespace {

constexpr const char* index_file = "index.html";

struct LessonOptions {
    std::string folder;
    std::string json;
    bool quiet = false;
};

std::string path_in(const LessonOptions& options, std::string_view file) {
    return (std::filesystem::path(options.folder) / std::string(file)).string();
}

void make_folder(const std::string& folder) {
    std::error_code error;
    std::filesystem::create_directories(folder, error);
    if (error) {
        throw OutputError(folder, error.message());
    }
}

std::string listing(const LessonOptions& options, const std::vector<LessonContent>& contents) {
    std::string text;
    for (std::size_t k = 0; k < contents.size(); ++k) {
        const Lesson& lesson = lessons().at(k);
        text += fmt::format("  {:<24} {}\n", lesson.file, lesson.title);
        for (const std::string& surprise : contents[k].surprises) {
            text += "    " + surprise + "\n";
        }
    }
    return text + fmt::format("Open {} in a browser.\n", path_in(options, index_file));
}

nlohmann::ordered_json lesson_json(const std::vector<LessonContent>& contents) {
    nlohmann::ordered_json list = nlohmann::ordered_json::array();
    for (std::size_t k = 0; k < contents.size(); ++k) {
        list.push_back({{"file", lessons().at(k).file},
                        {"title", lessons().at(k).title},
                        {"scenario", contents[k].scenario},
                        {"as_expected", contents[k].surprises.empty()}});
    }
    return {{"schema", "runup.lesson/1"}, {"index", index_file}, {"lessons", std::move(list)}};
}

int run(const LessonOptions& options) {
    make_folder(options.folder);
    // Opened before the work, so that a wrong path costs no time.
    AskedOutput json(options.json);
    AtomicOutput index(path_in(options, index_file));
    std::list<AtomicOutput> files;
    for (const Lesson& lesson : lessons()) {
        files.emplace_back(path_in(options, lesson.file));
    }

    Counter counter("lessons");
    std::vector<LessonContent> contents;
    bool as_expected = true;
    auto file = files.begin();
    for (std::size_t k = 0; k < lessons().size(); ++k, ++file) {
        counter.show(static_cast<int>(k), static_cast<int>(lessons().size()));
        const Lesson& lesson = lessons()[k];
        contents.push_back(lesson.run());
        as_expected = as_expected && contents.back().surprises.empty();
        const Lesson* next = k + 1 < lessons().size() ? &lessons()[k + 1] : nullptr;
        file->write(render(lesson_page(lesson, contents.back(), next)));
    }
    counter.clear();
    index.write(render(lesson_index(contents)));
    for (AtomicOutput& one : files) {
        one.commit();
    }
    index.commit();
    if (json) {
        json.put(lesson_json(contents));
    }
    if (options.json != "-" && !options.quiet) {
        AtomicOutput output("-");
        output.write(listing(options, contents));
        output.commit();
    }
    return as_expected ? ended_as_expected : ended_otherwise;
}

}  // namespace

void add_lesson_command(CLI::App& app, int& exit_code) {
    auto options = std::make_shared<LessonOptions>();
    CLI::App* lesson = app.add_subcommand(
        "lesson", "Write pages to teach with: a question each, and its answer with the waves");
    lesson->add_option("FOLDER", options->folder, "where to; made if it is not there")->required();
    lesson
        ->add_option("--json", options->json,
                     "write the list of pages as JSON to FILE, - for standard output")
        ->type_name("FILE");
    lesson->add_flag("--quiet", options->quiet, "print nothing");
    lesson->footer(
        "Example: runup lesson lessons\n"
        "Other files in the folder are left alone. Exit code: 0 each run ended as its lesson\n"
        "expects, 1 one did not, 2 the folder cannot be written, 3 a run failed.");
    lesson->callback([options, &exit_code] { exit_code = run(*options); });
}

}  // namespace sim
