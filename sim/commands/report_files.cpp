#include "sim/commands/report_files.hpp"

#include "sim/pages/campaign_page.hpp"
#include "sim/results/campaign_csv.hpp"
#include "sim/results/junit_xml.hpp"

namespace sim {

namespace {

void open(std::optional<AtomicOutput>& output, const std::string& path) {
    if (!path.empty()) {
        output.emplace(path);
    }
}

void put(AtomicOutput& output, const std::string& bytes) {
    output.write(bytes);
    output.commit();
}

}  // namespace

void add_report_options(CLI::App& command, ReportPaths& paths) {
    command
        .add_option("--junit", paths.junit,
                    "write the JUnit XML that continuous-integration servers read to FILE: a test "
                    "for every case")
        ->type_name("FILE");
    command.add_option("--csv", paths.csv, "write a row for every start (RFC 4180) to FILE")
        ->type_name("FILE");
    command
        .add_option("--page", paths.page,
                    "write a page with heat maps and distributions to look at in a browser to FILE")
        ->type_name("FILE");
}

ReportFiles::ReportFiles(const ReportPaths& paths) {
    open(junit_, paths.junit);
    open(csv_, paths.csv);
    open(page_, paths.page);
}

void ReportFiles::write(const CampaignResults& results) {
    if (junit_) {
        put(*junit_, junit_xml(results));
    }
    if (csv_) {
        put(*csv_, campaign_csv(results));
    }
    if (page_) {
        put(*page_, render(campaign_page(results)));
    }
}

}  // namespace sim
