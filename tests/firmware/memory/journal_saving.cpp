#include <gtest/gtest.h>

#include <cstdint>
#include <cstdlib>
#include <set>
#include <type_traits>
#include <utility>

#include "firmware/memory/journal.hpp"
#include "memory/flash.hpp"

namespace {

using namespace firmware;
using memory_test::Flash;
using memory_test::flash_after_saves;
using memory_test::payload_of;
using memory_test::put;
using memory_test::save_whole;

TEST(Journal, FindsWhatWasSavedLast) {
    Flash flash;
    for (std::uint32_t number = 1; number <= 300; ++number) {
        Journal journal(flash.pages());
        save_whole(journal, flash, payload_of(number));
        const Journal again(flash.pages());
        ASSERT_EQ(again.recovery(), Recovery::recovered) << number;
        ASSERT_EQ(again.payload(), payload_of(number)) << number;
    }
    EXPECT_EQ(flash.broken_rule(), "");
}

TEST(Journal, SavesManyTimesInOneLifeWithoutLookingAtTheStoreAgain) {
    Flash flash;
    Journal journal(flash.pages());
    for (std::uint32_t number = 1; number <= 300; ++number) {
        save_whole(journal, flash, payload_of(number));
        const Journal again(flash.pages());
        ASSERT_EQ(again.recovery(), Recovery::recovered) << number;
        ASSERT_EQ(again.payload(), payload_of(number)) << number;
    }
    EXPECT_EQ(flash.broken_rule(), "");
}

TEST(Journal, SaysThatAnErasedStoreIsFreshAndGivesNoPayload) {
    const Journal journal(erased_store());
    EXPECT_EQ(journal.recovery(), Recovery::fresh);
    EXPECT_FALSE(journal.has_payload());
    EXPECT_EQ(journal.payload(), Payload{});
}

TEST(Journal, AsksForNothingUntilItIsGivenARecord) {
    for (const std::uint32_t saves : {0U, 3U, 7U, 20U}) {
        Journal journal(flash_after_saves(saves).pages());
        for (int tick = 0; tick < 1000; ++tick) {
            ASSERT_EQ(journal.next().kind, StoreCommandKind::none);
        }
        EXPECT_FALSE(journal.busy());
    }
}

TEST(Journal, WritesTheWordsOfARecordInOrderTheMarkFirstAndTheChecksumLast) {
    for (const std::uint32_t saves : {0U, 3U, 7U, 13U}) {
        Journal journal(flash_after_saves(saves).pages());
        ASSERT_TRUE(journal.save(payload_of(100)));
        const RecordWords words = encoded({record_format_version, saves + 1, payload_of(100)});
        const std::size_t slot = saves % 7;
        for (std::size_t i = 0; i < record_words; ++i) {
            StoreCommand command = journal.next();
            if (i == 0 && slot == 0) {
                ASSERT_EQ(command.kind, StoreCommandKind::erase_page);
                command = journal.next();
            }
            ASSERT_EQ(command.kind, StoreCommandKind::write_word);
            ASSERT_EQ(command.page, saves / 7 % 2);
            ASSERT_EQ(command.index, slot * record_words + i);
            ASSERT_EQ(command.word, words.at(i));
        }
        ASSERT_FALSE(journal.busy());
    }
}

TEST(Journal, RefusesARecordWhileItWritesAnotherAndKeepsTheFirst) {
    for (const std::uint32_t saves : {0U, 3U, 7U}) {  // 0 and 7: with an erase
        Flash flash = flash_after_saves(saves);
        Journal journal(flash.pages());
        ASSERT_TRUE(journal.save(payload_of(100)));
        int commands = 0;
        while (journal.busy()) {
            EXPECT_FALSE(journal.save(payload_of(200)));
            flash.carry_out(journal.next());
            ++commands;
        }
        EXPECT_EQ(commands, saves == 3 ? 9 : 10);
        EXPECT_EQ(Journal(flash.pages()).payload(), payload_of(100));
        EXPECT_TRUE(journal.save(payload_of(200)));
    }
}

TEST(Journal, LeavesTheRecordThatItFoundReadableWhileItWritesTheNext) {
    Flash flash = flash_after_saves(12);
    Journal journal(flash.pages());
    for (std::uint32_t number = 13; number < 40; ++number) {
        save_whole(journal, flash, payload_of(number));
        ASSERT_EQ(journal.recovery(), Recovery::recovered);
        ASSERT_EQ(journal.payload(), payload_of(12));
    }
}

// Covers: ME-03
TEST(Journal, WearsBothPagesAlikeOverTenThousandSaves) {
    constexpr int saves = 10000;
    Flash flash;
    Journal journal(flash.pages());
    for (int number = 1; number <= saves; ++number) {
        save_whole(journal, flash, payload_of(static_cast<std::uint32_t>(number)));
        ASSERT_LE(std::abs(flash.erases(0) - flash.erases(1)), 1) << number;
    }
    EXPECT_EQ(flash.broken_rule(), "");
    EXPECT_EQ(flash.writes(), saves * 9);
    // Seven records of nine words fit into a page of 64.
    EXPECT_EQ(flash.erases(0) + flash.erases(1), (saves + 6) / 7);
    RecordProperty("word_writes_per_10000_saves", flash.writes());
    RecordProperty("erases_of_page_0_per_10000_saves", flash.erases(0));
    RecordProperty("erases_of_page_1_per_10000_saves", flash.erases(1));
}

TEST(Journal, WearsBothPagesAlikeWhenPowerGoesAfterEverySave) {
    Flash flash;
    for (std::uint32_t number = 1; number <= 10000; ++number) {
        Journal journal(flash.pages());
        save_whole(journal, flash, payload_of(number));
        ASSERT_LE(std::abs(flash.erases(0) - flash.erases(1)), 1) << number;
    }
    EXPECT_EQ(flash.erases(0) + flash.erases(1), (10000 + 6) / 7);
    EXPECT_EQ(flash.broken_rule(), "");
}

TEST(Journal, GoesOnWhenTheSequenceNumbersReachTheEndOf32Bits) {
    for (std::uint32_t before_end = 0; before_end < 20; ++before_end) {
        Flash flash;
        put(flash, 1, 0, {record_format_version, 0xFFFFFFFFU - before_end, payload_of(1)});
        for (std::uint32_t number = 2; number < 60; ++number) {
            Journal journal(flash.pages());
            ASSERT_EQ(journal.recovery(), Recovery::recovered);
            ASSERT_EQ(journal.payload(), payload_of(number - 1)) << before_end << " " << number;
            save_whole(journal, flash, payload_of(number));
        }
        EXPECT_EQ(flash.broken_rule(), "");
    }
}

TEST(Journal, TakesTheNewestRecordWhereverInTheStoreItStands) {
    for (std::size_t newest = 0; newest < 14; ++newest) {
        Flash flash;
        for (std::size_t place = 0; place < 14; ++place) {
            const auto sequence = static_cast<std::uint32_t>((place + 13 - newest) % 14) - 7U;
            put(flash, place / 7, place % 7,
                {record_format_version, sequence, payload_of(sequence)});
        }
        const Journal journal(flash.pages());
        EXPECT_EQ(journal.payload(), payload_of(6)) << newest;
    }
}

TEST(Journal, NeedsNoMoreMemoryThanItSays) {
    EXPECT_LE(sizeof(Journal), 72U);
    EXPECT_TRUE(std::is_trivially_copyable_v<Journal>);
}

}  // namespace
