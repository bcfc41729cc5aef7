// Where a controller plugs into the bench.
#include "sim/controllers/controller_port.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <utility>
#include <vector>

#include "bench/cases.hpp"
#include "firmware/controller.hpp"

namespace {

TEST(ControllerPort, IsEmptyWithoutALimiter) {
    EXPECT_EQ(sim::make_controller(sim::NoLimiter{}, {}), nullptr);
}

/// As an installer sets them at this motor.
firmware::Settings settings_at_motor(sim::Scenario& scenario) {
    firmware::Settings settings = sim_test::limiter_of(scenario).settings;
    settings.rated_voltage_V = 230;
    return settings;
}

/// A controller of the firmware alone, which stalls while its store erases a page.
class FirmwareAlone {
  public:
    explicit FirmwareAlone(const firmware::Settings& settings,
                           const firmware::StorePages& at_power_up = firmware::erased_store())
        : controller_(settings, at_power_up) {}

    firmware::ActuatorFrame step(const firmware::SensorFrame& frame) {
        if (stalled_ > 0) {
            --stalled_;
            firmware::ActuatorFrame held = answer_;
            held.gate_on_us = 0;
            held.gate_off_us = 0;
            return held;
        }
        answer_ = controller_.step(frame);
        if (controller_.store_command().kind == firmware::StoreCommandKind::erase_page) {
            stalled_ = static_cast<int>(sim::usual_page_erase.count()) - 1;
            ++erases;
        }
        return answer_;
    }
    const firmware::Telemetry& telemetry() const { return controller_.telemetry(); }
    int erases = 0;

  private:
    firmware::Controller controller_;
    firmware::ActuatorFrame answer_;
    int stalled_ = 0;
};

TEST(ControllerPort, OfTheBuiltinKindIsTheFirmwareItself) {
    sim::Scenario scenario = sim_test::bundled("reference_limited");
    sim_test::limiter_of(scenario).settings.probe_half_cycles = 6;
    const auto port = sim::make_controller(scenario.limiter, scenario.motor, sim::FlashStore());
    FirmwareAlone controller(settings_at_motor(scenario));
    std::mt19937 random(11);
    std::uniform_int_distribution<int> noise(-3, 3);
    for (int k = 0; k < 20000; ++k) {
        firmware::SensorFrame frame;
        const double phase = 2.0 * 3.14159265358979323846 * 60.0 * k * 1e-4;
        frame.line_voltage_counts = static_cast<std::uint16_t>(
            2048 + std::lround(1083.0 * std::sin(phase)) + noise(random));
        frame.output_current_counts = static_cast<std::uint16_t>(2048 + noise(random));
        frame.start_terminal_voltage_counts = 2048;
        frame.call_for_cooling = k > 1000 ? 1 : 0;
        const firmware::ActuatorFrame one = port->step(frame);
        const firmware::ActuatorFrame other = controller.step(frame);
        ASSERT_EQ(one.gate_on_us, other.gate_on_us) << k;
        ASSERT_EQ(one.gate_off_us, other.gate_off_us) << k;
        ASSERT_EQ(one.contactor_permit, other.contactor_permit) << k;
        ASSERT_EQ(one.status, other.status) << k;
        ASSERT_EQ(port->telemetry().state, controller.telemetry().state) << k;
    }
    EXPECT_EQ(controller.erases, 1) << "for the mark that a rest will be owed";
    EXPECT_EQ(port->telemetry().reason, firmware::Reason::no_motor) << "it came as far as probing";
}

firmware::SensorFrame called_on_a_live_line(int tick) {
    firmware::SensorFrame frame;
    const double phase = 2.0 * 3.14159265358979323846 * 60.0 * tick * 1e-4;
    frame.line_voltage_counts =
        static_cast<std::uint16_t>(2048 + std::lround(1083.0 * std::sin(phase)));
    frame.output_current_counts = 2048;
    frame.start_terminal_voltage_counts = frame.line_voltage_counts;
    frame.call_for_cooling = 1;
    return frame;
}

bool all_off(const firmware::ActuatorFrame& frame) {
    return frame.gate_off_us == frame.gate_on_us && frame.start_capacitor_contact == 0 &&
           frame.bypass_contact == 0 && frame.contactor_permit == 0;
}

TEST(ControllerPort, WithoutPowerEverythingIsOffAndWithItAControllerBeginsAnew) {
    sim::Scenario scenario = sim_test::bundled("reference_limited");
    sim_test::limiter_of(scenario).settings.rest_before_retry_s = 1;
    const auto port = sim::make_controller(scenario.limiter, scenario.motor);
    ASSERT_TRUE(port->has_power());
    int tick = 0;
    while (port->telemetry().state != firmware::State::probing) {
        ASSERT_LT(tick, 20000);
        port->step(called_on_a_live_line(tick++));
    }
    port->lose_power();
    EXPECT_FALSE(port->has_power());
    for (const int end = tick + 1000; tick < end; ++tick) {
        ASSERT_TRUE(all_off(port->step(called_on_a_live_line(tick))));
        ASSERT_EQ(port->telemetry().state, firmware::State::resting);
        ASSERT_EQ(port->telemetry().line_locked, 0);
    }
    port->rest(firmware::ticks_from_s(10));
    port->lose_power();  // once more is no more
    port->power_up();
    EXPECT_TRUE(port->has_power());
    FirmwareAlone fresh(settings_at_motor(scenario), port->store().pages());
    for (const int end = tick + 20000; tick < end; ++tick) {
        const firmware::ActuatorFrame one = port->step(called_on_a_live_line(tick));
        const firmware::ActuatorFrame other = fresh.step(called_on_a_live_line(tick));
        ASSERT_EQ(one.status, other.status) << tick;
        ASSERT_EQ(one.gate_on_us, other.gate_on_us) << tick;
        ASSERT_EQ(one.contactor_permit, other.contactor_permit) << tick;
    }
    // Behind the rest that the store says is owed.
    EXPECT_EQ(port->telemetry().reason, firmware::Reason::no_motor);
}

TEST(ControllerPort, PowerThatIsThereAlreadyChangesNothing) {
    const sim::Scenario scenario = sim_test::bundled("reference_limited");
    const auto port = sim::make_controller(scenario.limiter, scenario.motor);
    for (int tick = 0; port->telemetry().state != firmware::State::probing; ++tick) {
        ASSERT_LT(tick, 20000);
        port->step(called_on_a_live_line(tick));
    }
    port->power_up();
    EXPECT_EQ(port->telemetry().state, firmware::State::probing);
}

/// Somebody's controller: gives one command after the other, and tells how often it was stepped.
class Scripted final : public sim::ControllerPort {
  public:
    explicit Scripted(std::vector<firmware::StoreCommand> script)
        : ControllerPort(sim::FlashStore()), script_(std::move(script)) {
        power_up();
    }
    firmware::ActuatorFrame frame;
    int steps = 0;
    firmware::StorePages found{};

