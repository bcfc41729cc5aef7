// What the memory keeps, and the words it becomes in the store:
//
//   word 0     mark in the upper half, format version in the lower
//   word 1     sequence number
//   words 2-7  payload
//   word 8     CRC-32 of words 0 to 7
//
// The words are written in this order. The first is never an erased word, nor one bit away from
// it: a slot whose writing has begun shows that. The last is the checksum, and no record is whole
// while it reads as erased: a record that is cut short is never whole, whatever its words.
//
// The frame of nine words is the same in all versions; the version says what the payload means. A
// change of the frame needs another mark.
//
// Limits that protect the motor or the unit are never in the payload: they come from the settings.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>

#include "firmware/arithmetic/wrapping.hpp"

namespace firmware {

inline constexpr std::size_t payload_words = 6;
using Payload = std::array<std::uint32_t, payload_words>;

inline constexpr std::uint16_t record_format_version = 1;

struct LearnedRecord {
    std::uint16_t version = record_format_version;
    std::uint32_t sequence = 0;
    Payload payload{};
};

inline constexpr std::size_t record_words = payload_words + 3;
inline constexpr std::size_t sequence_word = 1;
using RecordWords = std::array<std::uint32_t, record_words>;

/// All but the checksum.
using RecordBody = std::array<std::uint32_t, record_words - 1>;
RecordBody body_of(const LearnedRecord& record);

/// The words of a record. About one record in 2^32 has a checksum that reads as erased and cannot
/// be kept; with the next sequence number it can, because a burst of 32 bits is never missed
/// (checksum.hpp): two records that differ only there never share a checksum.
RecordWords encoded(const LearnedRecord& record);

/// Mark and checksum are right; the version may be any.
bool is_whole(const RecordWords& words);

/// Of words that are whole.
LearnedRecord decoded(const RecordWords& words);

/// Sequence numbers run through 2^32 and start again; records are never more than a few apart.
constexpr bool is_newer(std::uint32_t sequence, std::uint32_t than) {
    const std::uint32_t ahead = wrapping_difference(sequence, than);
    return ahead != 0 && ahead < 0x80000000U;
}

}  // namespace firmware
