// Random numbers for properties: the same on every machine, because nothing of the standard
// library's distributions is used.
#pragma once

#include <cstdint>
#include <random>

namespace support {

class RandomNumbers {
  public:
    explicit RandomNumbers(std::uint64_t seed) : engine_(seed) {}

    double between(double lowest, double highest) {
        const double share = static_cast<double>(engine_() >> 11) * 0x1p-53;
        return lowest + (highest - lowest) * share;
    }
    int below(int count) { return static_cast<int>(engine_() % static_cast<std::uint64_t>(count)); }

  private:
    std::mt19937_64 engine_;
};

}  // namespace support
