#include "firmware/memory/record.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdint>
#include <unordered_set>
#include <vector>

#include "firmware/contract/store.hpp"
#include "firmware/memory/checksum.hpp"
#include "memory/flash.hpp"
#include "memory/forced_checksum.hpp"

namespace {

using namespace firmware;
using memory_test::payload_of;

LearnedRecord some_record(std::uint32_t number) {
    return LearnedRecord{record_format_version, number, payload_of(number)};
}

RecordWords with_flip(RecordWords words, std::size_t bit) {
    words.at(bit / 32) ^= 1U << (bit % 32);
    return words;
}

constexpr std::size_t record_bits = record_words * 32;

TEST(Record, ComesBackAsItWasEncoded) {
    for (std::uint32_t number = 0; number < 1000; ++number) {
        LearnedRecord record = some_record(number);
        record.version = static_cast<std::uint16_t>(number * 77);
        const RecordWords words = encoded(record);
        ASSERT_TRUE(is_whole(words));
        const LearnedRecord back = decoded(words);
        ASSERT_EQ(back.version, record.version);
        ASSERT_EQ(back.sequence, record.sequence);
        ASSERT_EQ(back.payload, record.payload);
    }
}

TEST(Record, ShowsInItsFirstWordThatItsWritingHasBegunWhateverOneFlipDoes) {
    for (std::uint32_t version = 0; version <= 0xFFFF; ++version) {
        LearnedRecord record;
        record.version = static_cast<std::uint16_t>(version);
        std::uint32_t zeros = ~encoded(record)[0];
        zeros &= zeros - 1;  // without its lowest one
        ASSERT_NE(zeros, 0U) << version;
    }
}

TEST(Record, IsNotWholeAfterAnySingleFlip) {
    for (std::uint32_t number = 0; number < 100; ++number) {
        const RecordWords words = encoded(some_record(number));
        for (std::size_t bit = 0; bit < record_bits; ++bit) {
            ASSERT_FALSE(is_whole(with_flip(words, bit))) << number << " bit " << bit;
        }
    }
}

// What a flip changes in the checksum's equation does not depend on the record (a CRC is linear),
// so the changes of single flips, taken once, stand for all records. Up to five flips go unnoticed
// only if their changes cancel, that is if some two or fewer equal some other three or fewer.
TEST(Record, IsNotWholeAfterUpToFiveFlips) {
    const RecordWords words = encoded(some_record(7));
    std::vector<std::uint32_t> change;
    for (std::size_t bit = 0; bit < record_bits; ++bit) {
        const RecordWords flipped = with_flip(words, bit);
        change.push_back(flipped.back() ^ encoded(decoded(flipped)).back());
    }
    // decoded() and encoded() put the mark right, so flips there would not count; is_whole()
    // compares the mark as it is, and every set with one of them is noticed.
    change.erase(change.begin() + 16, change.begin() + 32);

    std::vector<std::uint32_t> up_to_two = {0};
    for (std::size_t a = 0; a < change.size(); ++a) {
        up_to_two.push_back(change[a]);
        for (std::size_t b = 0; b < a; ++b) {
            up_to_two.push_back(change[a] ^ change[b]);
        }
    }
    std::sort(up_to_two.begin(), up_to_two.end());
    ASSERT_EQ(std::adjacent_find(up_to_two.begin(), up_to_two.end()), up_to_two.end());

    const std::unordered_set<std::uint32_t> twos(up_to_two.begin(), up_to_two.end());
    std::size_t unnoticed = 0;
    for (std::size_t a = 0; a < change.size(); ++a) {
        for (std::size_t b = 0; b < a; ++b) {
            for (std::size_t c = 0; c < b; ++c) {
                unnoticed += twos.count(change[a] ^ change[b] ^ change[c]);
            }
        }
    }
    EXPECT_EQ(unnoticed, 0U);
}

TEST(Record, WhoseChecksumReadsAsErasedIsNotWhole) {
    const LearnedRecord record = memory_test::with_checksum(some_record(5), 3, erased_word);
    ASSERT_EQ(encoded(record).back(), erased_word);
    EXPECT_FALSE(is_whole(encoded(record)));
}

TEST(Record, WithAnotherMarkIsNotWholeThoughItsChecksumIsRight) {
    for (unsigned bit = 16; bit < 32; ++bit) {
        RecordWords words = encoded(some_record(9));
        words[0] ^= 1U << bit;
        Checksum checksum;
        for (std::size_t i = 0; i + 1 < record_words; ++i) {
            checksum.add_word(words[i]);
        }
        words.back() = checksum.value();
        EXPECT_FALSE(is_whole(words)) << bit;
    }
}

TEST(Record, OfErasedWordsOrOfZerosIsNotWhole) {
    RecordWords words;
    words.fill(erased_word);
    EXPECT_FALSE(is_whole(words));
    words.fill(0);
    EXPECT_FALSE(is_whole(words));
}

TEST(SequenceNumber, IsNewerAcrossTheEndOf32Bits) {
    EXPECT_TRUE(is_newer(5, 4));
    EXPECT_FALSE(is_newer(4, 5));
    EXPECT_FALSE(is_newer(4, 4));
    EXPECT_TRUE(is_newer(0, 0xFFFFFFFFU));
    EXPECT_FALSE(is_newer(0xFFFFFFFFU, 0));
    EXPECT_TRUE(is_newer(3, 0xFFFFFFF0U));
}

}  // namespace
