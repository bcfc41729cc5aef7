#include "sim/monitors/winding_temperature.hpp"

#include <gtest/gtest.h>

#include "monitors/monitor_bench.hpp"

namespace {

sim::MonitorContext limited_to_120() {
    sim::MonitorContext context = sim_test::strict_context();
    context.limits.winding_max_C = 120.0;
    return context;
}

bool broken_at(double hottest_C, const sim::MonitorContext& context) {
    sim::WindingTemperature monitor(context);
    sim_test::TickSequence at = sim_test::healthy_sequence();
    sim::TickView view = at.view();
    view.hottest_winding_C = hottest_C;
    monitor.observe(view, 200.0);
    return monitor.violation().has_value();
}

TEST(WindingTemperature, IsBrokenAboveTheLimitOnly) {
    EXPECT_FALSE(broken_at(120.0, limited_to_120()));
    EXPECT_TRUE(broken_at(120.01, limited_to_120()));
}

TEST(WindingTemperature, IsJudgedWithoutALimiterToo) {
    sim::MonitorContext direct = limited_to_120();
    direct.has_limiter = false;
    EXPECT_TRUE(broken_at(121.0, direct));
}

TEST(WindingTemperature, TellsTheFirstTemperatureBeyondTheLimit) {
    sim::WindingTemperature monitor(limited_to_120());
    sim_test::TickSequence at = sim_test::healthy_sequence();
    for (int k = 0; k < 10; ++k) {
        sim::TickView view = at.view();
        view.hottest_winding_C = 117.5 + k;
        monitor.observe(view, 200.0);
        at.next();
    }
    EXPECT_EQ(monitor.violation().value().seen, 120.5);
    EXPECT_EQ(monitor.violation().value().allowed, 120.0);
}

}  // namespace
