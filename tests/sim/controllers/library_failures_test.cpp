// Whatever a controller library does, it is named in a sentence, everything is off from that tick
// on, and nothing of it is left behind.
#include <gtest/gtest.h>
#include <signal.h>

#include <cerrno>
#include <fstream>
#include <ostream>
#include <string>
#include <vector>

#include "bench/cases.hpp"
#include "controllers/test_libraries.hpp"
#include "sim/bench/start_run.hpp"
#include "sim/controllers/commissioned_store.hpp"
#include "sim/controllers/library/library_controller.hpp"
#include "sim/controllers/library/library_loading.hpp"

namespace {

constexpr int bad_tick = 100;  // of bad_libraries/ordinary.h

/// Less than for users, so that a hang costs a test less.
constexpr sim::LibraryPatience impatient = {300'000'000, 5'000'000'000};

plant_models::MotorParameters some_motor() {
    plant_models::MotorParameters motor;
    motor.rated_voltage_V = 230.0;
    motor.run_capacitor_uF = 40.0;
    return motor;
}

sim::LibraryController controller_of(const std::string& name, const std::string& options = "") {
    sim::LibraryLimiter limiter;
    limiter.path = sim_test::test_controller(name);
    limiter.options = options;
    return {limiter, some_motor(), sim::FlashStore(sim::commissioned_store()), impatient};
}

firmware::SensorFrame called() {
    firmware::SensorFrame frame;
    frame.call_for_cooling = 1;
    return frame;
}

bool is_off(const firmware::ActuatorFrame& frame) {
    return frame.version == firmware::frame_version && frame.gate_off_us == frame.gate_on_us &&
           frame.start_capacitor_contact == 0 && frame.bypass_contact == 0 &&
           frame.contactor_permit == 0;
}

bool is_gone(pid_t process) {
    return ::kill(process, 0) != 0 && errno == ESRCH;
}

struct Misbehaviour {
    std::string library;
    std::string cause;
    std::string sentence;
};

void PrintTo(const Misbehaviour& one, std::ostream* out) {
    *out << one.library;
}

class LibraryFailure : public testing::TestWithParam<Misbehaviour> {};

TEST_P(LibraryFailure, IsNamedWithItsTickAndTurnsEverythingOff) {
    const Misbehaviour& expected = GetParam();
    sim::LibraryController controller = controller_of(expected.library);
    controller.power_up();
    const pid_t process = controller.process_number();
    ASSERT_GT(process, 0);
    for (int k = 1; k < bad_tick; ++k) {
        ASSERT_FALSE(is_off(controller.step(called()))) << k;
        ASSERT_FALSE(controller.failure()) << controller.failure()->words;
    }
    EXPECT_TRUE(is_off(controller.step(called())));
    ASSERT_TRUE(controller.failure());
    EXPECT_EQ(controller.failure()->cause, expected.cause);
    EXPECT_EQ(controller.failure()->words, expected.library + ".so " + expected.sentence);
    EXPECT_TRUE(is_gone(process));
    // It stays out, whatever happens to the power.
    EXPECT_TRUE(is_off(controller.step(called())));
    controller.rest(firmware::ticks_from_s(1));
    controller.lose_power();
    controller.power_up();
    EXPECT_TRUE(is_off(controller.step(called())));
    EXPECT_EQ(controller.process_number(), 0);
    EXPECT_EQ(controller.failure()->cause, expected.cause);
}

const char* const when = ", at tick 100, 0.0100 s after power-up";

INSTANTIATE_TEST_SUITE_P(
    Each, LibraryFailure,
    testing::Values(
        Misbehaviour{"crashes", "crashed",
                     std::string("crashed with SIGSEGV (Segmentation fault) in runup_tick") + when},
        Misbehaviour{"overflows_its_stack", "crashed",
                     std::string("crashed with SIGSEGV (Segmentation fault) in runup_tick") + when},
        Misbehaviour{"aborts", "crashed",
                     std::string("crashed with SIGABRT (Aborted) in runup_tick") + when},
        Misbehaviour{"exits", "ended_itself",
                     std::string("ended its process with exit code 3 in runup_tick") + when},
        Misbehaviour{"throws", "threw",
                     std::string("threw an exception (\"no such register\") in runup_tick") + when},
        Misbehaviour{"hangs", "hung",
                     std::string("hung in runup_tick") + when + ": it has computed for 0.3 s"},
        Misbehaviour{"sleeps", "hung",
                     std::string("hung in runup_tick") + when + ": it has slept for 5 s"},
        Misbehaviour{
            "gate_beyond_tick", "nonsense",
            std::string(
                "answered with a frame with a gate pulse from 0 to 250 us in a tick of 100 us") +
                when},
        Misbehaviour{
            "gate_backwards", "nonsense",
            std::string(
                "answered with a frame with a gate pulse from 60 to 0 us in a tick of 100 us") +
                when},
        Misbehaviour{
            "reserved_used", "nonsense",
            std::string("answered with a frame with reserved 1, which is always 0") + when},
        Misbehaviour{"frame_of_another_version", "nonsense",
                     std::string("answered with a frame with version 2 instead of 1") + when},
        Misbehaviour{
            "half_closed_contact", "nonsense",
            std::string("answered with a frame with bypass_contact 2, which is 0 or 1") + when},
        Misbehaviour{
            "unknown_state", "nonsense",
            std::string("answered with a frame with state 200, of which there are 8") + when}),
    [](const testing::TestParamInfo<Misbehaviour>& one) { return one.param.library; });

/// What becomes of a library that writes over memory depends on what it hits.
TEST(LibraryThatScribbles, IsContainedWhateverItHits) {
    for (const char* name : {"scribbles", "scribbles_on_the_exchange"}) {
        sim::LibraryController controller = controller_of(name);
        controller.power_up();
        const pid_t process = controller.process_number();
        for (int k = 1; k <= bad_tick + 1; ++k) {
            controller.step(called());
        }
        ASSERT_TRUE(controller.failure()) << name;
        EXPECT_TRUE(is_off(controller.step(called()))) << name;
        EXPECT_TRUE(is_gone(process)) << name;
    }
}

#if !defined(__SANITIZE_ADDRESS__)
/// Under the sanitizer there is no limit that could stop it: the sanitizer itself needs terabytes.
TEST(LibraryThatEatsMemory, IsStoppedBeforeTheMachineIs) {
    sim::LibraryController controller = controller_of("eats_memory");
    controller.power_up();
    for (int k = 1; k <= bad_tick; ++k) {
        controller.step(called());
    }
    ASSERT_TRUE(controller.failure());
    EXPECT_EQ(controller.failure()->cause, "crashed");
}
#endif

TEST(LibraryThatFailsAtPowerUp, IsNamedAndStaysOff) {
    sim::LibraryController controller = controller_of("crashes_in_create");
    controller.power_up();
    ASSERT_TRUE(controller.failure());
    EXPECT_EQ(controller.failure()->words,
              "crashes_in_create.so crashed with SIGABRT (Aborted) in runup_create");
    EXPECT_TRUE(is_off(controller.step(called())));
}

TEST(LibraryThatFailsAsPowerGoes, IsNamed) {
    sim::LibraryController controller = controller_of("crashes_in_destroy");
    controller.power_up();
    controller.step(called());
    EXPECT_FALSE(controller.failure());
    controller.lose_power();
    ASSERT_TRUE(controller.failure());
    EXPECT_EQ(controller.failure()->words,
              "crashes_in_destroy.so crashed with SIGABRT (Aborted) in runup_destroy, at tick 1, "
              "0.0001 s after power-up");
}

TEST(LibraryThatClosesDescriptors, HarmsNobody) {
    sim::LibraryController controller = controller_of("closes_descriptors");
    controller.power_up();
    for (int k = 1; k <= 2 * bad_tick; ++k) {
        ASSERT_FALSE(is_off(controller.step(called()))) << k;
    }
    EXPECT_FALSE(controller.failure());
}

TEST(LibraryThatPrints, IsMentionedAndGoesOn) {
    sim::LibraryController controller = controller_of("prints");
    controller.power_up();
    // More than the place for it holds.
    for (int k = 1; k <= 5000; ++k) {
        ASSERT_FALSE(is_off(controller.step(called()))) << k;
    }
    EXPECT_FALSE(controller.failure());
    const std::string remark =
        "prints.so printed to its standard output, which on a board leads nowhere; it begins "
        "\"{\"tick\": 1, and so on and on and on and on and on and on}\"";
    EXPECT_EQ(controller.remark(), remark);
    controller.lose_power();
    EXPECT_EQ(controller.remark(), remark);
    EXPECT_EQ(controller_of("well_behaved").remark(), "");
}

TEST(LibraryThatStartsProcesses, LeavesNone) {
    pid_t child = 0;
    {
        sim::LibraryController controller = controller_of("leaves_processes");
        controller.power_up();
        controller.step(called());
        child = static_cast<pid_t>(controller.watched(0));
        ASSERT_GT(child, 0);
        ASSERT_EQ(::kill(child, 0), 0);
    }
    // Killed with its group; whoever inherits it reaps it sooner or later.
    bool is_running = ::kill(child, 0) == 0;
    while (is_running) {
        std::ifstream stat("/proc/" + std::to_string(child) + "/stat");
        std::string number;
        std::string name;
        std::string state = "Z";
        stat >> number >> name >> state;
        is_running = state != "Z" && state != "X";
    }
    SUCCEED();
}

TEST(ControllerLibrary, FindsNothingOfItsMemoryAfterAPowerCut) {
    sim::LibraryController controller = controller_of("keeps_its_memory");
    for (int k = 0; k < 3; ++k) {
        controller.power_up();
        EXPECT_EQ(controller.step(called()).status, 1) << "created once in its life";
        controller.lose_power();
        EXPECT_EQ(controller.process_number(), 0);
    }
}

TEST(ControllerLibrary, LeavesNoProcessWhenTheControllerGoes) {
    pid_t process = 0;
    {
        sim::LibraryController controller = controller_of("well_behaved");
        controller.power_up();
        process = controller.process_number();
        EXPECT_EQ(::kill(process, 0), 0);
    }
    EXPECT_TRUE(is_gone(process));
}

TEST(TryLibrary, FindsWhatMakesALibraryUselessBeforeTheRun) {
    const auto problem_of = [](const std::string& name, const std::string& options = "") {
        sim::LibraryLimiter limiter;
        limiter.path = sim_test::test_controller(name);
        limiter.options = options;
        const auto problem = sim::try_library(limiter, some_motor()).problem;
        return problem ? problem->key + ": " + problem->words : std::string();
    };
    const auto begins = [](const std::string& text, const std::string& with) {
        return text.compare(0, with.size(), with) == 0;
    };
    EXPECT_EQ(problem_of("well_behaved"), "");
    EXPECT_EQ(problem_of("refuses", "good"), "");
    EXPECT_EQ(problem_of("crashes_in_create"), "") << "its own doing, which has an outcome";
    EXPECT_TRUE(begins(problem_of("refuses"),
                       "options: refuses.so refuses: only good options are accepted; give "));
    EXPECT_TRUE(begins(problem_of("wrong_version"),
                       "path: wrong_version.so is built for version 7 of the controller's "
                       "interface, and this program speaks version 1; give "));
    EXPECT_TRUE(begins(problem_of("lacks_tick"),
                       "path: lacks_tick.so lacks the function runup_tick; give "));
    EXPECT_TRUE(
        begins(problem_of("needs_a_stranger"), "path: needs_a_stranger.so cannot be loaded: "));
    EXPECT_TRUE(begins(problem_of("crashes_while_loaded"),
                       "path: crashes_while_loaded.so crashed with SIGSEGV (Segmentation fault) "
                       "while it was loaded; give "));
    EXPECT_TRUE(begins(problem_of("no_such_library"), "path: there is no file "));
}

TEST(StartWithALibrary, ThatFailsIsTheOutcomeAndKeepsItsFigures) {
    const sim::Scenario good = sim_test::with_library(sim_test::bundled("reference_limited"),
                                                      sim_test::test_controller("well_behaved"));
    sim::Scenario bad = good;
    std::get<sim::LibraryLimiter>(bad.limiter).path = sim_test::test_controller("exits");
    const sim::StartResult result = sim::run_start(bad);
    EXPECT_EQ(result.outcome, sim::Outcome::controller_failed);
    EXPECT_EQ(result.cause, "ended_itself");
    EXPECT_FALSE(result.as_expected);
    ASSERT_EQ(result.warnings.size(), 1U);
    EXPECT_EQ(result.warnings.front(),
              "exits.so ended its process with exit code 3 in runup_tick, at tick 100, 0.0100 s "
              "after power-up");
    ASSERT_FALSE(result.controller_steps.empty());
    EXPECT_EQ(result.controller_steps.back().seen, sim::SeenDoing::failed);
    EXPECT_TRUE(result.figures.line_voltage_half_cycle_rms_min_V);
    EXPECT_LT(result.energy.closure(), 1e-3);
    EXPECT_NE(sim::run_start(good).outcome, sim::Outcome::controller_failed);
}

}  // namespace
