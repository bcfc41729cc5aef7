// Somebody who is told, in order, everything that a controller's port goes through: with the
// settings and the store that it began with, that is all that decides what it answers.
#pragma once

#include <cstdint>

#include "firmware/contract/frames.hpp"
#include "firmware/units/units.hpp"
#include "sim/controllers/flash_store.hpp"

namespace sim {

class PortListener {
  public:
    virtual ~PortListener() = default;
    /// One tick, with power or without.
    virtual void stepped(const firmware::SensorFrame& samples,
                         const firmware::ActuatorFrame& answer) = 0;
    /// So many ticks asleep.
    virtual void rested(firmware::Ticks ticks) = 0;
    virtual void power_lost(Torn torn, std::uint32_t seed) = 0;
    virtual void power_came() = 0;
};

}  // namespace sim
