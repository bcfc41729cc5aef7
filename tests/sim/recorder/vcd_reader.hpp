// Reads value change dumps by the grammar of IEEE 1364 (recalled; clause 18), as far as simulators
// write it, and refuses everything else.
#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <utility>
#include <vector>

namespace sim_test {

struct VcdSignal {
    std::string type;
    int bits = 0;
    /// Time and value; a vector's value has all of its bits, a repeated value is left out.
    std::vector<std::pair<std::int64_t, std::string>> changes;

    /// In force at a time, after everything that happens then.
    const std::string& at(std::int64_t time) const;
};

struct VcdDump {
    std::string timescale;
    std::map<std::string, VcdSignal> signals;  ///< by scopes and name, with points between
    std::int64_t end = 0;                      ///< the last time
};

/// Throws std::runtime_error that says what is wrong.
VcdDump read_vcd(const std::string& text);

}  // namespace sim_test
