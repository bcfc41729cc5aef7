// Contacts follow their coils after their travel, bounce as documented, and keep the order of
// equal times.
#include <gtest/gtest.h>

#include <functional>
#include <vector>

#include "timeline/bench_plant.hpp"

namespace {

using sim_test::held_rotor;
using sim_test::Instant;
using sim_test::line_only;
using sim_test::one_tick;
using sim_test::with_gate;

sim::PlantDescription with_travel(double close_ms, double open_ms, double bounce_ms,
                                  double phase_deg = 0.0) {
    auto description = held_rotor(phase_deg);
    description.limiter.contact_close_ms = close_ms;
    description.limiter.contact_open_ms = open_ms;
    description.limiter.contact_bounce_ms = bounce_ms;
    return description;
}

struct Contact {
    const char* name;
    std::function<void(sim::PowerCommands&)> coil_on;
    std::function<bool(const plant_models::PlantOutputs&)> touches;
};

const std::vector<Contact>& contacts() {
    using Outputs = plant_models::PlantOutputs;
    static const std::vector<Contact> list = {
        {"bypass", [](sim::PowerCommands& c) { c.bypass_coil = true; },
         [](const Outputs& o) { return o.bypass_closed; }},
        {"line", [](sim::PowerCommands& c) { c.line_coil = true; },
         [](const Outputs& o) { return o.line_connected; }},
        {"start capacitor", [](sim::PowerCommands& c) { c.start_capacitor_coil = true; },
         [](const Outputs& o) { return o.start_capacitor_in; }},
    };
    return list;
}

TEST(Contact, TouchesPartsAndTouchesAgainAtTheDocumentedInstants) {
    // Coil on at 0.3 ms; close 12 ms; bounce 1.5 ms: touch, part at 30, touch at 50, part at 75,
    // touch at 100 % of the bounce time. Without a current there is no arc to prolong anything.
    const std::vector<long> edges_ns = {12'300'000, 12'750'000, 13'050'000, 13'425'000, 13'800'000};
    for (const Contact& contact : contacts()) {
        auto description = with_travel(12.0, 8.0, 1.5);
        // A supply of almost no voltage: the line contact then parts without an arc to speak of.
        const auto plant = sim::make_plant_run(description);
        plant->advance_to(Instant{300'000});
        sim::PowerCommands commands;
        contact.coil_on(commands);
        plant->apply(commands);
        bool touches = false;
        for (const long edge : edges_ns) {
            plant->advance_to(Instant{edge});
            EXPECT_EQ(contact.touches(plant->outputs()), touches) << contact.name << " " << edge;
            if (contact.touches(plant->outputs()) != touches) {
                break;
            }
            touches = !touches;
            plant->advance_to(Instant{edge + 1});
            const bool arcs = !touches && std::string(contact.name) == "line";
            EXPECT_EQ(contact.touches(plant->outputs()), touches || arcs)
                << contact.name << " " << edge;
            if (arcs) {
                break;  // the capacitor's current keeps the line until its zero
            }
        }
    }
}

TEST(Contact, PartsAfterItsOpeningTravel) {
    const auto plant = sim::make_plant_run(with_travel(1.0, 8.0, 0.0));
    sim::PowerCommands commands;
    commands.bypass_coil = true;
    plant->apply(commands);
    plant->advance_to(Instant{5'000'000});
    EXPECT_TRUE(plant->outputs().bypass_closed);
    plant->apply({});
    plant->advance_to(Instant{13'000'000});
    EXPECT_TRUE(plant->outputs().bypass_closed);
    plant->advance_to(Instant{13'000'001});
    EXPECT_FALSE(plant->outputs().bypass_closed);
}

TEST(Contact, WhoseCommandIsTakenBackOnTheWayNeverTouches) {
    const auto plant = sim::make_plant_run(with_travel(12.0, 8.0, 1.5));
    sim::PowerCommands commands;
    commands.bypass_coil = true;
    plant->apply(commands);
    plant->advance_to(Instant{11'900'000});
    plant->apply({});
    for (int k = 0; k < 300; ++k) {
        plant->advance_to(plant->now() + one_tick);
        EXPECT_FALSE(plant->outputs().bypass_closed);
    }
}

TEST(LineContact, ThatPartsUnderCurrentArcsUntilTheNextCurrentZero) {
    const auto plant = sim::make_plant_run(with_travel(0.0, 0.0, 0.0));
    sim::PowerCommands commands = line_only();
    commands.bypass_coil = true;
    for (int k = 0; k < 140; ++k) {
        sim_test::tick(*plant, commands);
    }
    const double before_A = plant->outputs().line_current_A;
    ASSERT_GT(std::abs(before_A), 5.0);
    int ticks = 0;
    double last_A = before_A;
    while (plant->outputs().line_connected && ticks < 200) {
        last_A = plant->outputs().line_current_A;
        EXPECT_GE(last_A * before_A, 0.0);
        sim_test::tick(*plant, {});
        ++ticks;
    }
    EXPECT_GT(ticks, 0);
    EXPECT_LT(ticks, 84);  // a half cycle
    EXPECT_NEAR(plant->outputs().line_current_A, 0.0, 1e-9);
}

// Equal times. The order is: line contactor, start contact, bypass contact, gate. Each pair below
// is one whose order can be seen from outside.

TEST(EqualTimes, TheLineContactorComesBeforeTheGate) {
    // At the crest: if the gate came first it would find no voltage, and the firing would have to
    // be located as an event of its own.
    const auto plant = sim::make_plant_run(with_travel(0.05, 0.0, 0.0, 90.0));
    plant->apply(with_gate(line_only(), 50, 100));
    plant->advance_to(Instant{50'000});
    EXPECT_FALSE(plant->outputs().line_connected);
    plant->advance_to(Instant{50'001});
    EXPECT_TRUE(plant->outputs().line_connected);
    EXPECT_TRUE(plant->outputs().thyristor_conducting);
    EXPECT_GT(plant->outputs().main_current_A, 2e-5);
    EXPECT_EQ(plant->events(), 0);
}

TEST(EqualTimes, ThePartingBypassComesBeforeTheEndOfTheGatePulse) {
    // Gate still on as the bypass parts: the thyristor takes over and stays. In the other order
    // there would be an arc.
    auto description = with_travel(0.0, 0.06, 0.0, 90.0);
    const auto plant = sim::make_plant_run(description);
    sim::PowerCommands commands = line_only();
    commands.bypass_coil = true;
    for (int k = 0; k < 10; ++k) {
        sim_test::tick(*plant, commands);
    }
    ASSERT_GT(std::abs(plant->outputs().main_current_A), 5.0);
    plant->apply(with_gate(line_only(), 20, 60));
    plant->advance_to(plant->now() + Instant{60'001});
    EXPECT_FALSE(plant->outputs().bypass_closed);
    EXPECT_FALSE(plant->outputs().gate_on);
    EXPECT_TRUE(plant->outputs().thyristor_conducting);
}

TEST(EqualTimes, ATouchingBypassAndAGateEdgeEndInTheBypassInEitherOrder) {
    // This pair commutes: the bypass takes over from a thyristor that has just fired.
    const auto plant = sim::make_plant_run(with_travel(0.05, 0.0, 0.0, 90.0));
    sim::PowerCommands commands = line_only();
    commands.bypass_coil = true;
    plant->apply(with_gate(commands, 50, 100));
    plant->advance_to(Instant{60'000});
    EXPECT_TRUE(plant->outputs().bypass_closed);
    EXPECT_FALSE(plant->outputs().thyristor_conducting);
    EXPECT_TRUE(plant->outputs().main_conducting);
    EXPECT_EQ(plant->events(), 0);
}

}  // namespace