  private:
    void begin(const firmware::StorePages& at_power_up) override { found = at_power_up; }
    void end() override {}
    firmware::ActuatorFrame answer(const firmware::SensorFrame& /*samples*/) override {
        const auto next = static_cast<std::size_t>(steps++);
        command_ = next < script_.size() ? script_[next] : firmware::StoreCommand{};
        return frame;
    }
    void sleep(firmware::Ticks /*ticks*/) override { command_ = firmware::StoreCommand{}; }
    firmware::StoreCommand store_command() const override { return command_; }
    const firmware::Telemetry& told() const override { return telemetry_; }

    std::vector<firmware::StoreCommand> script_;
    firmware::StoreCommand command_;
    firmware::Telemetry telemetry_;
};

constexpr firmware::StoreCommand write_five{firmware::StoreCommandKind::write_word, 1, 2, 5};
constexpr firmware::StoreCommand erase_second{firmware::StoreCommandKind::erase_page, 1, 0, 0};

TEST(ControllerPort, StallsTheControllerForAnEraseAndForNothingElse) {
    Scripted port({write_five, erase_second, write_five});
    port.frame.contactor_permit = 1;
    port.frame.gate_off_us = 60;
    port.step({});
    port.step({});
    EXPECT_EQ(port.steps, 2);
    const int stalled = static_cast<int>(sim::usual_page_erase.count()) - 1;
    for (int tick = 0; tick < stalled; ++tick) {
        const firmware::ActuatorFrame held = port.step({});
        ASSERT_EQ(port.steps, 2) << tick;
        ASSERT_EQ(held.contactor_permit, 1) << "pins stay";
        ASSERT_EQ(held.gate_off_us, 0) << "nobody sets the timer";
    }
    EXPECT_FALSE(port.store_is_quiet());
    EXPECT_EQ(port.step({}).gate_off_us, 60);
    EXPECT_EQ(port.steps, 3);
    port.step({});
    EXPECT_TRUE(port.store_is_quiet());
    EXPECT_EQ(port.store().pages().words[1][2], 5U);
    EXPECT_EQ(port.store().faults().unfit_words, 0);
    EXPECT_EQ(port.store().faults().while_outputs_on, 3);
}

TEST(ControllerPort, TellsWhoWritesAWordTwice) {
    Scripted port({write_five, write_five});
    port.step({});
    port.step({});
    EXPECT_EQ(port.store().faults().unfit_words, 1);
    EXPECT_EQ(port.store().faults().while_outputs_on, 0);
}

TEST(ControllerPort, CarriesOutACommandOnceHoweverLongTheRest) {
    Scripted port({write_five});
    port.step({});
    port.rest(firmware::ticks_from_s(10));
    port.step({});
    EXPECT_EQ(port.store().wear().word_writes, 1);
    EXPECT_EQ(port.store().pages().words[1][2], 5U);
}

TEST(ControllerPort, TearsTheCommandOfTheLastStepAndGivesTheNextControllerWhatIsLeft) {
    for (const sim::Torn torn : {sim::Torn::untouched, sim::Torn::reads_as_done}) {
        Scripted port({write_five});
        port.step({});
        port.lose_power(torn);
        port.power_up();
        const bool is_done = torn == sim::Torn::reads_as_done;
        EXPECT_EQ(port.found.words[1][2], is_done ? 5U : firmware::erased_word);
    }
    Scripted port({write_five});
    port.step({});
    port.step({});  // over
    port.lose_power(sim::Torn::untouched);
    port.power_up();
    EXPECT_EQ(port.found.words[1][2], 5U);
}

TEST(ControllerPort, TakesTheSettingsOfTheScenario) {
    sim::Scenario scenario = sim_test::bundled("reference_limited");
    sim_test::limiter_of(scenario).settings.stage_count = 0;  // refused by the firmware's check
    const auto port = sim::make_controller(scenario.limiter, scenario.motor);
    port->step({});
    EXPECT_EQ(port->telemetry().state, firmware::State::locked_out);
    EXPECT_EQ(port->telemetry().reason, firmware::Reason::settings_refused);
}

firmware::SensorFrame line_alone(int tick, double voltage_rms_V) {
    firmware::SensorFrame frame;
    const double phase = 2.0 * 3.14159265358979323846 * 60.0 * tick * 1e-4;
    const double counts = std::sqrt(2.0) * voltage_rms_V / 0.3 * std::sin(phase);
    frame.line_voltage_counts = static_cast<std::uint16_t>(2048 + std::lround(counts));
    frame.output_current_counts = 2048;
    frame.start_terminal_voltage_counts = 2048;
    frame.call_for_cooling = 1;
    return frame;
}

// Covers: RT-05
TEST(ControllerPort, KeepsItsStoreOverAPowerCut) {
    const sim::Scenario scenario = sim_test::bundled("reference_limited");
    const auto port = sim::make_controller(scenario.limiter, scenario.motor);
    int tick = 0;
    while (port->telemetry().state != firmware::State::probing) {
        port->step(line_alone(tick, 230.0));
        ASSERT_LT(++tick, 5000);
    }
    port->lose_power();
    EXPECT_EQ(port->telemetry().state, firmware::State::resting);
    port->power_up();
    for (int end = tick + 5000; tick < end; ++tick) {
        EXPECT_EQ(port->step(line_alone(tick, 230.0)).contactor_permit, 0);
    }
    EXPECT_EQ(port->telemetry().state, firmware::State::backing_off);
    EXPECT_EQ(port->telemetry().reason, firmware::Reason::rest_not_over);
}

TEST(ControllerPort, TellsTheControllerTheRatedVoltageUnlessTheSettingsDo) {
    sim::Scenario scenario = sim_test::bundled("reference_limited");
    for (const int told_V : {0, 150}) {
        sim_test::limiter_of(scenario).settings.rated_voltage_V = told_V;
        const auto port = sim::make_controller(scenario.limiter, scenario.motor);
        for (int tick = 0; tick < 5000; ++tick) {
            port->step(line_alone(tick, 150.0));
        }
        // 150 V are under 70 % of the motor's 230 V.
        EXPECT_EQ(port->telemetry().reason == firmware::Reason::line_voltage_low, told_V == 0);
    }
}

}  // namespace
