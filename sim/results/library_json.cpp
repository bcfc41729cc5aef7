#include "sim/results/library_json.hpp"

namespace sim {

nlohmann::ordered_json library_json(const std::vector<CompressorOverview>& compressors,
                                    const std::vector<SupplyOverview>& supplies,
                                    const std::vector<SuiteOverview>& suites) {
    using Json = nlohmann::ordered_json;
    Json json;
    json["schema"] = "runup.list/1";
    json["compressors"] = Json::array();
    for (const CompressorOverview& row : compressors) {
        json["compressors"].push_back({{"name", row.name},
                                       {"title", row.title},
                                       {"load", row.load},
                                       {"gas", row.gas.empty() ? Json(nullptr) : Json(row.gas)},
                                       {"voltage_V", row.voltage_V},
                                       {"frequency_Hz", row.frequency_Hz},
                                       {"locked_rotor_A", row.locked_rotor_A},
                                       {"run_capacitor_uF", row.run_capacitor_uF}});
    }
    json["supplies"] = Json::array();
    for (const SupplyOverview& row : supplies) {
        json["supplies"].push_back({{"name", row.name},
                                    {"title", row.title},
                                    {"kind", row.kind},
                                    {"voltage_V", row.voltage_V},
                                    {"frequency_Hz", row.frequency_Hz}});
    }
    json["suites"] = Json::array();
    for (const SuiteOverview& row : suites) {
        json["suites"].push_back({{"name", row.name}, {"title", row.title}});
    }
    return json;
}

}  // namespace sim
