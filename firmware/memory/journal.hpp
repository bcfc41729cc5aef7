// Keeps one record through power cuts, in two erase pages of flash.
//
// Records are appended to a page, slot after slot. When the page is full, the other one is erased
// and takes the next record. So the newest whole record is never touched until a newer one is
// whole, and both pages wear alike. At power-up the whole record with the newest sequence number
// counts.
//
// What makes every cut safe:
// - the words of a record are written in the order of record.hpp, the checksum last;
// - a slot in which any word is not erased is never written again before its page is erased;
// - a page is appended to only behind a whole record: anything else may be a half-done erase, and
//   is erased before use, also when it reads as erased.
//
// Whoever reads a record must check what it says: the checksum tells that the words are those that
// were saved, not that they are wise.
#pragma once

#include <cstddef>
#include <cstdint>

#include "firmware/contract/store.hpp"
#include "firmware/memory/checksum.hpp"
#include "firmware/memory/record.hpp"

namespace firmware {

/// How the memory was found at power-up. Only the recovered ones come with a payload.
enum class Recovery : std::uint8_t {
    fresh,            ///< both pages are erased: nothing was ever kept
    recovered,        ///< the newest record is whole
    recovered_older,  ///< a newer one was begun and is not whole
    nothing_valid,    ///< something is there, but no whole record
    wrong_version     ///< the newest whole record is in another format version
};
inline constexpr int recovery_count = 5;

constexpr const char* name_of(Recovery recovery) {
    switch (recovery) {
        case Recovery::fresh:
            return "fresh";
        case Recovery::recovered:
            return "recovered";
        case Recovery::recovered_older:
            return "recovered older";
        case Recovery::nothing_valid:
            return "nothing valid";
        case Recovery::wrong_version:
            return "wrong version";
    }
    return "";
}

class Journal {
  public:
    static constexpr std::size_t slots_per_page = store_page_words / record_words;

    explicit Journal(const StorePages& at_power_up);

    Recovery recovery() const { return recovery_; }
    bool has_payload() const {
        return recovery_ == Recovery::recovered || recovery_ == Recovery::recovered_older;
    }
    /// As found at power-up; all zero without one.
    const Payload& payload() const { return payload_; }

    /// While a record is being written.
    bool busy() const { return words_left_ > 0; }

    /// Takes a record to be written by the calls of next() that follow. False, and nothing is
    /// taken, while busy.
    bool save(const Payload& payload);

    /// The command for the time between this tick and the next one. Call once per tick; every
    /// command must have been carried out before the next call.
    StoreCommand next();

  private:
    friend class Watch;

    void look_for_newest(const StorePages& pages);
    void begin_record();

    Payload payload_{};
    RecordBody body_{};  ///< being written
    Checksum checksum_;  ///< of the words that have been
    std::uint32_t sequence_ = 0;
    Recovery recovery_ = Recovery::nothing_valid;
    std::uint8_t page_ = store_page_count - 1;  ///< the one appended to; as if full, without one
    std::uint8_t free_slot_ = slots_per_page;   ///< the next; `slots_per_page` when full
    std::uint8_t words_left_ = 0;
    bool erase_due_ = false;
};

}  // namespace firmware
