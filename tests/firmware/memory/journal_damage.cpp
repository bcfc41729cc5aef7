// What no journal has written: the journal gives no payload and says so, and works again after.
#include <gtest/gtest.h>

#include <cstdint>
#include <random>

#include "firmware/memory/journal.hpp"
#include "memory/flash.hpp"

namespace {

using namespace firmware;
using memory_test::fault_of_next_save;
using memory_test::Flash;
using memory_test::flash_after_saves;
using memory_test::payload_of;
using memory_test::put;
using memory_test::random_pages;

void expect_no_payload(const Flash& flash, Recovery recovery) {
    const Journal journal(flash.pages());
    ASSERT_EQ(journal.recovery(), recovery);
    ASSERT_FALSE(journal.has_payload());
    ASSERT_EQ(journal.payload(), Payload{});
    ASSERT_EQ(fault_of_next_save(flash), "");
}

// Who knows how it came about: nothing in it is fit to be written before an erase.
void expect_no_payload(const StorePages& pages, Recovery recovery) {
    expect_no_payload(Flash(pages), recovery);
}

StorePages filled_with(std::uint32_t word) {
    StorePages pages{};
    for (auto& page : pages.words) {
        for (std::uint32_t& at : page) {
            at = word;
        }
    }
    return pages;
}

TEST(DamagedMemory, OfAllOnesIsFresh) {
    expect_no_payload(filled_with(0xFFFFFFFFU), Recovery::fresh);
}

TEST(DamagedMemory, OfAnyRepeatedByteButAllOnesHoldsNothing) {
    for (std::uint32_t byte = 0; byte < 0xFF; ++byte) {
        expect_no_payload(filled_with(byte * 0x01010101U), Recovery::nothing_valid);
    }
}

TEST(DamagedMemory, OfOneErasedPageAndOneOfZerosHoldsNothing) {
    for (const std::size_t page : {0U, 1U}) {
        StorePages pages = erased_store();
        for (std::uint32_t& word : pages.words[page]) {
            word = 0;
        }
        expect_no_payload(pages, Recovery::nothing_valid);
    }
}

TEST(DamagedMemory, OfOneWrongBitInAnErasedStoreHoldsNothing) {
    for (std::size_t bit = 0; bit < Flash::bits; ++bit) {
        Flash flash;
        flash.flip(bit);
        expect_no_payload(flash.pages(), Recovery::nothing_valid);
    }
}

// Covers: ME-02
TEST(DamagedMemory, OfRandomWordsHoldsNothing) {
    std::mt19937 random(1);
    for (int i = 0; i < 20000; ++i) {
        expect_no_payload(random_pages(random), Recovery::nothing_valid);
    }
}

TEST(DamagedMemory, OfRandomWordsBehindTheRightMarkAndVersionHoldsNothing) {
    std::mt19937 random(2);
    const std::uint32_t first_word = encoded(LearnedRecord{})[0];
    for (int i = 0; i < 20000; ++i) {
        StorePages pages = random_pages(random);
        for (auto& page : pages.words) {
            for (std::size_t slot = 0; slot < Journal::slots_per_page; ++slot) {
                page[slot * record_words] = first_word;
            }
        }
        expect_no_payload(pages, Recovery::nothing_valid);
    }
}

TEST(DamagedMemory, InOnePageLeavesTheRecordOfTheOther) {
    std::mt19937 random(3);
    for (int i = 0; i < 3000; ++i) {
        const std::uint32_t saves = 1 + static_cast<std::uint32_t>(i) % 40;
        Flash flash = flash_after_saves(saves);
        const std::size_t newest_page = (saves - 1) / 7 % 2;
        flash.erase_into_garbage(1 - newest_page, random);
        const Journal journal(flash.pages());
        ASSERT_EQ(journal.recovery(), Recovery::recovered);
        ASSERT_EQ(journal.payload(), payload_of(saves));
        ASSERT_EQ(fault_of_next_save(flash), "");
    }
}

TEST(DamagedMemory, OfAnotherVersionIsNotReadAndSaysSo) {
    for (std::uint32_t version = 0; version <= 0xFFFF; version += version < 300 ? 1 : 97) {
        if (version == record_format_version) {
            continue;
        }
        Flash flash;
        put(flash, 0, 0, {static_cast<std::uint16_t>(version), 17, payload_of(1)});
        expect_no_payload(flash, Recovery::wrong_version);
    }
}

TEST(DamagedMemory, OfAnotherVersionCountsOnlyWhenItIsTheNewest) {
    Flash flash;
    put(flash, 0, 0, {record_format_version, 17, payload_of(1)});
    put(flash, 0, 1, {record_format_version + 1, 18, payload_of(2)});
    expect_no_payload(flash, Recovery::wrong_version);
    put(flash, 0, 2, {record_format_version, 19, payload_of(3)});
    EXPECT_EQ(Journal(flash.pages()).recovery(), Recovery::recovered);
    EXPECT_EQ(Journal(flash.pages()).payload(), payload_of(3));
}

// A flip in the version of a record is damage, not another version.
TEST(DamagedMemory, IsNeverTakenForAnotherVersion) {
    for (std::size_t bit = 0; bit < Flash::bits; ++bit) {
        Flash flash = flash_after_saves(1);
        flash.flip(bit);
        ASSERT_NE(Journal(flash.pages()).recovery(), Recovery::wrong_version) << bit;
    }
}

TEST(DamagedMemory, ByOneFlipAnywhereAfterAnyNumberOfSavesCostsAtMostTheNewestRecord) {
    for (std::uint32_t saves = 2; saves <= 16; ++saves) {
        const Flash whole = flash_after_saves(saves);
        for (std::size_t bit = 0; bit < Flash::bits; ++bit) {
            Flash flash = whole;
            flash.flip(bit);
            const Journal journal(flash.pages());
            const bool lost = journal.payload() == payload_of(saves - 1);
            ASSERT_TRUE(lost || journal.payload() == payload_of(saves)) << saves << " " << bit;
            if (lost) {
                ASSERT_EQ(journal.recovery(), Recovery::recovered_older);
            }
        }
    }
}

// Covers: ME-02
TEST(DamagedMemory, ByManyFlipsGivesASavedPayloadOrNone) {
    std::mt19937 random(5);
    int without = 0;
    for (int i = 0; i < 20000; ++i) {
        const auto flips = 1 + random() % 400;
        Flash flash = flash_after_saves(10);
        for (std::size_t flip = 0; flip < flips; ++flip) {
            flash.flip(random() % Flash::bits);
        }
        const Journal journal(flash.pages());
        bool saved = !journal.has_payload();
        without += saved ? 1 : 0;
        for (std::uint32_t number = 1; number <= 10; ++number) {
            saved = saved || journal.payload() == payload_of(number);
        }
        ASSERT_TRUE(saved) << i;
    }
    // Both kinds must have come up, or this has tested nothing.
    EXPECT_GT(without, 1000);
    EXPECT_LT(without, 19000);
}

}  // namespace
