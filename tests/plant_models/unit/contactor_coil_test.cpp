#include "plant_models/unit/contactor_coil.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "plant_models/numeric/units.hpp"
#include "support/fitting_loop.hpp"
#include "support/machines.hpp"

namespace {

using plant_models::Contact;
using plant_models::ContactorCoil;
using plant_models::ContactorParameters;
using plant_models::Instant;
using plant_models::UnitSignals;
using Loop = support::FittingLoop<ContactorCoil>;

constexpr double rated_V = 230.0;

ContactorParameters default_contactor() {
    return support::table_defaults<ContactorParameters>();
}

ContactorCoil coil() {
    return ContactorCoil(default_contactor(), rated_V);
}

UnitSignals steady(double voltage_V, bool commanded = true) {
    UnitSignals signals;
    signals.supply_voltage_V = voltage_V;
    signals.coil_commanded = commanded;
    return signals;
}

/// `share(t)` x rated, 60 Hz.
Loop::Signals alternating(std::function<double(double)> share) {
    return [share](double time_s) {
        return steady(share(time_s) * rated_V * std::sqrt(2.0) *
                      std::sin(2.0 * plant_models::pi * 60.0 * time_s));
    };
}

double crossing_s(double target, double from, double to) {
    return 0.020 * std::log((target - from) / (target - to));
}

TEST(ContactorCoil, PullsInWhenItsMeanSquareReachesPickUp) {
    Loop loop(coil(), 0.5e-3);
    loop.set_signals(steady(rated_V));
    ASSERT_TRUE(loop.run_to_event(1.0));
    EXPECT_NEAR(loop.time_s, crossing_s(1.0, 0.0, 0.25), 1e-8);
    EXPECT_TRUE(loop.fitting.wants_closed());
}

TEST(ContactorCoil, LetsGoWhenItsMeanSquareFallsToDropOut) {
    Loop loop(coil(), 0.5e-3);
    loop.set_signals(steady(rated_V));
    loop.run_until(1.0);
    loop.set_signals(steady(0.3 * rated_V));
    ASSERT_TRUE(loop.run_to_event(2.0));
    EXPECT_NEAR(loop.time_s - 1.0, crossing_s(0.09, 1.0, 0.2025), 1e-8);
    EXPECT_FALSE(loop.fitting.wants_closed());
    EXPECT_EQ(loop.fitting.drop_outs(), 1);
}

TEST(ContactorCoil, ThresholdsAreExactForAVoltageThatStays) {
    for (const double share : {0.4999, 0.5001}) {
        Loop loop(coil(), 1e-3);
        loop.set_signals(steady(share * rated_V));
        loop.run_until(2.0);
        EXPECT_EQ(loop.fitting.wants_closed(), share > 0.5) << share;
    }
    for (const double share : {0.4499, 0.4501}) {
        Loop loop(coil(), 1e-3);
        loop.set_signals(steady(rated_V));
        loop.run_until(0.5);
        loop.set_signals(steady(share * rated_V));
        loop.run_until(2.5);
        EXPECT_EQ(loop.fitting.wants_closed(), share > 0.45) << share;
    }
}

TEST(ContactorCoil, RippleOfAnAlternatingVoltageDoesNotMakeItChatter) {
    for (double share = 0.40; share < 0.56; share += 0.005) {
        Loop loop(coil(), 0.5e-3);
        loop.signals = alternating([share](double time_s) { return time_s < 0.2 ? 1.0 : share; });
        loop.run_until(2.0);
        EXPECT_LE(loop.fitting.drop_outs(), 1) << share;
        EXPECT_EQ(loop.fitting.wants_closed(), loop.fitting.drop_outs() == 0) << share;
    }
}

TEST(ContactorCoil, RidesThroughAnInterruptionOfOneCycleButNotOfThree) {
    for (const double cycles : {1.0, 3.0}) {
        Loop loop(coil(), 0.5e-3);
        loop.signals = alternating([cycles](double time_s) {
            return time_s > 0.5 && time_s < 0.5 + cycles / 60.0 ? 0.0 : 1.0;
        });
        loop.run_until(1.0);
        EXPECT_EQ(loop.fitting.drop_outs(), cycles > 2.0 ? 1 : 0);
        EXPECT_TRUE(loop.fitting.wants_closed());
    }
}

TEST(ContactorCoil, LetsGoByCommandWithoutCountingADropOut) {
    Loop loop(coil(), 0.5e-3);
    loop.set_signals(steady(rated_V));
    loop.run_until(0.5);
    loop.set_signals(steady(rated_V, false));
    ASSERT_TRUE(loop.run_to_event(1.0));
    EXPECT_EQ(loop.events.back().guard, ContactorCoil::lets_go_by_command);
    EXPECT_NEAR(loop.time_s - 0.5, 0.020 * std::log(1.0 / 0.2025), 1e-8);
    EXPECT_FALSE(loop.fitting.wants_closed());
    EXPECT_EQ(loop.fitting.drop_outs(), 0);
}

TEST(ContactorCoil, CoilOfItsOwnRatingJudgesByThatRating) {
    auto contactor = default_contactor();
    contactor.coil_voltage_V = 115.0;
    Loop loop(ContactorCoil(contactor, rated_V), 1e-3);
    loop.set_signals(steady(60.0));
    loop.run_until(1.0);
    EXPECT_TRUE(loop.fitting.wants_closed());
}

/// Touches of the contact within three seconds on a line that sags while the contact touches.
int touches_on_a_line_that_sags_to(double share) {
    Loop loop(coil(), 0.25e-3);
    Contact contact(default_contactor().contact_timing());
    loop.signals = [&](double time_s) {
        return alternating([&](double) { return contact.touching() ? share : 1.0; })(time_s);
    };
    int touches = 0;
    loop.after_step = [&](double) {
        const Instant now = plant_models::instant_at_or_after(loop.time_s);
        contact.command(loop.fitting.wants_closed(), now);
        bool was_touching = contact.touching();
        while (contact.next_edge() <= now) {
            contact.take_edge();
            touches += contact.touching() && !was_touching ? 1 : 0;
            was_touching = contact.touching();
        }
    };
    loop.run_until(3.0);
    return touches;
}

// Nothing in the model says "chatter": it comes of the coil, the contact's travel and the line.
TEST(ContactorCoil, ChattersOnALineThatItsOwnLoadPullsBelowDropOut) {
    // Three touches are one closing with its bounces.
    EXPECT_EQ(touches_on_a_line_that_sags_to(0.8), 3);
    EXPECT_EQ(touches_on_a_line_that_sags_to(0.55), 3);
    EXPECT_GT(touches_on_a_line_that_sags_to(0.30), 30);
}

TEST(ContactorParameters, RefuseADropOutThatIsNotBelowPickUp) {
    auto contactor = default_contactor();
    EXPECT_EQ(contactor.inconsistency(), "");
    contactor.drop_out_percent = 49.0;
    EXPECT_EQ(contactor.inconsistency().substr(0, 16), "drop_out_percent");
    contactor = default_contactor();
    contactor.coil_voltage_V = 1e-3;
    EXPECT_EQ(contactor.inconsistency().substr(0, 14), "coil_voltage_V");
}

}  // namespace
