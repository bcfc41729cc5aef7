// The tables of a results file, version 1. RESULTS.md tells them to whoever queries one.
#pragma once

#include <string>
#include <vector>

#include "sim/regression/case_record.hpp"
#include "sim/regression/database.hpp"

namespace sim {

inline constexpr int results_schema_version = 1;

/// Names of figure_list(): the figures that a campaign of this program records.
std::vector<std::string> recorded_figures();

/// Makes the tables, with a column for each of `figures`, and the campaign's row. In the schema
/// `where` of the connection: "main", or the name of an attached file.
void make_results_tables(Database& database, const std::string& where, const CampaignRow& campaign,
                         const std::vector<std::string>& figures);

/// Throws InputError or OutputError if `database` holds no results, or those of another version.
CampaignRow campaign_in(Database& database);
/// The columns of `starts` behind the fixed ones. Throws likewise.
std::vector<std::string> figures_in(Database& database);

}  // namespace sim
