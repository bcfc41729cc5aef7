// A ladder of stages, as the ramp law climbs it and as the learning adjusts it.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>

#include "firmware/settings/settings.hpp"
#include "firmware/units/units.hpp"

namespace firmware {

struct LadderStage {
    Permille target;  ///< of the locked-rotor current at full conduction
    Ticks dwell;
};

struct Ladder {
    std::array<LadderStage, Settings::most_stages> stages{};
    std::uint8_t count = 0;
};

/// The ladder that the settings describe.
inline Ladder factory_ladder(const Settings& settings) {
    Ladder ladder;
    ladder.count = static_cast<std::uint8_t>(settings.stage_count);
    for (std::size_t i = 0; i < ladder.stages.size() && i < ladder.count; ++i) {
        ladder.stages[i] = {Permille{settings.stages[i].target_permille},
                            ticks_from_ms(settings.stages[i].dwell_ms)};
    }
    return ladder;
}

}  // namespace firmware
