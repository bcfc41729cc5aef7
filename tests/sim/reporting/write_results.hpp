// A results file as the engine writes it, of made-up cases.
#pragma once

#include <string>

#include "sim/regression/results_schema.hpp"
#include "sim/regression/results_writer.hpp"
#include "sim/reporting/campaign_results.hpp"

namespace sim_test {

inline std::string write_results(const std::string& path, sim::CampaignResults results) {
    results.campaign.schema = sim::results_schema_version;
    sim::Database database(path, sim::Database::Access::change);
    sim::make_results_tables(database, "main", results.campaign, results.figures);
    sim::ResultsWriter writer(database, results.figures.size());
    for (const sim::CaseRecord& one : results.cases) {
        writer.put(one);
    }
    return path;
}

}  // namespace sim_test
