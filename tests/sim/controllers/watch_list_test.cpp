// What can be watched of our controller, in runs on the bench.
#include "sim/controllers/watch_list.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdint>
#include <memory>
#include <set>
#include <string>
#include <vector>

#include "bench/cases.hpp"
#include "faults/make_fault.hpp"
#include "firmware/learning/learned_payload.hpp"
#include "firmware/memory/journal.hpp"
#include "sim/bench/repeat_run.hpp"
#include "sim/bench/start_run.hpp"
#include "sim/controllers/controller_port.hpp"

namespace {

using sim_test::bundled;

/// The least and the largest value of every variable that it has seen.
class Ranges final : public sim::TickObserver {
  public:
    void observe(const sim::TickView& view) override { see(*view.port); }

    void see(const sim::ControllerPort& port) {
        if (!port.has_power()) {
            return;  // everything reads 0
        }
        ranges_.resize(sim::watch_list().size());
        for (std::size_t k = 0; k < ranges_.size(); ++k) {
            const std::int64_t value = port.watched(k);
            ranges_[k].lowest = seen_ ? std::min(ranges_[k].lowest, value) : value;
            ranges_[k].highest = seen_ ? std::max(ranges_[k].highest, value) : value;
        }
        seen_ = true;
    }

    std::set<std::string> unchanged() const {
        std::set<std::string> names;
        for (std::size_t k = 0; k < ranges_.size(); ++k) {
            if (ranges_[k].lowest == ranges_[k].highest) {
                names.insert(sim::watch_list()[k].name);
            }
        }
        return names;
    }

  private:
    struct Range {
        std::int64_t lowest = 0;
        std::int64_t highest = 0;
    };
    std::vector<Range> ranges_;
    bool seen_ = false;
};

template <class Fault>
sim::Scenario broken(const Fault& what, const char* when, double after_s, double duration_s = 0.0) {
    sim::Scenario scenario = bundled("reference_limited");
    sim::Fault fault = sim_test::fault(what, 0.0, duration_s);
    fault.timing.when = when;
    fault.timing.after_s = after_s;
    scenario.faults.push_back(fault);
    return scenario;
}

/// A controller that finds what an earlier life has learned.
std::unique_ptr<sim::ControllerPort> after_a_long_life() {
    firmware::Learned learned;
    learned.level = firmware::Permille{800};
    learned.good = firmware::Permille{800};
    learned.weak = firmware::Permille{700};
    learned.strong = firmware::Permille{900};
    learned.inrush_at_good = firmware::MilliAmperes{21000};
    learned.peak_at_good = firmware::MilliAmperes{40000};
    learned.climb_ms_at_good = 600;
    learned.locked_rotor = firmware::MilliAmperes{60000};
    learned.starts = 9;
    learned.misses = 1;
    learned.settled = true;
    sim::FlashStore store(sim::commissioned_store());
    firmware::Journal journal(store.pages());
    journal.save(firmware::payload_of(learned));
    while (journal.busy()) {
        store.begin(journal.next(), false);
        store.pass(sim::usual_page_erase);
    }
    const sim::Scenario scenario = bundled("reference_limited");
    return sim::make_controller(scenario.limiter, scenario.motor, store);
}

TEST(WatchList, EachVariableChangesInOneRunOrAnother) {
    Ranges ranges;
    sim::BypassWelded welded;
    welded.welds = "at_once";
    sim::SupplyChatter outage;
    outage.period_ms = 400.0;
    outage.open_percent = 50.0;
    sim::SupplyFrequency too_fast;
    too_fast.frequency_Hz = 75.0;
    const std::vector<sim::Scenario> starts = {
        bundled("hut_inverter"),
        bundled("farm_run_capacitor_open"),
        bundled("garage_swapped_windings"),
        broken(outage, "running", 0.1),
        broken(too_fast, "running", 0.1),
        broken(sim::LineVoltageSensorStuck{}, "running", 0.1034),
        broken(sim::OutputCurrentSensorStuck{}, "climbing", 0.1),
        broken(sim::StartTerminalSensorStuck{}, "climbing", 0.1),
        broken(sim::RotorSeized{}, "running", 0.1),
        broken(sim::CallRemoved{}, "running", 0.1),
        broken(welded, "climbing", 0.1),
        broken(sim::StartContactStuckIn{}, "climbing", 0.1),
        broken(sim::StartContactStuckIn{}, "running", 0.1),
        broken(sim::StartContactStuckOut{}, "resting", 0.0),
        broken(sim::MotorDisconnected{}, "running", 0.1),
        broken(sim::ControllerUnpowered{}, "running", 0.1, 0.05)};
    for (const sim::Scenario& scenario : starts) {
        sim::run_start(scenario, &ranges);
    }
    ranges.see(*after_a_long_life());
    ranges.see(*sim::make_controller(bundled("hut_inverter").limiter, bundled("hut_inverter").motor,
                                     sim::FlashStore(firmware::erased_store())));
    // The call ends before the start does, so that what is stored then is seen, too.
    sim::Scenario series = bundled("hut_inverter");
    series.run.call_off_s = 2.5;
    sim::run_repeat(
        series, {8, 3600.0, false}, [](int) { return true; }, {},
        [&ranges](int, const sim::Scenario&) { return &ranges; });
    // No supply of the bench jumps in phase; tests/firmware/watch has one that does.
    EXPECT_EQ(ranges.unchanged(), std::set<std::string>{"line.far_off_refreshes"});
}

TEST(WatchList, IsWhatThePortOfOurControllerOffers) {
    const sim::Scenario scenario = bundled("reference_limited");
    const auto port = sim::make_controller(scenario.limiter, scenario.motor);
    EXPECT_EQ(port->watchable(), sim::watch_names());
    EXPECT_GT(port->watchable().size(), 150U);
    for (const std::string& name : port->watchable()) {
        EXPECT_FALSE(sim::watch_meaning(name).empty()) << name;
    }
    EXPECT_EQ(sim::watch_meaning("line.lockd"), "");
}

TEST(WatchList, ReadsZeroWithoutPower) {
    const sim::Scenario scenario = bundled("reference_limited");
    const auto port = sim::make_controller(scenario.limiter, scenario.motor);
    port->step({});
    const auto names = sim::watch_names();
    const auto fine_step = static_cast<std::size_t>(
        std::find(names.begin(), names.end(), "line.fine_step") - names.begin());
    EXPECT_GT(port->watched(fine_step), 0);
    port->lose_power();
    for (std::size_t k = 0; k < names.size(); ++k) {
        EXPECT_EQ(port->watched(k), 0) << names[k];
    }
    port->power_up();
    EXPECT_GT(port->watched(fine_step), 0);
}

}  // namespace
