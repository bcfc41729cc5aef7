#include "cost_ledger.hpp"

namespace processor_tests {

using firmware::board::Answer;

CostLedger::Objection CostLedger::powered_up(const firmware::Settings& settings,
                                             const firmware::StorePages& store,
                                             const Answer& answer) {
    life_.settings = settings;
    life_.store = store;
    life_.inputs.clear();
    return beside_.powered_up(settings, store, answer);
}

CostLedger::Objection CostLedger::stepped(const firmware::SensorFrame& samples,
                                          const Answer& answer, std::int64_t instructions) {
    life_.inputs.push_back({0, samples});
    OfState& state = by_state_[static_cast<std::size_t>(answer.telemetry.state)];
    ++state.steps;
    state.instructions += instructions;
    if (instructions > state.most) {
        state.most = instructions;
        state.where = name_;
    }
    if (instructions > most_) {
        most_ = instructions;
        dearest_ = life_;
    }
    return beside_.stepped(samples, answer, instructions);
}

CostLedger::Objection CostLedger::rested(firmware::Ticks ticks, const Answer& answer) {
    life_.inputs.push_back({ticks.count(), {}});
    return beside_.rested(ticks, answer);
}

}  // namespace processor_tests
