// A hash that tells two texts or two sets of numbers apart: FNV-1a with 64 bits (published by
// Fowler, Noll and Vo; constants from memory, checked in the tests against published values). It
// guards against mistakes, not against malice.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace sim {

class Fingerprint {
  public:
    void add(std::string_view bytes);
    /// By its bits: 0 and -0 differ.
    void add(double number);
    void add(std::int64_t number);

    /// 16 hexadecimal digits.
    std::string text() const;

  private:
    void add_bytes(const void* bytes, std::size_t count);

    std::uint64_t hash_ = 14695981039346656037U;
};

std::string fingerprint_of(std::string_view bytes);

}  // namespace sim
