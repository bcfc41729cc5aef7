#include "sim/monitors/call_gone.hpp"

#include <gtest/gtest.h>

#include <functional>
#include <vector>

#include "monitors/monitor_bench.hpp"

namespace {

using Bench = sim_test::MonitorBench<sim::CallGone>;
using Switch = std::function<void(sim::PowerCommands&)>;

/// Each output alone.
const std::vector<Switch>& outputs() {
    static const std::vector<Switch> list = {
        [](sim::PowerCommands& commands) { commands.line_coil = true; },
        [](sim::PowerCommands& commands) { commands.start_capacitor_coil = true; },
        [](sim::PowerCommands& commands) { commands.bypass_coil = true; },
        [](sim::PowerCommands& commands) { commands.gate_off = sim::Instant{1'000}; },
    };
    return list;
}

TEST(CallGone, IsBrokenByAnyOutputThatIsOnOneTickTooLong) {
    for (const Switch& output : outputs()) {
        Bench bench;
        output(bench.at.commands);
        bench.hold(50);
        bench.at.call = false;
        // The tick that sees the call gone, and the one in which its answer is under way.
        bench.hold(2);
        EXPECT_FALSE(bench.broken());
        bench.hold(1);
        ASSERT_TRUE(bench.broken());
        EXPECT_NEAR(bench.violation().time_s, 0.0052, 1e-12);
    }
}

TEST(CallGone, IsKeptByOutputsThatGoOffWithTheAnswer) {
    for (const Switch& output : outputs()) {
        Bench bench;
        output(bench.at.commands);
        bench.hold(50);
        bench.at.call = false;
        bench.hold(2);
        bench.at.commands = {};
        bench.hold(1000);
        EXPECT_FALSE(bench.broken());
    }
}

TEST(CallGone, IsBrokenByAnOutputThatComesBackWithoutACall) {
    for (const Switch& output : outputs()) {
        Bench bench;
        bench.at.call = false;
        bench.hold(1000);
        EXPECT_FALSE(bench.broken());
        output(bench.at.commands);
        bench.hold(1);
        EXPECT_TRUE(bench.broken());
    }
}

TEST(CallGone, CountsAnewWhenTheCallHasComeBack) {
    Bench bench;
    outputs()[0](bench.at.commands);
    for (int blink = 0; blink < 5; ++blink) {
        bench.at.call = true;
        bench.hold(1);
        bench.at.call = false;
        bench.hold(2);
    }
    EXPECT_FALSE(bench.broken());
}

TEST(CallGone, HasNoSayInADirectStart) {
    Bench bench(sim_test::direct_start_context());
    outputs()[0](bench.at.commands);
    bench.at.call = false;
    bench.hold(100);
    EXPECT_FALSE(bench.broken());
}

}  // namespace
