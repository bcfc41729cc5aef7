// What a worker process tells the one that records: a case has begun, a case has ended. Both are
// the same program, so numbers cross as they lie in memory.
#pragma once

#include <cstdint>
#include <optional>
#include <stdexcept>
#include <string>

#include "sim/regression/case_run.hpp"

namespace sim {

struct CaseMessage {
    bool has_ended = false;  ///< else it has begun
    BegunCase begun;         ///< of one that has ended, only its record counts
};

/// As bytes that go through a pipe, their length in front.
std::string packed(const CaseMessage& message);

/// Bytes that no packed() made: a worker's memory may be damaged.
class DamagedAnswer : public std::runtime_error {
  public:
    DamagedAnswer() : std::runtime_error("a worker's answer is damaged") {}
};

/// Collects bytes as they come and gives out whole messages.
class MessageStream {
  public:
    void add(const char* bytes, std::size_t count) { bytes_.append(bytes, count); }
    /// None until a whole one is there. Throws DamagedAnswer.
    std::optional<CaseMessage> next();

  private:
    std::string bytes_;
};

}  // namespace sim
