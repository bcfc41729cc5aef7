// Who may look on while a controller runs on a processor.
#pragma once

#include <cstdint>
#include <optional>

#include "firmware/board/wire.hpp"
#include "firmware/units/units.hpp"
#include "sim/controllers/controller_port.hpp"

namespace sim {

/// Somebody who looks at everything that goes to a processor and comes back, from power-up to
/// power-up. What it finds wrong is the controller's failure.
class ProcessorWitness {
  public:
    virtual ~ProcessorWitness() = default;
    using Objection = std::optional<ControllerFailure>;
    virtual Objection powered_up(const firmware::Settings& settings,
                                 const firmware::StorePages& store,
                                 const firmware::board::Answer& answer) = 0;
    virtual Objection stepped(const firmware::SensorFrame& samples,
                              const firmware::board::Answer& answer, std::int64_t instructions) = 0;
    virtual Objection rested(firmware::Ticks ticks, const firmware::board::Answer& answer) = 0;
};

}  // namespace sim
