// What crosses from a worker: whole, in any pieces, and never trusted.
#include "sim/regression/case_message.hpp"

#include <gtest/gtest.h>

#include <random>

namespace {

using sim::CaseMessage;
using sim::MessageStream;

CaseMessage some_message() {
    CaseMessage message;
    message.has_ended = true;
    message.begun.expected = "running";
    message.begun.simulated_s = 2.5;
    message.begun.holds_foreign_code = true;
    sim::CaseRecord& record = message.begun.record;
    record.id = 123456789012;
    record.place = {"block", "unit", "supply", "cold", "none", "as it is"};
    record.seed = 4000000000U;
    record.scenario_hash = "abc";
    record.settings_hash = "";
    record.inputs = {{"a_V", 1.5}, {"b_C", -3.25}};
    sim::StartRow row;
    row.start = 2;
    row.outcome = "stalled";
    row.cause = "rotor_never_turned";
    row.expected = "running or resting";
    row.figures = {0.1, std::nullopt, -0.0};
    row.broken = {{"monitor:rest", "too short"}, {"outcome", "stalled"}};
    record.starts = {row, sim::StartRow{}};
    return message;
}

TEST(CaseMessage, ArrivesAsItWasSentInPiecesOfAnySize) {
    const CaseMessage sent = some_message();
    const std::string bytes = packed(sent) + packed(sent);
    for (const std::size_t piece : {1U, 7U, 1000U}) {
        MessageStream stream;
        int arrived = 0;
        for (std::size_t k = 0; k < bytes.size(); k += piece) {
            stream.add(bytes.data() + k, std::min(piece, bytes.size() - k));
            while (const auto message = stream.next()) {
                ++arrived;
                // Every field is packed, so the bytes stand for all of them.
                EXPECT_EQ(packed(*message), packed(sent));
                EXPECT_EQ(message->begun.record.starts[0].broken[1].words, "stalled");
                EXPECT_EQ(message->begun.record.inputs[1].value, -3.25);
                EXPECT_FALSE(message->begun.record.starts[0].figures[1]);
            }
        }
        EXPECT_EQ(arrived, 2) << piece;
    }
}

TEST(CaseMessage, DamagedBytesAreRefusedOrReadButNeverFollowedOutOfBounds) {
    std::minstd_rand random(7);
    const std::string whole = packed(some_message());
    int refused = 0;
    for (int trial = 0; trial < 3000; ++trial) {
        std::string bytes = whole;
        bytes[random() % bytes.size()] = static_cast<char>(random());
        MessageStream stream;
        stream.add(bytes.data(), bytes.size());
        try {
            stream.next();
        } catch (const sim::DamagedAnswer&) {
            ++refused;
        }
    }
    EXPECT_GT(refused, 100);
}

TEST(CaseMessage, OneThatIsShorterThanItsFieldsIsRefused) {
    std::string bytes = packed(some_message());
    bytes[0] = static_cast<char>(bytes[0] - 1);
    MessageStream stream;
    stream.add(bytes.data(), bytes.size());
    EXPECT_THROW(stream.next(), sim::DamagedAnswer);
}

}  // namespace
