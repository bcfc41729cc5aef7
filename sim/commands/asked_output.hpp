// A file that somebody may have asked a verb for with --json or --page.
//
// It is opened when this is made, before the work, so that a wrong path costs no time; it appears
// whole when it is put, or not at all.
#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <string>

#include "sim/files/atomic_output.hpp"

namespace sim {

class AskedOutput {
  public:
    /// Empty: not asked for. "-": standard output. Throws OutputError.
    explicit AskedOutput(const std::string& path);

    explicit operator bool() const { return output_.has_value(); }

    /// Only if it was asked for. Throws OutputError.
    void put(const std::string& bytes);
    void put(const nlohmann::ordered_json& result);

  private:
    std::optional<AtomicOutput> output_;
};

}  // namespace sim
