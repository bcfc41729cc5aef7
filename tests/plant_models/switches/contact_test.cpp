#include "plant_models/switches/contact.hpp"

#include <gtest/gtest.h>

#include <utility>
#include <vector>

#include "support/random_numbers.hpp"

namespace {

using plant_models::Contact;
using plant_models::ContactTiming;
using plant_models::Instant;
using plant_models::never;

using namespace std::chrono_literals;

const ContactTiming relay = ContactTiming::from_milliseconds(12.0, 8.0, 1.5);

/// Carries out every edge up to and including `end`; the instants and what the contact did.
std::vector<std::pair<Instant, bool>> edges_until(Contact& contact, Instant end) {
    std::vector<std::pair<Instant, bool>> edges;
    while (contact.next_edge() <= end && contact.next_edge() != never) {
        const Instant at = contact.next_edge();
        contact.take_edge();
        edges.emplace_back(at, contact.touching());
    }
    return edges;
}

TEST(Contact, TouchesAfterItsTravelBouncesTwiceAndStays) {
    Contact contact(relay);
    contact.command(true, 100ms);
    const std::vector<std::pair<Instant, bool>> expected = {
        {112000us, true}, {112450us, false}, {112750us, true}, {113125us, false}, {113500us, true}};
    EXPECT_EQ(edges_until(contact, 1s), expected);
    EXPECT_EQ(contact.next_edge(), never);
    EXPECT_TRUE(contact.touching());
}

TEST(Contact, PartsOnceAfterItsOpeningTime) {
    Contact contact(relay);
    contact.command(true, 0ms);
    edges_until(contact, 50ms);
    contact.command(false, 60ms);
    EXPECT_TRUE(contact.touching());
    const std::vector<std::pair<Instant, bool>> expected = {{68ms, false}};
    EXPECT_EQ(edges_until(contact, 1s), expected);
}

TEST(Contact, RestsOpenWithoutACommand) {
    const Contact contact(relay);
    EXPECT_FALSE(contact.touching());
    EXPECT_FALSE(contact.coil_on());
    EXPECT_EQ(contact.next_edge(), never);
}

TEST(Contact, RepeatedCommandNeitherRestartsTheTravelNorBouncesAgain) {
    Contact contact(relay);
    contact.command(true, 0ms);
    contact.command(true, 11ms);
    EXPECT_EQ(contact.next_edge(), 12ms);
    edges_until(contact, 50ms);
    contact.command(true, 60ms);
    EXPECT_EQ(contact.next_edge(), never);
    contact.command(false, 70ms);
    contact.command(false, 77ms);
    EXPECT_EQ(contact.next_edge(), 78ms);
}

TEST(Contact, CommandWithdrawnDuringTheTravelNeverTouches) {
    Contact contact(relay);
    contact.command(true, 0ms);
    contact.command(false, 11ms);
    EXPECT_TRUE(edges_until(contact, 1s).empty());
    EXPECT_FALSE(contact.touching());
}

TEST(Contact, CoilBackOnBeforeTheContactPartsKeepsItTouching) {
    Contact contact(relay);
    contact.command(true, 0ms);
    edges_until(contact, 50ms);
    contact.command(false, 60ms);
    contact.command(true, 67ms);
    EXPECT_TRUE(edges_until(contact, 1s).empty());
    EXPECT_TRUE(contact.touching());
}

TEST(Contact, CoilOffWhileBouncingEndsOpenWhicheverWayItStandsJustThen) {
    for (const Instant off :
         {Instant(12200us), Instant(12600us), Instant(13000us), Instant(13300us)}) {
        Contact contact(relay);
        contact.command(true, 0ms);
        edges_until(contact, off);
        const bool touched = contact.touching();
        contact.command(false, off);
        const auto edges = edges_until(contact, 1s);
        EXPECT_EQ(edges.size(), touched ? 1U : 0U);
        if (touched) {
            EXPECT_EQ(edges.front().first, off + 8ms);
        }
        EXPECT_FALSE(contact.touching());
    }
}

TEST(Contact, ContactWithoutTimesFollowsAtOnceAndDoesNotBounce) {
    Contact contact(ContactTiming{});
    contact.command(true, 5ms);
    EXPECT_EQ(contact.next_edge(), 5ms);
    EXPECT_EQ(edges_until(contact, 5ms).size(), 1U);
    EXPECT_TRUE(contact.touching());
    contact.command(false, 5ms);
    EXPECT_EQ(contact.next_edge(), 5ms);
    EXPECT_EQ(edges_until(contact, 5ms).size(), 1U);
    EXPECT_FALSE(contact.touching());
}

TEST(Contact, FractionsOfAMillisecondAreKeptToTheNanosecond) {
    const ContactTiming timing = ContactTiming::from_milliseconds(0.000001, 1.5, 0.0000026);
    EXPECT_EQ(timing.close, 1ns);
    EXPECT_EQ(timing.open, 1500us);
    EXPECT_EQ(timing.bounce, 3ns);
}

TEST(Contact, EndsTouchingExactlyWhenTheCoilIsOnWhateverCameBefore) {
    support::RandomNumbers random(6);
    const auto span = [&](double longest_ms) {
        return Instant(static_cast<Instant::rep>(1e6 * random.between(0.0, longest_ms)));
    };
    int ended_touching = 0;
    for (int history = 0; history < 5000; ++history) {
        Contact contact({span(15.0), span(15.0), random.below(4) == 0 ? Instant(0) : span(5.0)});
        Instant now{0};
        for (int k = random.below(12); k >= 0; --k) {
            contact.command(random.below(2) == 0, now);
            now += span(20.0);
            Instant last{0};
            for (const auto& [at, touching] : edges_until(contact, now)) {
                ASSERT_GE(at, last);
                last = at;
            }
        }
        edges_until(contact, now + 1s);
        ASSERT_EQ(contact.touching(), contact.coil_on());
        ASSERT_EQ(contact.next_edge(), never);
        ended_touching += contact.touching() ? 1 : 0;
    }
    EXPECT_GT(ended_touching, 1000);
    EXPECT_LT(ended_touching, 4000);
}

// An edge that lies before the command would make the timeline run backwards.
TEST(Contact, NoEdgeComesBeforeItsCommand) {
    support::RandomNumbers random(7);
    for (int history = 0; history < 2000; ++history) {
        Contact contact(relay);
        Instant now{0};
        for (int k = 0; k < 10; ++k) {
            now += Instant(static_cast<Instant::rep>(random.between(0.0, 20e6)));
            edges_until(contact, now);
            contact.command(random.below(2) == 0, now);
            ASSERT_GE(contact.next_edge(), now);
        }
    }
}

}  // namespace
