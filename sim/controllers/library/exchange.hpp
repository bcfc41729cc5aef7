// The memory that the bench and the process of a controller library share, and how a request gets
// its reply through it.
//
// One request at a time. The bench fills in what it asks and raises `asked`; the host carries it
// out, fills in the reply and raises `answered` to the same number. Whoever waits sleeps on the
// number (futex). Looking again and again instead is faster on a machine with nothing else to do,
// and ten times slower in a campaign that keeps every processor busy.
//
// The library can write to all of this, so the bench copies what it takes and believes none of it.
#pragma once

#include <atomic>
#include <cstdint>

#include "firmware/contract/frames.hpp"
#include "firmware/contract/store.hpp"

namespace sim {

inline constexpr std::size_t most_library_variables = 64;
inline constexpr std::size_t library_variable_name_bytes = 64;
inline constexpr std::size_t library_path_bytes = 4096;
inline constexpr std::size_t library_options_bytes = 256;
inline constexpr std::size_t library_words_bytes = 400;

enum class HostRequest : std::uint32_t { load, create, tick, sleep, destroy };

enum class HostReply : std::uint32_t {
    done,
    cannot_load,     ///< words: what the loader says
    symbol_missing,  ///< words: the symbol
    wrong_version,   ///< version: the library's
    refused,         ///< words: why, perhaps empty
    threw,           ///< words: what the exception says, perhaps empty
};

struct Exchange {
    std::atomic<std::uint32_t> asked{0};
    std::atomic<std::uint32_t> answered{0};
    std::atomic<std::uint32_t> host_sleeps{0};
    std::atomic<std::uint32_t> bench_sleeps{0};

    HostRequest request{};
    HostReply reply{};
    std::uint32_t bench_process = 0;  ///< the host ends when this is no longer its parent

    // Of a tick.
    firmware::SensorFrame samples;
    firmware::ActuatorFrame outputs;
    firmware::StoreCommand store_command;
    std::uint32_t sleep_ticks = 0;

    // Of a power-up.
    firmware::StorePages store{};
    std::int32_t rated_voltage_V = 0;
    std::int32_t run_capacitor_fitted = 0;
    char path[library_path_bytes]{};
    char options[library_options_bytes]{};

    // What came back from loading.
    std::uint32_t version = 0;
    std::uint32_t tells_states = 0;
    std::uint32_t variable_count = 0;
    char variable_names[most_library_variables][library_variable_name_bytes]{};
    std::int64_t variables[most_library_variables]{};
    char words[library_words_bytes]{};
};
static_assert(std::atomic<std::uint32_t>::is_always_lock_free, "shared between processes");

/// Raises `number` to `value` and wakes whoever sleeps on it.
void raise(std::atomic<std::uint32_t>& number, std::uint32_t value,
           const std::atomic<std::uint32_t>& sleeps);

/// Until `number` is `value`, or is changed, or at most for that long; false if it is not.
bool wait_for(const std::atomic<std::uint32_t>& number, std::uint32_t value,
              std::atomic<std::uint32_t>& sleeps, std::int64_t most_ns);

}  // namespace sim
