// The store as the bench keeps it.
#include "sim/controllers/flash_store.hpp"

#include <gtest/gtest.h>

#include <cstring>

namespace {

using firmware::erased_word;
using firmware::StoreCommand;
using firmware::StoreCommandKind;
using firmware::Ticks;
using sim::FlashStore;
using sim::Torn;

constexpr StoreCommand write_word(std::uint8_t page, std::uint16_t index, std::uint32_t word) {
    return {StoreCommandKind::write_word, page, index, word};
}
constexpr StoreCommand erase_page(std::uint8_t page) {
    return {StoreCommandKind::erase_page, page, 0, 0};
}

void carry_out(FlashStore& store, const StoreCommand& command) {
    store.begin(command, false);
    store.pass(sim::usual_page_erase);
}

bool is_faultless(const FlashStore& store) {
    const FlashStore::Faults& faults = store.faults();
    return faults.out_of_range + faults.unfit_words + faults.while_busy + faults.while_outputs_on ==
           0;
}

std::uint32_t word_of(const FlashStore& store, std::size_t page, std::size_t index) {
    return store.pages().words[page][index];
}

/// A store whose first page is full.
FlashStore full_store() {
    FlashStore store;
    for (std::uint16_t k = 0; k < firmware::store_page_words; ++k) {
        carry_out(store, write_word(0, k, 0xA0A0A000U + k));
    }
    return store;
}

TEST(FlashStore, LeavesTheFactoryErased) {
    const FlashStore store;
    const firmware::StorePages erased = firmware::erased_store();
    EXPECT_EQ(std::memcmp(&store.pages(), &erased, sizeof(erased)), 0);
    EXPECT_TRUE(is_faultless(store));
}

TEST(FlashStore, TakesATickForAWordAndManyForAnErase) {
    FlashStore store;
    store.begin(write_word(1, 5, 77), false);
    EXPECT_TRUE(store.busy());
    EXPECT_EQ(word_of(store, 1, 5), erased_word);
    store.pass(Ticks{1U});
    EXPECT_FALSE(store.busy());
    EXPECT_EQ(word_of(store, 1, 5), 77U);

    store.begin(erase_page(1), false);
    store.pass(sim::usual_page_erase - Ticks{1U});
    EXPECT_TRUE(store.busy());
    EXPECT_EQ(word_of(store, 1, 5), 77U);
    store.pass(Ticks{1U});
    EXPECT_FALSE(store.busy());
    EXPECT_EQ(word_of(store, 1, 5), erased_word);
    EXPECT_TRUE(is_faultless(store));
    EXPECT_GE(sim::usual_page_erase.count(), 200U);
    EXPECT_LE(sim::usual_page_erase.count(), 400U);
}

TEST(FlashStore, OnlyClearsBitsUntilThePageIsErasedAndSaysWhoTriedOtherwise) {
    FlashStore store;
    carry_out(store, write_word(0, 9, 0xFF00FF00U));
    carry_out(store, write_word(0, 9, 0xF0F0F0F0U));
    EXPECT_EQ(word_of(store, 0, 9), 0xF000F000U);
    EXPECT_EQ(store.faults().unfit_words, 1);
    carry_out(store, erase_page(0));
    carry_out(store, write_word(0, 9, 1));
    EXPECT_EQ(word_of(store, 0, 9), 1U);
    EXPECT_EQ(store.faults().unfit_words, 1);
}

TEST(FlashStore, TakesAWordOfAllOnesForWrittenToo) {
    FlashStore store;
    carry_out(store, write_word(0, 0, erased_word));
    carry_out(store, write_word(0, 0, 4));
    EXPECT_EQ(store.faults().unfit_words, 1);
}

TEST(FlashStore, TakesNoCommandWhileOneIsOnItsWay) {
    FlashStore store = full_store();
    store.begin(erase_page(0), false);
    store.begin(write_word(1, 0, 4), false);
    store.pass(sim::usual_page_erase);
    EXPECT_EQ(word_of(store, 1, 0), erased_word);
    EXPECT_EQ(store.faults().while_busy, 1);
}

TEST(FlashStore, RefusesWhatItDoesNotHaveAndCountsIt) {
    FlashStore store;
    carry_out(store, write_word(2, 0, 4));
    carry_out(store, write_word(0, 64, 4));
    carry_out(store, erase_page(2));
    carry_out(store, {static_cast<StoreCommandKind>(9), 0, 0, 0});
    EXPECT_EQ(store.faults().out_of_range, 4);
    const firmware::StorePages erased = firmware::erased_store();
    EXPECT_EQ(std::memcmp(&store.pages(), &erased, sizeof(erased)), 0);
}

TEST(FlashStore, CountsCommandsThatCameWithOutputsOn) {
    FlashStore store;
    store.begin({}, true);
    EXPECT_TRUE(is_faultless(store));
    store.begin(write_word(0, 0, 4), true);
    EXPECT_EQ(store.faults().while_outputs_on, 1);
}

TEST(FlashStore, CountsWhatWearsIt) {
    FlashStore store = full_store();
    carry_out(store, erase_page(0));
    carry_out(store, erase_page(1));
    carry_out(store, erase_page(1));
    EXPECT_EQ(store.wear().word_writes, 64);
    EXPECT_EQ(store.wear().erases[0], 1);
    EXPECT_EQ(store.wear().erases[1], 2);
}

TEST(FlashStore, LosesNothingWhenPowerGoesBetweenCommands) {
    FlashStore store = full_store();
    const firmware::StorePages before = store.pages();
    for (int torn = 0; torn < sim::torn_count; ++torn) {
        store.lose_power(static_cast<Torn>(torn), 1);
    }
    EXPECT_EQ(std::memcmp(&store.pages(), &before, sizeof(before)), 0);
}

TEST(FlashStore, ATornWordHasAnyOfItsBitsAndIsUsedIfOneWasReached) {
    int untouched = 0;
    int whole = 0;
    for (std::uint32_t seed = 0; seed < 2000; ++seed) {
        FlashStore store;
        const std::uint32_t wanted = 0xFFFFFFF5U;
        store.begin(write_word(0, 0, wanted), false);
        store.lose_power(Torn::in_part, seed);
        EXPECT_FALSE(store.busy());
        const std::uint32_t word = word_of(store, 0, 0);
        EXPECT_EQ(word & wanted, wanted) << "a bit that should stay was cleared";
        untouched += word == erased_word ? 1 : 0;
        whole += word == wanted ? 1 : 0;
        carry_out(store, write_word(0, 0, wanted));
        EXPECT_EQ(store.faults().unfit_words, word == erased_word ? 0 : 1);
    }
    // Two bits were to be cleared, each is with an even chance.
    EXPECT_NEAR(untouched, 500, 100);
    EXPECT_NEAR(whole, 500, 100);
}

TEST(FlashStore, ATornEraseLeavesAPageThatOnlyAWholeEraseMakesFit) {
    for (const Torn torn : {Torn::in_part, Torn::garbage, Torn::reads_as_done}) {
        FlashStore store = full_store();
        store.begin(erase_page(0), false);
        store.pass(Ticks{5U});
        store.lose_power(torn, 3);
        for (std::size_t k = 0; k < firmware::store_page_words; ++k) {
            const std::uint32_t before = 0xA0A0A000U + static_cast<std::uint32_t>(k);
            if (torn == Torn::in_part) {
                EXPECT_EQ(word_of(store, 0, k) & before, before) << "an erase clears no bit";
            }
            if (torn == Torn::reads_as_done) {
                EXPECT_EQ(word_of(store, 0, k), erased_word);
            }
        }
        FlashStore unfit = store;
        carry_out(unfit, write_word(0, 7, 1));
        EXPECT_EQ(unfit.faults().unfit_words, 1);
        carry_out(store, erase_page(0));
        carry_out(store, write_word(0, 7, 1));
        EXPECT_TRUE(is_faultless(store));
    }
}

TEST(FlashStore, ThatWasNotReachedStaysAsItWasAndFit) {
    FlashStore store = full_store();
    const firmware::StorePages before = store.pages();
    store.begin(write_word(1, 0, 4), false);
    store.lose_power(Torn::untouched, 1);
    store.begin(erase_page(0), false);
    store.lose_power(Torn::untouched, 1);
    EXPECT_EQ(std::memcmp(&store.pages(), &before, sizeof(before)), 0);
    carry_out(store, write_word(1, 0, 4));
    EXPECT_TRUE(is_faultless(store));
}

TEST(FlashStore, TearsInTheSameWayEachTime) {
    const auto torn = [](std::uint32_t seed) {
        FlashStore store = full_store();
        store.begin(erase_page(0), false);
        store.lose_power(Torn::garbage, seed);
        return store.pages();
    };
    const firmware::StorePages one = torn(8);
    const firmware::StorePages again = torn(8);
    const firmware::StorePages other = torn(9);
    EXPECT_EQ(std::memcmp(&one, &again, sizeof(one)), 0);
    EXPECT_NE(std::memcmp(&one, &other, sizeof(one)), 0);
}

TEST(FlashStore, FoundWrittenTakesOnlyItsErasedWords) {
    firmware::StorePages found = firmware::erased_store();
    found.words[0][0] = 12;
    FlashStore store(found);
    carry_out(store, write_word(0, 1, 4));
    EXPECT_TRUE(is_faultless(store));
    carry_out(store, write_word(0, 0, 4));
    EXPECT_EQ(store.faults().unfit_words, 1);
}

}  // namespace
