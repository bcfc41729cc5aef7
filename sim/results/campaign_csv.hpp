// A campaign as CSV (RFC 4180): a header, then one row a start. Fields are separated by commas,
// rows end in CR LF, and a field that holds a comma, a quote or a line end stands in quotes.
//
// Columns: what the case is, how the start ended, "broken" (the requirements it broke, separated by
// blanks), every drawn input as "drawn:NAME", every figure. What does not exist is empty. Numbers
// are the shortest that read back to the same bits.
#pragma once

#include <string>

#include "sim/reporting/campaign_results.hpp"

namespace sim {

std::string campaign_csv(const CampaignResults& results);

/// One field as it stands in a row.
std::string csv_field(const std::string& text);

}  // namespace sim
