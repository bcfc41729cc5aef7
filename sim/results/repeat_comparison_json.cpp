#include "sim/results/repeat_comparison_json.hpp"

#include "sim/results/json_values.hpp"
#include "sim/results/repeat_json.hpp"

namespace sim {

using Json = nlohmann::ordered_json;

Json repeat_comparison_json(const RepeatComparison& comparison) {
    Json json;
    json["schema"] = "runup.repeat_comparison/1";
    json["scenario"] = comparison.scenario;
    json["as_expected"] = comparison.as_expected();
    json["series"] = Json::array();
    for (std::size_t k = 0; k < comparison.series.size(); ++k) {
        const LawSeries& one = comparison.series[k];
        json["series"].push_back(
            {{"learning_law", one.learning_law},
             {"settled_inrush_100ms_rms_A", number_or_null(settled_inrush_A(one.result))},
             {"ratio_to_last", number_or_null(settled_ratio(comparison, k))},
             {"result", repeat_json(one.result)}});
    }
    return json;
}

}  // namespace sim
