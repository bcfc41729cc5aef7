// What a campaign came to, for people.
#pragma once

#include <string>

#include "sim/regression/regress_summary.hpp"

namespace sim {

/// What the words around the numbers name.
struct RegressNames {
    std::string suite;    ///< as the user gave it
    std::string results;  ///< the file
};

std::string regress_text(const RegressSummary& summary, const RegressNames& names);
/// One line.
std::string regress_verdict(const RegressSummary& summary);

}  // namespace sim
