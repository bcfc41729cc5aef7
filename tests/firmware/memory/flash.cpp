#include "memory/flash.hpp"

#include <gtest/gtest.h>

namespace memory_test {

using namespace firmware;

Flash::Flash(const StorePages& found) : pages_(found) {
    for (std::size_t page = 0; page < store_page_count; ++page) {
        unfit(page);
    }
}

void Flash::carry_out(const StoreCommand& command) {
    switch (command.kind) {
        case StoreCommandKind::none:
            if (command.page != 0 || command.index != 0 || command.word != 0) {
                breaks("an empty command carries something");
            }
            return;
        case StoreCommandKind::write_word:
            write(command);
            return;
        case StoreCommandKind::erase_page:
            erase(command);
            return;
    }
    breaks("unknown command");
}

void Flash::write(const StoreCommand& command) {
    if (command.page >= store_page_count || command.index >= store_page_words) {
        breaks("write out of range");
        return;
    }
    std::uint32_t& word = pages_.words[command.page][command.index];
    bool& used = used_.at(command.page).at(command.index);
    if (used) {
        breaks("word written again, or before its page was wholly erased");
    }
    if (word != erased_word) {
        breaks("word written that does not read as erased");
    }
    used = true;
    word &= command.word;
    ++writes_;
}

void Flash::erase(const StoreCommand& command) {
    if (command.page >= store_page_count) {
        breaks("erase out of range");
        return;
    }
    for (std::uint32_t& word : pages_.words[command.page]) {
        word = erased_word;
    }
    used_.at(command.page).fill(false);
    ++erases_.at(command.page);
}

void Flash::erase_in_part(std::size_t page, std::mt19937& random) {
    for (std::uint32_t& word : pages_.words[page]) {
        word |= static_cast<std::uint32_t>(random());
    }
    unfit(page);
}

void Flash::erase_into_garbage(std::size_t page, std::mt19937& random) {
    for (std::uint32_t& word : pages_.words[page]) {
        word = static_cast<std::uint32_t>(random());
    }
    unfit(page);
}

void Flash::erase_in_appearance(std::size_t page) {
    for (std::uint32_t& word : pages_.words[page]) {
        word = erased_word;
    }
    unfit(page);
}

void Flash::flip(std::size_t bit) {
    const std::size_t word = bit / 32;
    pages_.words[word / store_page_words][word % store_page_words] ^= 1U << (bit % 32);
}

void Flash::unfit(std::size_t page) {
    used_.at(page).fill(true);
}

void Flash::breaks(const std::string& rule) {
    if (broken_rule_.empty()) {
        broken_rule_ = rule;
    }
}

Payload payload_of(std::uint32_t number) {
    switch (number % 4) {
        case 0:
            return {number, erased_word, erased_word, erased_word, erased_word, erased_word};
        case 1:
            return {erased_word, erased_word, erased_word, erased_word, erased_word, number};
        case 2:
            return {0, 0, number, 0, 0, 0};
        default:
            std::mt19937 random(number);
            Payload payload{};
            for (std::uint32_t& word : payload) {
                word = static_cast<std::uint32_t>(random());
            }
            return payload;
    }
}

void save_whole(Journal& journal, Flash& flash, const Payload& payload) {
    ASSERT_TRUE(journal.save(payload));
    while (journal.busy()) {
        flash.carry_out(journal.next());
    }
}

std::string fault_of_next_save(Flash flash) {
    const Payload payload = payload_of(123456789);
    Journal journal(flash.pages());
    if (journal.busy() || !journal.save(payload)) {
        return "busy at power-up";
    }
    for (int tick = 0; tick < 20; ++tick) {
        flash.carry_out(journal.next());
    }
    if (!flash.broken_rule().empty()) {
        return flash.broken_rule();
    }
    const Journal again(flash.pages());
    if (again.recovery() != Recovery::recovered) {
        return "the next save is not recovered";
    }
    return again.payload() == payload ? "" : "another payload than the saved one";
}

Flash flash_after_saves(std::uint32_t saves) {
    Flash flash;
    Journal journal(flash.pages());
    for (std::uint32_t number = 1; number <= saves; ++number) {
        save_whole(journal, flash, payload_of(number));
    }
    return flash;
}

StorePages random_pages(std::mt19937& random) {
    StorePages pages{};
    for (auto& page : pages.words) {
        for (std::uint32_t& word : page) {
            word = static_cast<std::uint32_t>(random());
        }
    }
    return pages;
}

void put(Flash& flash, std::size_t page, std::size_t slot, const LearnedRecord& record) {
    const RecordWords words = encoded(record);
    for (std::size_t i = 0; i < record_words; ++i) {
        flash.carry_out({StoreCommandKind::write_word, static_cast<std::uint8_t>(page),
                         static_cast<std::uint16_t>(slot * record_words + i), words[i]});
    }
}

}  // namespace memory_test
