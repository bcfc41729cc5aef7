#include "sim/commands/report_files.hpp"

#include "sim/pages/campaign_page.hpp"
#include "sim/results/campaign_csv.hpp"
#include "sim/results/junit_xml.hpp"

namespace sim {

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

ReportFiles::ReportFiles(const ReportPaths& paths)
    : junit_(paths.junit), csv_(paths.csv), page_(paths.page) {}

void ReportFiles::write(const CampaignResults& results) {
    if (junit_) {
        junit_.put(junit_xml(results));
    }
    if (csv_) {
        csv_.put(campaign_csv(results));
    }
    if (page_) {
        page_.put(render(campaign_page(results)));
    }
}

}  // namespace sim
