// A store that keeps the rules of flash and remembers the first one that was broken.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <random>
#include <string>

#include "firmware/contract/store.hpp"
#include "firmware/memory/journal.hpp"

namespace memory_test {

class Flash {
  public:
    /// As it leaves the factory: erased and fit to be written.
    Flash() : pages_(firmware::erased_store()) {}

    /// Found like this, after who knows what: no word is fit to be written before an erase.
    explicit Flash(const firmware::StorePages& found);

    void carry_out(const firmware::StoreCommand& command);

    /// Power vanishes inside the erase of this page: every bit is as it was or erased.
    void erase_in_part(std::size_t page, std::mt19937& random);
    /// The same, and then the page holds anything.
    void erase_into_garbage(std::size_t page, std::mt19937& random);
    /// The same, and then the page reads as erased without being so.
    void erase_in_appearance(std::size_t page);

    void flip(std::size_t bit);
    static constexpr std::size_t bits =
        firmware::store_page_count * firmware::store_page_words * 32;

    const firmware::StorePages& pages() const { return pages_; }
    const std::string& broken_rule() const { return broken_rule_; }
    int writes() const { return writes_; }
    int erases(std::size_t page) const { return erases_.at(page); }

  private:
    void write(const firmware::StoreCommand& command);
    void erase(const firmware::StoreCommand& command);
    void unfit(std::size_t page);
    void breaks(const std::string& rule);

    firmware::StorePages pages_;
    std::array<std::array<bool, firmware::store_page_words>, firmware::store_page_count> used_{};
    std::array<int, firmware::store_page_count> erases_{};
    int writes_ = 0;
    std::string broken_rule_;
};

/// Different for every number, with words of all ones and of all zeros among them.
firmware::Payload payload_of(std::uint32_t number);

/// Saves and carries out every command.
void save_whole(firmware::Journal& journal, Flash& flash, const firmware::Payload& payload);

/// What a save on this flash leaves is found at the next power-up, and no rule is broken on the
/// way. Empty when so.
std::string fault_of_next_save(Flash flash);

/// A flash after so many whole saves of payload_of(1), payload_of(2), ...
Flash flash_after_saves(std::uint32_t saves);

/// Every word random.
firmware::StorePages random_pages(std::mt19937& random);

/// Writes a record into a slot of an erased page.
void put(Flash& flash, std::size_t page, std::size_t slot, const firmware::LearnedRecord& record);

}  // namespace memory_test
