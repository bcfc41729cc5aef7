// A campaign as the XML that continuous-integration servers read: a testsuites element, in it a
// testsuite for every block, in that a testcase for every case.
//
// A case of which a start ended without a result (crashed, hung, ...) has an error element, another
// that did not pass a failure element: its first reason as message, and all of them, the drawn
// inputs and the command that runs it again as text. What the results come from stands among the
// properties. Where a block answers for a rate, a case that only counts against the rate is
// skipped, with the reason, and one more testcase says whether the rate was met. There is no time:
// results hold none, so that the same starts give the same bytes.
#pragma once

#include <string>

#include "sim/reporting/campaign_results.hpp"

namespace sim {

std::string junit_xml(const CampaignResults& results);

}  // namespace sim
