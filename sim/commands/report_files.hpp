// The files that a campaign can be told in: --junit, --csv and --page, the same for every
// verb that ends in results.
#pragma once

#include <CLI/CLI.hpp>
#include <string>

#include "sim/commands/asked_output.hpp"
#include "sim/reporting/campaign_results.hpp"

namespace sim {

/// Empty: not asked for. "-": standard output.
struct ReportPaths {
    std::string junit;
    std::string csv;
    std::string page;

    bool any() const { return !(junit.empty() && csv.empty() && page.empty()); }
};

void add_report_options(CLI::App& command, ReportPaths& paths);

class ReportFiles {
  public:
    /// Opens them at once, so that a wrong path costs no work. Throws OutputError.
    explicit ReportFiles(const ReportPaths& paths);

    /// Throws OutputError.
    void write(const CampaignResults& results);

  private:
    AskedOutput junit_;
    AskedOutput csv_;
    AskedOutput page_;
};

}  // namespace sim
