#include "firmware/memory/record.hpp"

#include "firmware/contract/store.hpp"
#include "firmware/memory/checksum.hpp"

namespace firmware {

namespace {

// Chosen freely, with zeros and ones mixed.
constexpr std::uint32_t record_mark = 0x4C52U;

constexpr std::size_t first_payload_word = 2;
constexpr std::size_t checksum_word = record_words - 1;

std::uint32_t checksum_of(const RecordWords& words) {
    Checksum checksum;
    for (std::size_t i = 0; i < checksum_word; ++i) {
        checksum.add_word(words[i]);
    }
    return checksum.value();
}

}  // namespace

RecordBody body_of(const LearnedRecord& record) {
    RecordBody body{};
    body[0] = (record_mark << 16) | record.version;
    body[sequence_word] = record.sequence;
    for (std::size_t i = 0; i < payload_words; ++i) {
        body[first_payload_word + i] = record.payload[i];
    }
    return body;
}

RecordWords encoded(const LearnedRecord& record) {
    const RecordBody body = body_of(record);
    RecordWords words{};
    for (std::size_t i = 0; i < checksum_word; ++i) {
        words[i] = body[i];
    }
    words[checksum_word] = checksum_of(words);
    return words;
}

bool is_whole(const RecordWords& words) {
    return (words[0] >> 16) == record_mark && words[checksum_word] != erased_word &&
           words[checksum_word] == checksum_of(words);
}

LearnedRecord decoded(const RecordWords& words) {
    LearnedRecord record;
    record.version = static_cast<std::uint16_t>(words[0] & 0xFFFFU);
    record.sequence = words[sequence_word];
    for (std::size_t i = 0; i < payload_words; ++i) {
        record.payload[i] = words[first_payload_word + i];
    }
    return record;
}

}  // namespace firmware
