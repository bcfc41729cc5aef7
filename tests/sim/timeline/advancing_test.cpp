// How the way to an instant is cut up must not matter.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <memory>

#include "sim/bench/start_run.hpp"
#include "timeline/bench_plant.hpp"
#include "timeline/output_digest.hpp"

namespace {

using sim_test::Instant;
using sim_test::one_tick;

/// Goes to `target` in pieces; `piece` gives the length of the next one.
void advance_in_pieces(sim::PlantRun& plant, Instant target,
                       const std::function<Instant()>& piece) {
    while (plant.now() < target) {
        plant.advance_to(std::min(target, plant.now() + piece()));
    }
}

/// Largest difference of any quantity, as a share of its own scale.
double difference(const plant_models::PlantOutputs& one, const plant_models::PlantOutputs& other) {
    const auto share = [](double a, double b, double scale) { return std::abs(a - b) / scale; };
    return std::max({share(one.line_current_A, other.line_current_A, 100.0),
                     share(one.main_current_A, other.main_current_A, 100.0),
                     share(one.aux_current_A, other.aux_current_A, 20.0),
                     share(one.run_capacitor_voltage_V, other.run_capacitor_voltage_V, 400.0),
                     share(one.start_terminal_voltage_V, other.start_terminal_voltage_V, 400.0),
                     share(one.torque_Nm, other.torque_Nm, 10.0),
                     share(one.speed_rad_per_s, other.speed_rad_per_s, 377.0)});
}

/// A direct start with fine steps, so that what is left is only what the cutting does.
std::unique_ptr<sim::PlantRun> direct_start(const std::string& name, Instant largest_step) {
    sim::PlantDescription description =
        sim::describe_plant(sim::without_limiter(sim_test::bundled(name)));
    description.largest_step = largest_step;
    description.initial_speed_rad_per_s = 60.0;
    auto plant = sim::make_plant_run(description);
    plant->apply(sim_test::line_only());
    return plant;
}

TEST(Advancing, InPiecesOfAnyLengthComesToTheSamePoint) {
    for (const std::string name : {"reference_direct", "dairy_50hz", "hut_inverter"}) {
        const Instant target{150'000'000};
        const Instant fine{5'000};
        const auto at_once = direct_start(name, fine);
        at_once->advance_to(target);
        const plant_models::PlantOutputs expected = at_once->outputs();
        ASSERT_GT(std::abs(expected.speed_rad_per_s - 60.0), 1.0) << name;  // much has happened

        const auto by_ticks = direct_start(name, fine);
        advance_in_pieces(*by_ticks, target, [] { return one_tick; });
        EXPECT_LT(difference(by_ticks->outputs(), expected), 1e-9) << name;

        const auto by_odd_pieces = direct_start(name, fine);
        int count = 0;
        advance_in_pieces(*by_odd_pieces, target,
                          [&] { return Instant{7'919 + 31'337 * (++count % 11)}; });
        EXPECT_LT(difference(by_odd_pieces->outputs(), expected), 1e-9) << name;
    }
}

TEST(Advancing, BySingleNanosecondsDoesNotLoseTime) {
    const auto plant = direct_start("reference_direct", Instant{10'000});
    const auto reference = direct_start("reference_direct", Instant{10'000});
    plant->advance_to(Instant{5'000'000});
    for (int k = 0; k < 1000; ++k) {
        plant->advance_to(plant->now() + Instant{1});
    }
    reference->advance_to(Instant{5'001'000});
    EXPECT_EQ(plant->now(), reference->now());
    EXPECT_LT(difference(plant->outputs(), reference->outputs()), 1e-9);
}

/// Largest difference at any tick of half a second from a run in steps of 5 us.
double worst_error(Instant largest_step) {
    const auto coarse = direct_start("reference_direct", largest_step);
    const auto fine = direct_start("reference_direct", Instant{5'000});
    double worst = 0.0;
    for (int k = 1; k <= 5000; ++k) {
        coarse->advance_to(k * one_tick);
        fine->advance_to(k * one_tick);
        worst = std::max(worst, difference(coarse->outputs(), fine->outputs()));
    }
    return worst;
}

TEST(Advancing, ErrsWithTheFourthPowerOfTheStepAlsoBetweenStepsThatLookAhead) {
    const double usual = worst_error(sim::PlantDescription{}.largest_step);
    const double half = worst_error(sim::PlantDescription{}.largest_step / 2);
    const double quarter = worst_error(sim::PlantDescription{}.largest_step / 4);
    EXPECT_LT(usual, 5e-4);
    EXPECT_GT(usual / half, 10.0);
    EXPECT_LT(usual / half, 25.0);
    EXPECT_GT(half / quarter, 10.0);
    EXPECT_LT(half / quarter, 25.0);
}

TEST(Advancing, TheSameWayTwiceGivesTheSameBits) {
    sim_test::Digest digests[2];
    for (sim_test::Digest& digest : digests) {
        const auto plant = direct_start("hut_inverter", Instant{100'000});
        int count = 0;
        for (int k = 0; k < 3000; ++k) {
            plant->advance_to(plant->now() + Instant{40'009 + 1'003 * (++count % 17)});
            digest.add(plant->outputs());
        }
    }
    EXPECT_EQ(digests[0].value(), digests[1].value());
}

TEST(Advancing, ReadingTheOutputsChangesNothing) {
    const auto silent = direct_start("hut_inverter", Instant{200'000});
    const auto watched = direct_start("hut_inverter", Instant{200'000});
    sim_test::Digest ends[2];
    for (int k = 1; k <= 2000; ++k) {
        silent->advance_to(k * one_tick);
        watched->advance_to(k * one_tick);
        watched->outputs();
        watched->energy();
    }
    ends[0].add(silent->outputs());
    ends[1].add(watched->outputs());
    EXPECT_EQ(ends[0].value(), ends[1].value());
}

TEST(Advancing, ARepeatedCommandChangesNothing) {
    const auto once = direct_start("reference_direct", Instant{200'000});
    const auto repeated = direct_start("reference_direct", Instant{200'000});
    sim_test::Digest ends[2];
    for (int k = 1; k <= 2000; ++k) {
        once->advance_to(k * one_tick);
        repeated->apply(sim_test::line_only());
        repeated->advance_to(k * one_tick);
    }
    ends[0].add(once->outputs());
    ends[1].add(repeated->outputs());
    EXPECT_EQ(ends[0].value(), ends[1].value());
}

TEST(Advancing, ToAnInstantThatHasPassedDoesNothing) {
    const auto plant = direct_start("reference_direct", Instant{100'000});
    plant->advance_to(Instant{3'000'000});
    const double current = plant->outputs().line_current_A;
    plant->advance_to(Instant{3'000'000});
    plant->advance_to(Instant{1'000'000});
    EXPECT_EQ(plant->now(), Instant{3'000'000});
    EXPECT_EQ(plant->outputs().line_current_A, current);
}

TEST(LookingAhead, GivesWayToACommandThatComesBetween) {
    // A gate edge after a quiet stretch, at every tick parity: whatever step reached beyond it must
    // be given up. Compared with the same course in fine steps, which never reach that far.
    for (int quiet = 20; quiet < 28; ++quiet) {
        sim::PlantDescription fine_steps = sim_test::held_rotor(0.0);
        fine_steps.largest_step = Instant{5'000};
        const auto usual = sim_test::on_the_line(sim_test::held_rotor(0.0), quiet);
        const auto fine = sim_test::on_the_line(fine_steps, quiet);
        for (sim::PlantRun* plant : {usual.get(), fine.get()}) {
            sim_test::tick(*plant, sim_test::with_gate(sim_test::line_only(), 33, 81));
            sim_test::tick(*plant, sim_test::line_only());
        }
        EXPECT_GT(fine->outputs().main_current_A, 4.0);
        // The integrator's own error in the usual steps; a lost edge would show as a tenth.
        EXPECT_LT(difference(usual->outputs(), fine->outputs()), 2e-4) << quiet;
    }
}

}  // namespace
