#include "sim/reporting/campaign_results.hpp"

#include <algorithm>

#include "sim/regression/rerun_command.hpp"
#include "sim/regression/results_reader.hpp"
#include "sim/suites/bundled_suites.hpp"

namespace sim {

namespace {

bool is_bundled(const std::string& suite) {
    const std::vector<LibraryEntry>& all = bundled_suites();
    return std::any_of(all.begin(), all.end(),
                       [&suite](const LibraryEntry& one) { return one.name == suite; });
}

}  // namespace

CampaignResults read_campaign(const std::string& path) {
    const ResultsReader reader(path);
    CampaignResults results;
    results.campaign = reader.campaign();
    results.rerun_from = path;
    results.figures = reader.figures();
    results.cases.reserve(static_cast<std::size_t>(reader.case_count()));
    reader.each_case([&results](const CaseRecord& record) { results.cases.push_back(record); });
    return results;
}

void judge_by_suite(CampaignResults& results) {
    const CampaignRow& campaign = results.campaign;
    if (campaign.suite_text.empty()) {
        return;
    }
    results.rates = suite_from_text(campaign.suite_text, campaign.suite)->rates();
    if (is_bundled(campaign.suite) && read_suite(campaign.suite)->text() == campaign.suite_text) {
        results.rerun_from = campaign.suite;
    }
}

std::optional<double> figure_of(const StartRow& start, std::size_t place) {
    return place < start.figures.size() ? start.figures[place] : std::nullopt;
}

std::int64_t CampaignResults::start_count() const {
    std::int64_t count = 0;
    for (const CaseRecord& one : cases) {
        count += static_cast<std::int64_t>(one.starts.size());
    }
    return count;
}

std::int64_t CampaignResults::passed_start_count() const {
    std::int64_t count = 0;
    for (const CaseRecord& one : cases) {
        count += std::count_if(one.starts.begin(), one.starts.end(),
                               [](const StartRow& start) { return start.passed; });
    }
    return count;
}

std::optional<std::size_t> CampaignResults::place_of(const std::string& figure) const {
    const auto found = std::find(figures.begin(), figures.end(), figure);
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

std::string rerun_command(const CampaignResults& results, const CaseRecord& one) {
    return rerun_command(results.rerun_from, one.id, one.starts.size() > 1);
}

}  // namespace sim
