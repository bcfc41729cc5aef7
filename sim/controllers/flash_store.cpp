#include "sim/controllers/flash_store.hpp"

#include <boost/random/mersenne_twister.hpp>

namespace sim {

using firmware::erased_word;
using firmware::store_page_count;
using firmware::store_page_words;
using firmware::StoreCommandKind;
using firmware::Ticks;

FlashStore::FlashStore(const firmware::StorePages& found, Ticks page_erase)
    : pages_(found), page_erase_(page_erase) {
    for (std::size_t page = 0; page < store_page_count; ++page) {
        for (std::size_t k = 0; k < store_page_words; ++k) {
            used_.at(page).at(k) = found.words[page][k] != erased_word;
        }
    }
}

void FlashStore::begin(const firmware::StoreCommand& command, bool outputs_on) {
    if (command.kind == StoreCommandKind::none) {
        return;
    }
    faults_.while_outputs_on += outputs_on ? 1 : 0;
    const bool is_write = command.kind == StoreCommandKind::write_word;
    const bool is_known = is_write || command.kind == StoreCommandKind::erase_page;
    if (!is_known || command.page >= store_page_count ||
        (is_write && command.index >= store_page_words)) {
        ++faults_.out_of_range;
        return;
    }
    if (busy()) {
        ++faults_.while_busy;
        return;
    }
    command_ = command;
    if (is_write) {
        left_ = Ticks{1U};
        ++wear_.word_writes;
        faults_.unfit_words += used_.at(command.page).at(command.index) ? 1 : 0;
    } else {
        left_ = page_erase_;
        ++wear_.erases.at(command.page);
    }
}

void FlashStore::pass(Ticks ticks) {
    if (busy()) {
        left_ = ticks < left_ ? left_ - ticks : Ticks{0U};
        if (!busy()) {
            finish();
        }
    }
}

void FlashStore::finish() {
    auto& words = pages_.words[command_.page];
    auto& used = used_.at(command_.page);
    if (command_.kind == StoreCommandKind::write_word) {
        words[command_.index] &= command_.word;
        used.at(command_.index) = true;
        return;
    }
    for (std::uint32_t& word : words) {
        word = erased_word;
    }
    used.fill(false);
}

void FlashStore::lose_power(Torn torn, std::uint32_t seed) {
    if (!busy()) {
        return;
    }
    left_ = Ticks{0U};
    if (torn == Torn::untouched) {
        return;
    }
    boost::random::mt19937 random(seed);
    auto& words = pages_.words[command_.page];
    auto& used = used_.at(command_.page);
    if (command_.kind == StoreCommandKind::write_word) {
        std::uint32_t& word = words[command_.index];
        const std::uint32_t before = word;
        word &= torn == Torn::reads_as_done ? command_.word : command_.word | random();
        // A word of which no bit was reached has not been written.
        used.at(command_.index) = used.at(command_.index) || word != before;
        return;
    }
    for (std::uint32_t& word : words) {
        word = torn == Torn::reads_as_done ? erased_word
               : torn == Torn::garbage     ? random()
                                           : word | random();
    }
    used.fill(true);
}

}  // namespace sim
