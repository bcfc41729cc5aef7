// What goes over the wire between the bench and the controller on its processor, little-endian and
// without padding that matters: both ends copy these structs byte by byte.
//
//   power-up   the processor says Hello; it gets the settings and what the store holds (each as it
//              lies in memory); it gives an Answer
//   then       one Request in, one Answer out, for ever; a Request for the stack gives a StackUse
//
// Who changes anything here, or in a struct that it carries, raises `wire_version`.
#pragma once

#include <cstdint>
#include <type_traits>

#include "firmware/contract/frames.hpp"
#include "firmware/contract/store.hpp"
#include "firmware/settings/settings.hpp"
#include "firmware/telemetry.hpp"

namespace firmware::board {

inline constexpr std::uint32_t wire_version = 1;

/// What the processor was built with; the bench goes on only if it was built with the same.
struct Hello {
    std::uint32_t version = wire_version;
    std::uint32_t frames = frame_version;
    std::uint32_t settings_bytes = sizeof(Settings);
    std::uint32_t telemetry_bytes = sizeof(Telemetry);
};
static_assert(sizeof(Hello) == 16);

enum class RequestKind : std::uint32_t { step = 1, rest = 2, stack_use = 3 };

struct Request {
    RequestKind kind = RequestKind::step;
    std::uint32_t rest_ticks = 0;  ///< of a rest; else 0
    SensorFrame samples;           ///< of a step
};
static_assert(sizeof(Request) == 20);

struct Answer {
    ActuatorFrame frame;     ///< blank but after a step
    StoreCommand command;    ///< none but after a step
    Telemetry telemetry;     ///< after it
    std::uint32_t cost = 0;  ///< of a step or a rest, in counts of the processor's timer
};

/// Since power-up.
struct StackUse {
    std::uint32_t reserved_bytes = 0;
    std::uint32_t used_bytes = 0;  ///< the deepest byte that no longer holds its paint
};

// The compilers of both ends lay them out alike; Hello tells if not.
static_assert(std::is_trivially_copyable_v<Settings> && std::is_trivially_copyable_v<Answer>);

}  // namespace firmware::board
