// Runs this build's own controller beside one on a processor, on the same samples, and finds the
// first answer that is not the same to the bit.
#pragma once

#include <cstdint>
#include <optional>

#include "firmware/controller.hpp"
#include "sim/controllers/processor_witness.hpp"

namespace sim {

class BesideHost final : public ProcessorWitness {
  public:
    Objection powered_up(const firmware::Settings& settings, const firmware::StorePages& store,
                         const firmware::board::Answer& answer) override;
    Objection stepped(const firmware::SensorFrame& samples, const firmware::board::Answer& answer,
                      std::int64_t instructions) override;
    Objection rested(firmware::Ticks ticks, const firmware::board::Answer& answer) override;

    /// Answers that were compared so far.
    std::int64_t compared() const { return compared_; }

  private:
    Objection compare(const firmware::ActuatorFrame& frame, const firmware::board::Answer& answer);

    std::optional<firmware::Controller> host_;
    std::int64_t compared_ = 0;
    std::int64_t power_ups_ = 0;
    std::int64_t ticks_ = 0;  ///< since the last power-up, rests included
};

}  // namespace sim
