// The finished results file: every row in the order of its case, written in one go, so that its
// bytes follow from its content alone, however the cases came about. It takes its name only when
// every byte has reached the disk.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "sim/regression/case_record.hpp"
#include "sim/regression/database.hpp"

namespace sim {

/// Writes the rows of `source`, an attached database of this connection, with `campaign` as theirs.
/// `attach` is called with the connection to the new file, to attach it. Throws OutputError.
void write_whole_results(const std::string& target, const CampaignRow& campaign,
                         const std::vector<std::string>& figures, const std::string& source,
                         const std::function<void(Database&)>& attach);

/// ATTACH, with the path as it is.
void attach(Database& database, const std::string& path, const std::string& name);

}  // namespace sim
