#include "firmware/memory/journal.hpp"

#include "firmware/arithmetic/wrapping.hpp"

namespace firmware {

namespace {

constexpr std::size_t slots_per_page = Journal::slots_per_page;

RecordWords slot_words(const StorePages& pages, std::size_t page, std::size_t slot) {
    RecordWords words{};
    for (std::size_t i = 0; i < record_words; ++i) {
        words[i] = pages.words[page][slot * record_words + i];
    }
    return words;
}

bool is_erased(const StorePages& pages) {
    // cppcheck-suppress constVariable ; it takes the reference to an array for one to its element
    for (const auto& page : pages.words) {
        for (const std::uint32_t word : page) {
            if (word != erased_word) {
                return false;
            }
        }
    }
    return true;
}

// The slot behind the last one that is not erased.
std::size_t free_slot_of(const StorePages& pages, std::size_t page) {
    for (std::size_t slot = slots_per_page; slot > 0; --slot) {
        for (const std::uint32_t word : slot_words(pages, page, slot - 1)) {
            if (word != erased_word) {
                return slot;
            }
        }
    }
    return 0;
}

constexpr std::size_t other(std::size_t page) {
    return 1 - page;
}

}  // namespace

Journal::Journal(const StorePages& at_power_up) {
    if (is_erased(at_power_up)) {
        recovery_ = Recovery::fresh;
    } else {
        look_for_newest(at_power_up);
    }
}

void Journal::look_for_newest(const StorePages& pages) {
    bool found = false;
    LearnedRecord newest;
    std::size_t newest_page = 0;
    std::size_t newest_slot = 0;
    for (std::size_t page = 0; page < store_page_count; ++page) {
        for (std::size_t slot = 0; slot < slots_per_page; ++slot) {
            const RecordWords words = slot_words(pages, page, slot);
            if (is_whole(words) && (!found || is_newer(words[sequence_word], newest.sequence))) {
                found = true;
                newest = decoded(words);
                newest_page = page;
                newest_slot = slot;
            }
        }
    }
    if (!found) {
        return;
    }

    page_ = static_cast<std::uint8_t>(newest_page);
    free_slot_ = static_cast<std::uint8_t>(free_slot_of(pages, newest_page));
    sequence_ = newest.sequence;
    if (newest.version != record_format_version) {
        recovery_ = Recovery::wrong_version;
        return;
    }
    payload_ = newest.payload;
    // What is not whole is newer if it lies behind the newest, or if this page is full and the
    // other one is begun: an older page is a full one.
    const std::size_t begun = free_slot_of(pages, other(newest_page));
    const bool behind = free_slot_ > newest_slot + 1;
    const bool in_other_page = free_slot_ == slots_per_page && begun > 0 && begun < slots_per_page;
    recovery_ = behind || in_other_page ? Recovery::recovered_older : Recovery::recovered;
}

bool Journal::save(const Payload& payload) {
    if (busy()) {
        return false;
    }
    LearnedRecord record;
    record.payload = payload;
    body_ = body_of(record);
    begin_record();
    return true;
}

void Journal::begin_record() {
    sequence_ = wrapping_sum(sequence_, 1);
    body_[sequence_word] = sequence_;
    checksum_ = Checksum{};
    if (free_slot_ == slots_per_page) {
        page_ = static_cast<std::uint8_t>(other(page_));
        free_slot_ = 0;
        erase_due_ = true;
    }
    words_left_ = record_words;
}

StoreCommand Journal::next() {
    StoreCommand command;
    if (!busy()) {
        return command;
    }
    if (words_left_ == 1 && checksum_.value() == erased_word) {
        // Such a checksum would not be told from one that is missing: this record stays without,
        // and is written once more. The next number's is another one: of records that differ in one
        // word only, no two have the same (record.hpp).
        ++free_slot_;
        begin_record();
    }
    command.page = page_;
    if (erase_due_) {
        erase_due_ = false;
        command.kind = StoreCommandKind::erase_page;
        return command;
    }
    const std::size_t at = record_words - words_left_;
    command.kind = StoreCommandKind::write_word;
    command.index = static_cast<std::uint16_t>(free_slot_ * record_words + at);
    command.word = words_left_ > 1 ? body_[at] : checksum_.value();
    // Word by word as they leave: over all of them at once it would be the dearest part of a tick.
    checksum_.add_word(command.word);
    --words_left_;
    if (words_left_ == 0) {
        ++free_slot_;
    }
    return command;
}

}  // namespace firmware
