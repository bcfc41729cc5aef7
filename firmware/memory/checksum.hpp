// The checksum of a record: CRC-32 as in ISO 3309 and IEEE 802.3 (recalled), with the polynomial
//
//   x^32 + x^26 + x^23 + x^22 + x^16 + x^12 + x^11 + x^10 + x^8 + x^7 + x^5 + x^4 + x^2 + x + 1
//
// taken bit by bit from the least significant end (so written 0xEDB88320), with all ones at the
// start and inverted at the end. The nine characters "123456789" give 0xCBF43926.
//
// It notices every error of up to five bits in a record of 256 bits (computed in the tests), every
// burst of up to 32 bits, and all but one in 2^32 of everything else.
//
// Four bits are taken at a time: 64 bytes of table, 64 steps for a record.
#pragma once

#include <cstdint>

namespace firmware {

class Checksum {
  public:
    void add_byte(std::uint8_t byte);
    /// Least significant byte first.
    void add_word(std::uint32_t word);

    std::uint32_t value() const { return ~remainder_; }

  private:
    std::uint32_t remainder_ = 0xFFFFFFFFU;
};

}  // namespace firmware
