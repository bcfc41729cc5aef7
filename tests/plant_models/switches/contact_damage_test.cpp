// A contact that no longer does what its coil says.
#include <gtest/gtest.h>

#include <utility>
#include <vector>

#include "plant_models/switches/contact.hpp"

namespace {

using plant_models::Contact;
using plant_models::ContactCondition;
using plant_models::ContactTiming;
using plant_models::Instant;
using plant_models::never;

using namespace std::chrono_literals;

const ContactTiming relay = ContactTiming::from_milliseconds(12.0, 8.0, 1.5);

/// Carries out every edge; the instants and what the contact did.
std::vector<std::pair<Instant, bool>> all_edges(Contact& contact) {
    std::vector<std::pair<Instant, bool>> edges;
    while (contact.next_edge() != never) {
        const Instant at = contact.next_edge();
        contact.take_edge();
        edges.emplace_back(at, contact.touching());
    }
    return edges;
}
using Edges = std::vector<std::pair<Instant, bool>>;

Contact closed_contact() {
    Contact contact(relay);
    contact.command(true, 0ms);
    all_edges(contact);
    return contact;
}

TEST(WeldedContact, TouchesOnceWithoutBouncingAndDoesNotOpenAnyMore) {
    Contact contact(relay);
    contact.set_condition(ContactCondition::welds, 0ms);
    EXPECT_EQ(contact.next_edge(), never);
    contact.command(true, 10ms);
    EXPECT_EQ(all_edges(contact), (Edges{{22ms, true}}));
    contact.command(false, 60ms);
    EXPECT_EQ(contact.next_edge(), never);
    EXPECT_TRUE(contact.touching());
}

TEST(WeldedContact, WeldsAtTheNextTouchOfABounce) {
    Contact contact(relay);
    contact.command(true, 0ms);
    contact.take_edge();
    contact.take_edge();  // parted again, at 12.45 ms
    contact.set_condition(ContactCondition::welds, 12500us);
    EXPECT_EQ(all_edges(contact), (Edges{{12750us, true}}));
}

TEST(WeldedContact, StaysWhenItHadJustBeenToldToOpen) {
    Contact contact = closed_contact();
    contact.command(false, 50ms);
    contact.set_condition(ContactCondition::welds, 51ms);
    EXPECT_EQ(contact.next_edge(), never);
    EXPECT_TRUE(contact.touching());
}

TEST(StuckContact, GoesThereAtOnceAndHeedsNoCoil) {
    for (const bool closed : {false, true}) {
        Contact contact = closed ? Contact(relay) : closed_contact();
        contact.set_condition(
            closed ? ContactCondition::stuck_closed : ContactCondition::stuck_open, 70ms);
        EXPECT_EQ(all_edges(contact), (Edges{{70ms, closed}}));
        contact.command(!closed, 80ms);
        contact.command(closed, 90ms);
        contact.command(!closed, 100ms);
        EXPECT_EQ(contact.next_edge(), never);
        EXPECT_EQ(contact.touching(), closed);
    }
}

TEST(MendedContact, FollowsItsCoilAfterTheUsualTravel) {
    Contact stuck_in = closed_contact();
    stuck_in.set_condition(ContactCondition::stuck_closed, 50ms);
    stuck_in.command(false, 60ms);
    stuck_in.set_condition(ContactCondition::whole, 100ms);
    EXPECT_EQ(all_edges(stuck_in), (Edges{{108ms, false}}));

    Contact stuck_out(relay);
    stuck_out.set_condition(ContactCondition::stuck_open, 0ms);
    stuck_out.command(true, 10ms);
    stuck_out.set_condition(ContactCondition::whole, 100ms);
    const Edges edges = all_edges(stuck_out);
    ASSERT_EQ(edges.size(), 5U);
    EXPECT_EQ(edges.front(), std::make_pair(Instant(112ms), true));
    EXPECT_TRUE(stuck_out.touching());
}

TEST(MendedContact, DoesNotMoveIfItIsWhereItsCoilWantsIt) {
    Contact contact = closed_contact();
    contact.set_condition(ContactCondition::stuck_closed, 50ms);
    contact.set_condition(ContactCondition::whole, 60ms);
    EXPECT_EQ(contact.next_edge(), never);
}

}  // namespace
