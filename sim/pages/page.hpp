// A page for people: one HTML file that holds everything it needs, opens without a network, and
// asks for nothing. Give it text, tables and plots as data; all of it is escaped here.
//
//   Page page;
//   page.title = "...";
//   page.sections.push_back({"Key figures", {Paragraph{"..."}, Table{...}, Plot{...}}});
//   AtomicOutput file(path);
//   file.write(render(page));
//   file.commit();
//
// Every page ends in the electrical cautions of sim/results/cautions.hpp. The same page gives the
// same bytes.
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "sim/pages/heat_map.hpp"
#include "sim/pages/histogram.hpp"
#include "sim/pages/plot.hpp"

namespace sim {

struct Paragraph {
    std::string text;
};

/// Something that must not be overlooked: a warning, a broken monitor.
struct Notice {
    std::string text;
};

struct Table {
    std::string caption;  ///< may be empty
    std::vector<std::string> columns;
    std::vector<std::vector<std::string>> rows;  ///< the first cell of each heads its row
};

/// To another page beside this one.
struct Link {
    std::string text;
    std::string file;     ///< its name, without a folder
    std::string remarks;  ///< behind it; may be empty
};

/// Of a file, as it stands.
struct Listing {
    std::string text;
};

using PagePart = std::variant<Paragraph, Notice, Table, Plot, HeatMap, Histograms, Link, Listing>;

struct Section {
    std::string heading;
    std::vector<PagePart> parts;
    /// Not empty: all parts are folded away behind these words until somebody asks.
    std::string folded_behind;
};

struct Page {
    std::string title;
    std::string lead;  ///< what it comes to, in a sentence or two; may be empty
    std::vector<Section> sections;
};

std::string render(const Page& page);

}  // namespace sim
