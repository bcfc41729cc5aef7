// How a channel's readings become whole numbers of few bits: reading = a * x + b.
//
// The readings themselves are whole multiples of a resolution (10 to the minus digits, what the CSV
// trace writes). Where the whole numbers reach, a is that resolution and nothing is lost; else a is
// as coarse as the range that the run has covered demands, and a reading is off by at most a / 2.
#pragma once

#include <cstdint>
#include <string>

namespace sim {

class ComtradeScale {
  public:
    /// @param lowest, highest  of the readings, in units of the resolution
    /// @param most             the numbers reach from -most to most
    ComtradeScale(std::int64_t lowest, std::int64_t highest, int digits, std::int64_t most);

    std::int64_t number_of(std::int64_t reading) const;
    /// Largest difference between a reading and what is read back, in units of the resolution.
    double error() const { return step_ == 1 ? 0.0 : 0.5 * static_cast<double>(step_); }

    /// As written in the configuration, exact.
    std::string a() const { return in_units(step_); }
    std::string b() const { return in_units(middle_); }

  private:
    std::string in_units(std::int64_t multiple) const;

    int digits_;
    std::int64_t step_ = 1;    ///< in units of the resolution, as the next
    std::int64_t middle_ = 0;  ///< reading whose number is 0
};

}  // namespace sim
