#include "sim/pages/explain_page.hpp"

#include <fmt/format.h>

#include <string>

#include "sim/results/capitalized.hpp"
#include "sim/results/explain_words.hpp"

namespace sim {

namespace {

Table story_table(const Story& story) {
    Table table;
    table.columns = {"time, s", "what happened"};
    for (const Sentence& one : story) {
        table.rows.push_back({fmt::format("{:.3f}", one.time_s), capitalized(one.text) + "."});
    }
    return table;
}

Table ways_table(const Explanation& explanation) {
    Table table;
    table.columns = {"one thing changed",
                     explanation.comes_up ? "keeps it from coming up" : "brings it up", "how far"};
    for (const bool with_turn : {true, false}) {
        for (const WayOfChange& way : explanation.ways) {
            if (way.turn.has_value() == with_turn && !way.tried.empty()) {
                table.rows.push_back(
                    {way.change.what, with_turn ? "yes" : "no", what_came_of(way, explanation)});
            }
        }
    }
    return table;
}

Section together_section(const TogetherSearch& search) {
    Section section{"Changes taken together", {}, ""};
    if (!search.pairs.empty()) {
        Table table;
        table.caption = "No single change brings it up; these two together do, about that far.";
        table.columns = {"together"};
        for (const ChangedTogether& pair : search.pairs) {
            table.rows.push_back({together_words(pair)});
        }
        section.parts.emplace_back(table);
    } else if (search.minimal_set) {
        section.parts.emplace_back(Paragraph{
            fmt::format("No single change brings it up, and none of {} pairs. All of these do "
                        "together, and none of them can be left out: {}.",
                        search.pairs_tried, together_words(*search.minimal_set))});
    } else {
        section.parts.emplace_back(
            Paragraph{fmt::format("No single change brings it up, none of {} pairs, and not all "
                                  "changes at once.",
                                  search.pairs_tried)});
    }
    return section;
}

}  // namespace

Page explain_page(const Explanation& explanation, const RecordedStart& start) {
    Page page;
    page.title = explanation.start.title;
    page.lead = explained_verdict(explanation);
    for (const std::string& warning : explanation.start.warnings) {
        page.sections.push_back({"", {Notice{"Beware: " + warning + "."}}, ""});
    }
    page.sections.push_back({"What happened", {story_table(explanation.story)}, ""});
    if (!explanation.ways.empty()) {
        page.sections.push_back(
            {"What would have changed it",
             {ways_table(explanation), Paragraph{how_it_was_found(explanation)}},
             ""});
    }
    if (explanation.together) {
        page.sections.push_back(together_section(*explanation.together));
    }
    page.sections.push_back({"", {waveform_plot(start), thinning_words(start.waves)}, ""});
    page.sections.push_back({"", {torque_speed_plot(start)}, ""});
    page.sections.push_back({"Key figures", {figure_table({&start.result})}, ""});
    return page;
}

}  // namespace sim
