// How far a part of the start has come: still going, finished, or failed for a reason.
#pragma once

#include "firmware/sequence/state.hpp"

namespace firmware {

struct Progress {
    enum class Kind : std::uint8_t { going, finished, failed };

    Kind kind = Kind::going;
    Reason reason = Reason::none;

    static constexpr Progress going() { return {}; }
    static constexpr Progress finished() { return {Kind::finished, Reason::none}; }
    static constexpr Progress failed(Reason why) { return {Kind::failed, why}; }
};

}  // namespace firmware
