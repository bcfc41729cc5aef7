// A recorded life of a controller as a text file: the rated voltage (all other settings are the
// defaults), what the store held, then one line per tick: rest_ticks, the four sensors, the call.
#pragma once

#include <string>

#include "cost_ledger.hpp"

namespace processor_tests {

void write_life(const Life& life, const std::string& path);
Life read_life(const std::string& path);

}  // namespace processor_tests
