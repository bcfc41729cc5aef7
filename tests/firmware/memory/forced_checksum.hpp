// A record made so that its checksum comes out as wished.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <utility>

#include "firmware/memory/record.hpp"

namespace memory_test {

/// Changes one payload word until the checksum is `wanted`. A CRC is linear in that word but for a
/// constant, so this is a system of 32 equations in 32 bits, which always has one solution.
inline firmware::LearnedRecord with_checksum(firmware::LearnedRecord record, std::size_t free_word,
                                             std::uint32_t wanted) {
    const auto checksum_with = [&](std::uint32_t word) {
        record.payload.at(free_word) = word;
        return firmware::encoded(record).back();
    };
    const std::uint32_t constant = checksum_with(0);
    // Each row: which change of the checksum (first), by which change of the word (second).
    std::array<std::pair<std::uint32_t, std::uint32_t>, 32> rows;
    for (unsigned bit = 0; bit < 32; ++bit) {
        rows.at(bit) = {checksum_with(1U << bit) ^ constant, 1U << bit};
    }
    std::uint32_t left = wanted ^ constant;
    std::uint32_t word = 0;
    for (std::size_t pivot = 0; pivot < rows.size(); ++pivot) {
        const std::uint32_t mask = 1U << pivot;
        std::size_t row = pivot;
        while ((rows.at(row).first & mask) == 0) {
            ++row;  // at() ends a search that finds none
        }
        std::swap(rows.at(pivot), rows.at(row));
        for (std::size_t below = pivot + 1; below < rows.size(); ++below) {
            if ((rows.at(below).first & mask) != 0) {
                rows.at(below).first ^= rows.at(pivot).first;
                rows.at(below).second ^= rows.at(pivot).second;
            }
        }
    }
    for (std::size_t pivot = 0; pivot < rows.size(); ++pivot) {
        if ((left & (1U << pivot)) != 0) {
            left ^= rows.at(pivot).first;
            word ^= rows.at(pivot).second;
        }
    }
    record.payload.at(free_word) = word;
    return record;
}

}  // namespace memory_test
