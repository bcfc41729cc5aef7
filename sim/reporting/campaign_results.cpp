#include "sim/reporting/campaign_results.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace sim {

bool ReportedStart::has_no_result() const {
    return outcome == "crashed" || outcome == "hung" || outcome == "run_failed" ||
           outcome == "bad_input";
}

bool ReportedCase::passed() const {
    return std::all_of(starts.begin(), starts.end(),
                       [](const ReportedStart& one) { return one.passed; });
}

std::int64_t CampaignResults::start_count() const {
    std::int64_t count = 0;
    for (const ReportedCase& one : cases) {
        count += static_cast<std::int64_t>(one.starts.size());
    }
    return count;
}

std::int64_t CampaignResults::passed_start_count() const {
    std::int64_t count = 0;
    for (const ReportedCase& one : cases) {
        count += std::count_if(one.starts.begin(), one.starts.end(),
                               [](const ReportedStart& start) { return start.passed; });
    }
    return count;
}

std::optional<std::size_t> CampaignResults::figure_index(const std::string& name) const {
    const auto found = std::find(figures.begin(), figures.end(), name);
    if (found == figures.end()) {
        return std::nullopt;
    }
    return static_cast<std::size_t>(found - figures.begin());
}

const std::vector<MatrixSide>& matrix_sides() {
    static const std::vector<MatrixSide> sides = {
        {"block", &CasePlace::block},   {"compressor", &CasePlace::compressor},
        {"supply", &CasePlace::supply}, {"condition", &CasePlace::condition},
        {"fault", &CasePlace::fault},   {"setting", &CasePlace::setting},
    };
    return sides;
}

std::string place_words(const CasePlace& place) {
    std::string words = place.compressor;
    if (!place.supply.empty()) {
        words += (words.empty() ? "on " : " on ") + place.supply;
    }
    for (const std::string* more : {&place.condition, &place.fault, &place.setting}) {
        if (!more->empty()) {
            words += (words.empty() ? "" : ", ") + *more;
        }
    }
    return words.empty() ? place.block : words;
}

std::string rerun_command(const CampaignIdentity& identity, std::int64_t case_id) {
    return fmt::format("runup start --case {}#{}", identity.suite, case_id);
}

}  // namespace sim
