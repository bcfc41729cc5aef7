// The non-volatile store as it crosses the contract: two erase pages of flash, read once at
// power-up, then changed by at most one command per tick, which the world carries out between two
// ticks.
//
// The rules of flash:
// - an erased word reads `erased_word`; only the erase of its whole page makes it so;
// - between two erases a word is written once (bits only go from 1 to 0);
// - power may vanish between any two commands, and inside an erase: then that page may hold
//   anything, also words that read as erased but are not fit to be written.
//
// Flash stalls many small processors while it is written, and an erase lasts for many ticks
// (20-40 ms is common practice): the world may leave out ticks for it only while the motor is not
// fed, so the journal is given records only then.
#pragma once

#include <cstddef>
#include <cstdint>

namespace firmware {

inline constexpr std::size_t store_page_count = 2;
inline constexpr std::size_t store_page_words = 64;
inline constexpr std::uint32_t erased_word = 0xFFFFFFFFU;

/// What the store held at power-up.
struct StorePages {
    std::uint32_t words[store_page_count][store_page_words];
};
static_assert(sizeof(StorePages) == 512, "the store has no padding");

/// As the store leaves the factory.
constexpr StorePages erased_store() {
    StorePages pages{};
    for (auto& page : pages.words) {
        for (std::uint32_t& word : page) {
            word = erased_word;
        }
    }
    return pages;
}

enum class StoreCommandKind : std::uint8_t { none, write_word, erase_page };

struct StoreCommand {
    StoreCommandKind kind = StoreCommandKind::none;
    std::uint8_t page = 0;
    std::uint16_t index = 0;  ///< of the word in its page; 0 unless a word is written
    std::uint32_t word = 0;   ///< 0 unless a word is written
};
static_assert(sizeof(StoreCommand) == 8, "commands have no padding");

}  // namespace firmware
