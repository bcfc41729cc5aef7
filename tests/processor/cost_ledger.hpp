// Compares a processor's answers with this build's controller, and books what every step costs by
// the state that it ends in. Keeps what had gone into the processor, from its power-up on, when the
// dearest step came.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "firmware/sequence/state.hpp"
#include "sim/controllers/beside_host.hpp"

namespace processor_tests {

/// One thing that went into a processor: a rest if `rest_ticks` is not 0, else samples.
struct Input {
    std::uint32_t rest_ticks = 0;
    firmware::SensorFrame samples;
};

/// Everything since a power-up.
struct Life {
    firmware::Settings settings;
    firmware::StorePages store{};
    std::vector<Input> inputs;
};

class CostLedger final : public sim::ProcessorWitness {
  public:
    Objection powered_up(const firmware::Settings& settings, const firmware::StorePages& store,
                         const firmware::board::Answer& answer) override;
    Objection stepped(const firmware::SensorFrame& samples, const firmware::board::Answer& answer,
                      std::int64_t instructions) override;
    Objection rested(firmware::Ticks ticks, const firmware::board::Answer& answer) override;

    struct OfState {
        std::int64_t steps = 0;
        std::int64_t instructions = 0;
        std::int64_t most = 0;
        std::string where;  ///< the case of the dearest
    };
    const std::array<OfState, firmware::state_count>& by_state() const { return by_state_; }
    std::int64_t most() const { return most_; }
    std::int64_t compared() const { return beside_.compared(); }
    /// That led to the dearest step, which is its last.
    const Life& dearest() const { return dearest_; }

    /// Of the steps from now on.
    void name_case(const std::string& name) { name_ = name; }

  private:
    sim::BesideHost beside_;
    std::string name_;
    Life life_;
    Life dearest_;
    std::int64_t most_ = 0;
    std::array<OfState, firmware::state_count> by_state_;
};

}  // namespace processor_tests
