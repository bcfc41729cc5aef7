// What was recorded, asked again.
#include "sim/replay/replay.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "bench/cases.hpp"
#include "faults/make_fault.hpp"
#include "replay/recorded_start.hpp"
#include "sim/bench/start_run.hpp"
#include "sim/files/input_error.hpp"
#include "sim/recorder/trace_channels.hpp"

namespace {

using sim_test::bundled;
using sim_test::read_back;
using sim_test::recorded_start;

sim::Scenario short_start(const std::string& name, double duration_s = 1.5) {
    sim::Scenario scenario = bundled(name);
    scenario.run.duration_s = duration_s;
    return scenario;
}

sim::ReplayResult asked_again(const sim::Recording& recording, const sim::Scenario* other = nullptr,
                              sim::TickObserver* observer = nullptr) {
    const auto controller = sim::controller_for(recording, "a.rec", other);
    return sim::replay(recording, *controller, observer);
}

std::int64_t count_of(const sim::Recording& recording, sim::RecordedEvent::Kind kind) {
    return std::count_if(recording.events.begin(), recording.events.end(),
                         [kind](const sim::RecordedEvent& event) { return event.kind == kind; });
}

using Kind = sim::RecordedEvent::Kind;

TEST(Replay, OfTheSameControllerDecidesTheSameInEveryTick) {
    for (const std::string name : {"reference_limited", "hut_inverter", "dairy_50hz",
                                   "garage_swapped_windings", "vaccine_fridge"}) {
        const sim::Recording recording = read_back(recorded_start(short_start(name)));
        const sim::ReplayResult result = asked_again(recording);
        EXPECT_TRUE(result.is_same()) << name;
        EXPECT_EQ(result.ticks, 15000) << name;
        EXPECT_EQ(result.scenario, name);
        EXPECT_GT(result.then.size(), 2U) << name;
        EXPECT_EQ(result.then.size(), result.now.size());
    }
}

TEST(Replay, GoesThroughPowerCutsInTheMiddleOfAStart) {
    sim::Scenario scenario = short_start("reference_limited", 2.0);
    // One inside the page that is being written before the start, one while it climbs.
    scenario.faults = {sim_test::fault(sim::ControllerUnpowered{}, 0.0672, 0.0101),
                       sim_test::fault(sim::ControllerUnpowered{}, 0.4, 0.2)};
    const sim::Recording recording = read_back(recorded_start(scenario));
    EXPECT_EQ(count_of(recording, Kind::power_lost), 2);
    EXPECT_EQ(count_of(recording, Kind::power_came), 2);
    EXPECT_TRUE(asked_again(recording).is_same());
}

TEST(Replay, GoesThroughASeriesWithRestsPowerCutsAndErasedPages) {
    sim::Scenario scenario = short_start("reference_limited", 2.9);
    firmware::Settings& settings = sim_test::limiter_of(scenario).settings;
    settings.rest_before_retry_s = 1;
    scenario.run.call_on_s = 1.3;
    scenario.run.power_off_after_s = 100.0;
    const sim::Recording recording = read_back(sim_test::recorded_series(scenario, 8, 300.0, true));
    EXPECT_EQ(count_of(recording, Kind::power_lost), 7);
    EXPECT_EQ(count_of(recording, Kind::rest), 7);
    const auto controller = sim::controller_for(recording, "a.rec", nullptr);
    EXPECT_TRUE(sim::replay(recording, *controller, nullptr).is_same());
    const sim::FlashStore::Wear& wear = controller->store().wear();
    EXPECT_GT(wear.erases[0] + wear.erases[1], 0) << "or no erase was gone through";
}

TEST(Replay, OfOtherSettingsNamesTheFirstTickAndFieldThatDiffer) {
    const sim::Scenario scenario = short_start("reference_limited");
    const sim::Recording recording = read_back(recorded_start(scenario));
    // Another firing angle of the probing pulses: the first of them shows it.
    sim::Scenario other = scenario;
    sim_test::limiter_of(other).settings.probe_angle_mdeg = 125000;
    const sim::ReplayResult result = asked_again(recording, &other);
    EXPECT_FALSE(result.is_same());
    ASSERT_TRUE(result.first.has_value());
    // Looked for here by itself: the first tick in which the recorded gate is driven.
    std::int64_t first_driven = -1;
    std::int64_t tick = 0;
    for (const sim::RecordedEvent& event : recording.events) {
        if (first_driven < 0 && event.answer.gate_off_us > event.answer.gate_on_us) {
            first_driven = tick;
        }
        ++tick;
    }
    EXPECT_EQ(result.first->tick, first_driven);
    EXPECT_TRUE(result.first->field == "gate_on_us" || result.first->field == "gate_off_us")
        << result.first->field;
    EXPECT_GT(result.different_ticks, 4);
    EXPECT_LT(result.different_ticks, result.ticks);
}

TEST(Replay, CountsEveryTickThatWasTamperedWith) {
    sim::Recording recording = read_back(recorded_start(short_start("reference_limited", 0.5)));
    recording.events.at(1234).answer.bypass_contact ^= 1U;
    recording.events.at(3000).answer.status ^= 0x0100U;
    recording.events.at(3000).answer.gate_on_us ^= 1U;
    const sim::ReplayResult result = asked_again(recording);
    EXPECT_EQ(result.different_ticks, 2);
    ASSERT_TRUE(result.first.has_value());
    EXPECT_EQ(result.first->tick, 1234);
    EXPECT_EQ(result.first->field, "bypass_contact");
    EXPECT_EQ(result.first->then, 1);
    EXPECT_EQ(result.first->now, 0);
}

TEST(Replay, ShowsWhatTheBenchShowedAsFarAsThatNeedsNoPlant) {
    class Channels final : public sim::TickObserver {
      public:
        void observe(const sim::TickView& view) override {
            std::vector<double> row;
            for (const sim::TraceChannel& channel : channels_) {
                row.push_back(channel.value(view));
            }
            rows.push_back(std::move(row));
        }
        std::vector<std::vector<double>> rows;

      private:
        std::vector<sim::TraceChannel> channels_ =
            sim::controller_trace_channels({{"line.phase", 1}, {"line.fine_step", 2}});
    };
    sim::Scenario scenario = short_start("reference_limited", 0.6);
    scenario.faults = {sim_test::fault(sim::ControllerUnpowered{}, 0.3, 0.05)};
    Channels then;
    sim::run_start(scenario, &then);
    Channels now;
    asked_again(read_back(recorded_start(scenario)), nullptr, &now);
    ASSERT_EQ(then.rows.size(), now.rows.size() + 1) << "the bench looks once more at the end";
    for (std::size_t row = 0; row < now.rows.size(); ++row) {
        ASSERT_EQ(then.rows[row], now.rows[row]) << row;
    }
}

TEST(Replay, NeedsAControllerToAsk) {
    sim::Recording recording = read_back(recorded_start(short_start("reference_limited", 0.1)));
    const sim::Scenario direct = bundled("reference_direct");
    EXPECT_THROW(sim::controller_for(recording, "a.rec", &direct), sim::InputError);
    recording.beginning.settings.reset();
    EXPECT_THROW(sim::controller_for(recording, "a.rec", nullptr), sim::InputError);
}

}  // namespace
