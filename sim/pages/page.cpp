#include "sim/pages/page.hpp"

#include <fmt/format.h>

#include <map>
#include <string_view>

#include "sim/pages/heat_map_html.hpp"
#include "sim/pages/histogram_html.hpp"
#include "sim/pages/html_text.hpp"
#include "sim/pages/page_assets.hpp"
#include "sim/pages/plot_html.hpp"
#include "sim/results/cautions.hpp"

namespace sim {

namespace {

std::string html_of(const Paragraph& paragraph) {
    return "<p>" + html_text(paragraph.text) + "</p>\n";
}

std::string html_of(const Notice& notice) {
    return "<p class=\"notice\" role=\"note\">" + html_text(notice.text) + "</p>\n";
}

std::string html_of(const Link& link) {
    return fmt::format("<p><a href=\"{}\">{}</a>{}</p>\n", html_text(link.file),
                       html_text(link.text),
                       link.remarks.empty() ? "" : " " + html_text(link.remarks));
}

std::string html_of(const Listing& listing) {
    return "<pre>" + html_text(listing.text) + "</pre>\n";
}

std::string html_of(const Plot& plot) {
    return plot_html(plot);
}

std::string html_of(const HeatMap& map) {
    return heat_map_html(map);
}

std::string html_of(const Histograms& histograms) {
    return histograms_html(histograms);
}

std::string html_of(const Table& table) {
    std::string text = "<div class=\"table\"><table>\n";
    if (!table.caption.empty()) {
        text += "<caption><span>" + html_text(table.caption) + "</span></caption>\n";
    }
    text += "<thead><tr>";
    for (const std::string& column : table.columns) {
        text += "<th scope=\"col\">" + html_text(column) + "</th>";
    }
    text += "</tr></thead>\n<tbody>\n";
    for (const std::vector<std::string>& row : table.rows) {
        text += "<tr>";
        for (std::size_t k = 0; k < row.size(); ++k) {
            text += k == 0 ? "<th scope=\"row\">" + html_text(row[k]) + "</th>"
                           : "<td>" + html_text(row[k]) + "</td>";
        }
        text += "</tr>\n";
    }
    return text + "</tbody></table></div>\n";
}

std::string html_of(const Section& section) {
    std::string text = "<section>\n";
    if (!section.heading.empty()) {
        text += "<h2>" + html_text(section.heading) + "</h2>\n";
    }
    if (!section.folded_behind.empty()) {
        text += "<details><summary>" + html_text(section.folded_behind) + "</summary>\n";
    }
    for (const PagePart& part : section.parts) {
        text += std::visit([](const auto& one) { return html_of(one); }, part);
    }
    return text + (section.folded_behind.empty() ? "" : "</details>\n") + "</section>\n";
}

/// Once, from left to right: what is filled in is never looked at again.
std::string filled(std::string_view page_template,
                   const std::map<std::string_view, std::string_view>& contents) {
    constexpr std::size_t braces = 2;
    std::string text;
    for (;;) {
        const std::size_t open = page_template.find("{{");
        text += page_template.substr(0, open);
        if (open == std::string_view::npos) {
            return text;
        }
        const std::size_t close = page_template.find("}}", open);
        text += contents.at(page_template.substr(open + braces, close - open - braces));
        page_template.remove_prefix(close + braces);
    }
}

}  // namespace

std::string render(const Page& page) {
    std::string content;
    for (const Section& section : page.sections) {
        content += html_of(section);
    }
    const std::string title = html_text(page.title);
    const std::string lead =
        page.lead.empty() ? "" : "<p class=\"lead\">" + html_text(page.lead) + "</p>\n";
    const std::string caution_text = html_text(cautions);
    return filled(page_template(), {{"title", title},
                                    {"lead", lead},
                                    {"content", content},
                                    {"cautions", caution_text},
                                    {"style", page_style()},
                                    {"script", page_script()},
                                    {"style_hash", page_style_hash()},
                                    {"script_hash", page_script_hash()}});
}

}  // namespace sim
