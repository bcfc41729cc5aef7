// Power is cut after every single command, then the journal starts again on what is left.
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdint>
#include <random>
#include <string>
#include <vector>

#include "firmware/memory/journal.hpp"
#include "memory/flash.hpp"
#include "memory/forced_checksum.hpp"

namespace {

using namespace firmware;
using memory_test::fault_of_next_save;
using memory_test::Flash;
using memory_test::flash_after_saves;
using memory_test::payload_of;

// The number of the payload found, 0 for none, -1 for one that was never saved.
long found_number(const Journal& journal, std::uint32_t highest) {
    if (!journal.has_payload()) {
        return 0;
    }
    for (std::uint32_t number = highest; number >= 1; --number) {
        if (journal.payload() == payload_of(number)) {
            return number;
        }
    }
    return -1;
}

// Calls look(flash, number, words, commands_left) before the first and after every command of the
// saves from `first` to `last`, with how many words of record `number` are written so far.
template <class Look>
void at_every_cut(std::uint32_t first, std::uint32_t last, Look look) {
    Flash flash = flash_after_saves(first - 1);
    Journal journal(flash.pages());
    for (std::uint32_t number = first; number <= last; ++number) {
        ASSERT_TRUE(journal.save(payload_of(number)));
        int words = 0;
        look(flash, number, words);
        while (journal.busy()) {
            const StoreCommand command = journal.next();
            flash.carry_out(command);
            words += command.kind == StoreCommandKind::write_word ? 1 : 0;
            look(flash, number, words);
        }
    }
    EXPECT_EQ(flash.broken_rule(), "");
}

// Covers: ME-01
TEST(PowerCut, AfterAnyCommandLeavesTheOldRecordOrTheNewOneAndSaysWhich) {
    int cuts = 0;
    at_every_cut(1, 300, [&](const Flash& flash, std::uint32_t number, int words) {
        ++cuts;
        const Journal journal(flash.pages());
        const bool is_new = words == 9;
        ASSERT_EQ(found_number(journal, number), is_new ? number : number - 1) << words;
        if (number == 1 && !is_new) {
            ASSERT_EQ(journal.recovery(), words == 0 ? Recovery::fresh : Recovery::nothing_valid);
        } else {
            ASSERT_EQ(journal.recovery(),
                      is_new || words == 0 ? Recovery::recovered : Recovery::recovered_older)
                << number << " after " << words;
        }
        ASSERT_EQ(fault_of_next_save(flash), "") << number << " after " << words;
    });
    EXPECT_GT(cuts, 300 * 10);
}

// Covers: ME-01
TEST(PowerCut, InsideAnEraseLeavesTheOldRecordWhateverThePageThenHolds) {
    std::mt19937 random(2);
    int erases = 0;
    for (std::uint32_t saves = 7; saves < 200; saves += 7) {
        const Flash full = flash_after_saves(saves);
        Journal journal(full.pages());
        ASSERT_TRUE(journal.save(payload_of(saves + 1)));
        const StoreCommand command = journal.next();
        ASSERT_EQ(command.kind, StoreCommandKind::erase_page);
        ++erases;
        for (int i = 0; i < 100; ++i) {
            Flash flash = full;
            switch (i % 3) {
                case 0:
                    flash.erase_in_part(command.page, random);
                    break;
                case 1:
                    flash.erase_into_garbage(command.page, random);
                    break;
                default:
                    flash.erase_in_appearance(command.page);
            }
            const Journal again(flash.pages());
            ASSERT_EQ(found_number(again, saves), saves);
            ASSERT_EQ(fault_of_next_save(flash), "");
        }
    }
    EXPECT_EQ(erases, 28);
}

TEST(PowerCut, InsideAnEraseTogetherWithAnyFlipCostsAtMostTheNewestRecord) {
    std::mt19937 random(6);
    const Flash full = flash_after_saves(14);  // page 1 holds the newest, page 0 is being erased
    for (int i = 0; i < 60; ++i) {
        Flash torn = full;
        switch (i % 3) {
            case 0:
                torn.erase_in_part(0, random);
                break;
            case 1:
                torn.erase_into_garbage(0, random);
                break;
            default:
                torn.erase_in_appearance(0);
        }
        for (std::size_t bit = 0; bit < Flash::bits; ++bit) {
            Flash flipped = torn;
            flipped.flip(bit);
            const bool in_newest = bit / 32 >= 64 + 6 * 9 && bit / 32 < 64 + 7 * 9;
            ASSERT_EQ(found_number(Journal(flipped.pages()), 14), in_newest ? 13 : 14) << bit;
            if (bit % 61 == 0) {
                ASSERT_EQ(fault_of_next_save(flipped), "") << bit;
            }
        }
    }
}

TEST(PowerCut, InsideTheVeryFirstEraseIsFollowedByAWholeOne) {
    Flash flash;
    flash.erase_in_appearance(0);
    EXPECT_EQ(fault_of_next_save(flash), "");
}

// Covers: ME-01
TEST(PowerCut, InsideAWordThatIsLeftWithSomeOfItsBitsLeavesTheOldRecordOrTheNewOne) {
    std::mt19937 random(3);
    Flash flash = flash_after_saves(5);
    Journal journal(flash.pages());
    for (std::uint32_t number = 6; number < 60; ++number) {
        ASSERT_TRUE(journal.save(payload_of(number)));
        while (journal.busy()) {
            const StoreCommand command = journal.next();
            if (command.kind == StoreCommandKind::write_word) {
                for (int i = 0; i < 30; ++i) {
                    Flash torn = flash;
                    StoreCommand part = command;
                    // At least one bit has been reached: else nothing has happened.
                    part.word |= static_cast<std::uint32_t>(random());
                    if (part.word == erased_word) {
                        continue;
                    }
                    torn.carry_out(part);
                    const long found = found_number(Journal(torn.pages()), number);
                    const bool complete = command.index % 9 == 8 && part.word == command.word;
                    ASSERT_EQ(found, complete ? number : number - 1);
                    ASSERT_EQ(fault_of_next_save(torn), "");
                }
            }
            flash.carry_out(command);
        }
    }
}

// A life with nothing but cuts: most saves never come to their end.
TEST(PowerCut, AgainAndAgainNeverLosesTheLastWholeRecord) {
    std::mt19937 random(4);
    Flash flash;
    long last_whole = 0;
    std::uint32_t number = 0;
    int whole = 0;
    int torn_erases = 0;
    for (int start = 0; start < 20000; ++start) {
        Journal journal(flash.pages());
        ASSERT_EQ(journal.has_payload(), last_whole != 0);
        if (last_whole != 0) {
            ASSERT_EQ(journal.payload(), payload_of(static_cast<std::uint32_t>(last_whole)));
        }
        int commands = static_cast<int>(random() % 24);
        while (commands > 0) {
            ++number;
            ASSERT_TRUE(journal.save(payload_of(number)));
            while (journal.busy() && commands > 0) {
                --commands;
                const StoreCommand command = journal.next();
                if (command.kind == StoreCommandKind::erase_page && commands == 0) {
                    ++torn_erases;
                    if (random() % 2 == 0) {
                        flash.erase_in_part(command.page, random);
                    } else {
                        flash.erase_in_appearance(command.page);
                    }
                } else {
                    flash.carry_out(command);
                }
            }
            if (!journal.busy()) {
                last_whole = number;
                ++whole;
            }
        }
        ASSERT_EQ(flash.broken_rule(), "") << start;
    }
    EXPECT_GT(whole, 5000);
    EXPECT_GT(torn_erases, 100);
    RecordProperty("saves_begun", static_cast<int>(number));
    RecordProperty("saves_whole", whole);
    RecordProperty("torn_erases", torn_erases);
    RecordProperty("erases", flash.erases(0) + flash.erases(1));
}

// Covers: ME-02
TEST(PowerCut, TogetherWithAnyFlipOfOneBitNeverGivesAWrongPayload) {
    // From the fifth record of a page through the next change of pages.
    int power_ups = 0;
    int newest_lost = 0;
    at_every_cut(12, 16, [&](const Flash& flash, std::uint32_t number, int words) {
        const long newest = words == 9 ? number : number - 1;
        for (std::size_t bit = 0; bit < Flash::bits; ++bit) {
            Flash flipped = flash;
            flipped.flip(bit);
            const Journal journal(flipped.pages());
            const long found = found_number(journal, number);
            ASSERT_TRUE(found == newest || found == newest - 1) << found << " bit " << bit;
            newest_lost += found == newest ? 0 : 1;
            ++power_ups;
            if (found != newest) {
                ASSERT_EQ(journal.recovery(), Recovery::recovered_older) << bit;
            }
            // The prime visits every kind of word and every bit position.
            if (bit % 7 == 0) {
                ASSERT_EQ(fault_of_next_save(flipped), "") << number << " bit " << bit;
            }
        }
    });
    // At every cut the flips that cost the newest record are those in its own nine words.
    EXPECT_EQ(newest_lost, power_ups / static_cast<int>(Flash::bits) * 9 * 32);
}

TEST(PowerCut, TogetherWithAFlipInTheTornRecordNeverMakesItWhole) {
    at_every_cut(1, 120, [&](const Flash& flash, std::uint32_t number, int words) {
        if (words == 0 || words == 9) {
            return;
        }
        const std::size_t record = number - 1;
        const std::size_t first_bit = (record / 7 % 2 * 64 + record % 7 * 9) * 32;
        for (std::size_t bit = first_bit; bit < first_bit + 9 * 32; ++bit) {
            Flash flipped = flash;
            flipped.flip(bit);
            const Journal journal(flipped.pages());
            if (number == 1) {
                ASSERT_FALSE(journal.has_payload());
            } else {
                ASSERT_EQ(journal.payload(), payload_of(number - 1));
                ASSERT_EQ(journal.recovery(), Recovery::recovered_older);
            }
            if (bit % 13 == 0) {
                ASSERT_EQ(fault_of_next_save(flipped), "") << number << " bit " << bit;
            }
        }
    });
}

// A sequence number of all ones leaves its word as if it had not been written.
TEST(PowerCut, AfterAnyCommandWhileTheSequenceNumbersReachTheirEndLeavesTheOldRecordOrTheNewOne) {
    Flash flash;
    memory_test::put(flash, 1, 0, {record_format_version, 0xFFFFFFF7U, payload_of(1)});
    Journal journal(flash.pages());
    for (std::uint32_t number = 2; number < 25; ++number) {
        ASSERT_TRUE(journal.save(payload_of(number)));
        while (journal.busy()) {
            ASSERT_EQ(found_number(Journal(flash.pages()), number), number - 1);
            ASSERT_EQ(fault_of_next_save(flash), "") << number;
            flash.carry_out(journal.next());
        }
        ASSERT_EQ(found_number(Journal(flash.pages()), number), number);
    }
    EXPECT_EQ(flash.broken_rule(), "");
}

// The worst payload there is: cut before its last word, all that is missing reads as erased, and so
// would the checksum.
TEST(PowerCut, BeforeTheLastWordsIsNoticedWhenTheMissingChecksumWouldBeErasedWords) {
    LearnedRecord record{record_format_version, 1, payload_of(3)};
    record.payload.back() = erased_word;
    record = memory_test::with_checksum(record, 2, erased_word);
    ASSERT_EQ(encoded(record).back(), erased_word);
    record.payload.back() = 0x12345678U;

    Flash flash;
    Journal journal(flash.pages());
    ASSERT_TRUE(journal.save(record.payload));
    while (journal.busy()) {
        ASSERT_FALSE(Journal(flash.pages()).has_payload());
        flash.carry_out(journal.next());
    }
    EXPECT_EQ(Journal(flash.pages()).payload(), record.payload);
}

TEST(PowerCut, BeforeTheChecksumIsNoticedForTheRecordWhoseChecksumReadsAsErased) {
    const LearnedRecord record =
        memory_test::with_checksum({record_format_version, 1, payload_of(3)}, 2, erased_word);
    ASSERT_EQ(encoded(record).back(), erased_word);

    Flash flash;
    Journal journal(flash.pages());
    ASSERT_TRUE(journal.save(record.payload));
    while (journal.busy()) {
        ASSERT_FALSE(Journal(flash.pages()).has_payload());
        flash.carry_out(journal.next());
    }
    const Journal again(flash.pages());
    EXPECT_EQ(again.recovery(), Recovery::recovered);
    EXPECT_EQ(again.payload(), record.payload);
}

// The slot that stays without a checksum may be the last of its page: the next one needs an erase.
TEST(PowerCut, BehindARecordThatStaysWithoutItsChecksumLeavesTheOneBefore) {
    for (std::uint32_t saves = 1; saves <= 15; ++saves) {
        const LearnedRecord record = memory_test::with_checksum(
            {record_format_version, saves + 1, payload_of(saves + 1)}, 2, erased_word);
        Flash flash = flash_after_saves(saves);
        Journal journal(flash.pages());
        ASSERT_TRUE(journal.save(record.payload));
        int words = 0;
        while (journal.busy()) {
            ASSERT_EQ(Journal(flash.pages()).payload(), payload_of(saves)) << saves;
            const StoreCommand command = journal.next();
            words += command.kind == StoreCommandKind::write_word ? 1 : 0;
            flash.carry_out(command);
        }
        EXPECT_EQ(words, 17) << "all but the checksum, and all of the next number's";
        EXPECT_EQ(Journal(flash.pages()).payload(), record.payload) << saves;
        EXPECT_EQ(flash.broken_rule(), "") << saves;
    }
}

}  // namespace
