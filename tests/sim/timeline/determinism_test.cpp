// Same scenario, same build: the same bits, however often, beside whatever else, and whoever looks.
#include <gtest/gtest.h>

#include <string>
#include <thread>
#include <vector>

#include "bench/cases.hpp"
#include "sim/bench/start_run.hpp"
#include "sim/results/start_json.hpp"
#include "timeline/output_digest.hpp"

namespace {

struct Bits {
    std::string json;
    std::uint64_t digest = 0;
    long ticks = 0;
};

Bits run(const sim::Scenario& scenario) {
    sim_test::DigestObserver observer;
    const sim::StartResult result = sim::run_start(scenario, &observer);
    return {sim::start_json(result).dump(), observer.value(), observer.ticks()};
}

std::vector<sim::Scenario> scenarios() {
    std::vector<sim::Scenario> list;
    for (const std::string& name : sim_test::bundled_names()) {
        list.push_back(sim_test::bundled(name));
        list.back().run.duration_s = 1.5;
    }
    return list;
}

TEST(Determinism, ARunAgainGivesTheSameBits) {
    for (const sim::Scenario& scenario : scenarios()) {
        const Bits first = run(scenario);
        const Bits second = run(scenario);
        EXPECT_EQ(first.json, second.json) << scenario.name;
        EXPECT_EQ(first.digest, second.digest) << scenario.name;
        EXPECT_EQ(first.ticks, 15001) << scenario.name;
    }
}

TEST(Determinism, TheDigestWouldNoticeAChangeOfTheLastDigit) {
    sim::Scenario scenario = sim_test::bundled("reference_limited");
    scenario.run.duration_s = 0.5;
    const Bits first = run(scenario);
    scenario.motor.main_resistance_ohm *= 1.0 + 4e-16;
    EXPECT_NE(run(scenario).digest, first.digest);
}

TEST(Determinism, RunsInParallelThreadsGiveTheSameBitsAsAlone) {
    const std::vector<sim::Scenario> list = scenarios();
    std::vector<Bits> alone;
    for (const sim::Scenario& scenario : list) {
        alone.push_back(run(scenario));
    }
    std::vector<Bits> together(list.size());
    std::vector<std::thread> threads;
    for (std::size_t k = 0; k < list.size(); ++k) {
        threads.emplace_back([&, k] { together[k] = run(list[k]); });
    }
    for (std::thread& thread : threads) {
        thread.join();
    }
    for (std::size_t k = 0; k < list.size(); ++k) {
        EXPECT_EQ(together[k].digest, alone[k].digest) << list[k].name;
        EXPECT_EQ(together[k].json, alone[k].json) << list[k].name;
    }
}

TEST(Determinism, AnObserverDoesNotChangeTheResult) {
    for (const sim::Scenario& scenario : scenarios()) {
        const std::string unobserved = sim::start_json(sim::run_start(scenario)).dump();
        EXPECT_EQ(unobserved, run(scenario).json) << scenario.name;
    }
}

TEST(Determinism, ALongerRunBeginsLikeTheShorterOne) {
    // What is asked of the run later must not reach back.
    class Until final : public sim::TickObserver {
      public:
        void observe(const sim::TickView& view) override {
            if (view.time < sim::Instant{1'000'000'000}) {
                digest.add(view.plant);
            }
        }
        sim_test::Digest digest;
    };
    sim::Scenario scenario = sim_test::bundled("hut_inverter");
    Until shorter;
    scenario.run.duration_s = 1.0;
    sim::run_start(scenario, &shorter);
    Until longer;
    scenario.run.duration_s = 2.0;
    sim::run_start(scenario, &longer);
    EXPECT_EQ(shorter.digest.value(), longer.digest.value());
}

}  // namespace
