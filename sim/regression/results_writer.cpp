#include "sim/regression/results_writer.hpp"

#include <string>

namespace sim {

namespace {

std::string insert_into(const char* table, std::size_t columns) {
    std::string places = "?";
    for (std::size_t k = 1; k < columns; ++k) {
        places += ", ?";
    }
    return "INSERT INTO " + std::string(table) + " VALUES (" + places + ")";
}

}  // namespace

ResultsWriter::ResultsWriter(Database& database, std::size_t figure_count)
    : figure_count_(figure_count),
      case_(database.prepare(insert_into("cases", 10))),
      input_(database.prepare(insert_into("inputs", 3))),
      start_(database.prepare(insert_into("starts", 6 + figure_count))),
      broken_(database.prepare(insert_into("broken", 4))) {}

void ResultsWriter::put(const CaseRecord& record) {
    case_.bind(0, record.id);
    const CasePlace& place = record.place;
    int column = 1;
    for (const std::string* side : {&place.block, &place.compressor, &place.supply,
                                    &place.condition, &place.fault, &place.setting}) {
        case_.bind(column++, *side);
    }
    case_.bind(7, std::int64_t{record.seed});
    case_.bind(8, record.scenario_hash);
    case_.bind(9, record.settings_hash);
    case_.run();
    for (const DrawnInput& input : record.inputs) {
        input_.bind(0, record.id);
        input_.bind(1, input.name);
        input_.bind(2, input.value);
        input_.run();
    }
    for (const StartRow& row : record.starts) {
        start_.bind(0, record.id);
        start_.bind(1, std::int64_t{row.start});
        start_.bind(2, row.outcome);
        start_.bind(3, row.cause);
        start_.bind(4, row.expected);
        start_.bind(5, std::int64_t{row.passed ? 1 : 0});
        for (std::size_t k = 0; k < figure_count_ && k < row.figures.size(); ++k) {
            start_.bind(6 + static_cast<int>(k), row.figures[k]);
        }
        start_.run();
        for (const BrokenRequirement& broken : row.broken) {
            broken_.bind(0, record.id);
            broken_.bind(1, std::int64_t{row.start});
            broken_.bind(2, broken.requirement);
            broken_.bind(3, broken.words);
            broken_.run();
        }
    }
}

}  // namespace sim
