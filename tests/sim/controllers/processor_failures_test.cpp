// What becomes of a processor whose emulator is missing, ends, hangs, or answers nonsense. The
// emulators here are shell scripts that fail on purpose.
#include <fmt/format.h>
#include <gtest/gtest.h>
#include <signal.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <string>

#include "bench/cases.hpp"
#include "files/temporary_folder.hpp"
#include "firmware/board/wire.hpp"
#include "sim/bench/start_run.hpp"
#include "sim/controllers/processor_controller.hpp"
#include "sim/files/input_error.hpp"

namespace {

using firmware::board::Answer;
using firmware::board::Hello;

/// As the shell's printf takes it.
std::string escaped(const void* bytes, std::size_t count) {
    std::string text;
    for (std::size_t k = 0; k < count; ++k) {
        text += fmt::format("\\{:03o}", static_cast<const unsigned char*>(bytes)[k]);
    }
    return text;
}

template <class Message>
std::string says(const Message& message) {
    return "printf '" + escaped(&message, sizeof message) + "'\n";
}

class ProcessorFailures : public testing::Test {
  protected:
    /// Whoever runs the controller gets this instead of the emulator.
    sim::ProcessorSetup emulator_that(const std::string& script) {
        sim::ProcessorSetup setup;
        setup.emulator = folder_.put("emulator", "#!/bin/sh\n" + script);
        std::filesystem::permissions(setup.emulator, std::filesystem::perms::owner_all);
        setup.image = folder_.put("image", "nothing");
        return setup;
    }

    static std::string cause_with(const sim::ProcessorSetup& setup) {
        sim::ProcessorController port({}, sim::FlashStore(), setup);
        port.power_up();
        for (int k = 0; k < 3; ++k) {
            port.step({});
        }
        EXPECT_TRUE(port.failure());
        return port.failure() ? port.failure()->cause + ": " + port.failure()->words : "";
    }

    sim_test::TemporaryFolder folder_;
};

TEST_F(ProcessorFailures, OfAMissingEmulatorNameThePackage) {
    sim::ProcessorSetup setup = emulator_that("");
    setup.emulator = "no-such-emulator";
    try {
        const sim::ProcessorController port({}, sim::FlashStore(), setup);
        FAIL() << "nothing was missed";
    } catch (const sim::InputError& error) {
        EXPECT_NE(std::string(error.what()).find("package qemu-system-arm"), std::string::npos);
    }
}

TEST_F(ProcessorFailures, OfAnUnknownProcessorNameTheKnownOnes) {
    sim::ProcessorSetup setup = emulator_that("");
    setup.processor = "z80";
    EXPECT_THROW(sim::ProcessorController({}, sim::FlashStore(), setup), sim::InputError);
}

TEST_F(ProcessorFailures, OfAnEmulatorThatEndsTellItsCodeAndWhatItComplainedOf) {
    EXPECT_EQ(cause_with(emulator_that("echo 'no such board.' >&2\nexit 3\n")),
              "crashed: At power-up the processor is gone; its emulator ended with code 3: no such "
              "board");
}

TEST_F(ProcessorFailures, OfAnEmulatorThatIsKilledTellTheSignal) {
    EXPECT_EQ(cause_with(emulator_that("kill -SEGV $$\n")),
              "crashed: At power-up the processor is gone; its emulator was killed by signal 11");
}

TEST_F(ProcessorFailures, OfAProcessorThatHangsAreFoundByPatience) {
    sim::ProcessorSetup setup = emulator_that("exec sleep 1000\n");
    setup.patience = std::chrono::milliseconds(20);
    EXPECT_EQ(cause_with(setup), "hung: At power-up the processor gave no answer within 0.02 s");
}

TEST_F(ProcessorFailures, OfAnotherWireVersionAreToldBeforeAnythingIsSent) {
    Hello newer;
    ++newer.version;
    EXPECT_EQ(cause_with(emulator_that(says(newer))).substr(0, 13), "wrong_version");
    Hello other_settings;
    other_settings.settings_bytes += 4;
    EXPECT_EQ(cause_with(emulator_that(says(other_settings))).substr(0, 13), "wrong_version");
}

TEST_F(ProcessorFailures, InTheMiddleOfARunNameTheStep) {
    const Answer answer;
    EXPECT_EQ(cause_with(emulator_that(says(Hello{}) + says(answer) + says(answer))),
              "crashed: In step 2 since power-up the processor is gone; its emulator ended with "
              "code 0");
}

TEST_F(ProcessorFailures, OfAnAnswerThatCannotBeNameWhatIsWrongInIt) {
    const auto words_for = [&](const Answer& answer) {
        return cause_with(emulator_that(says(Hello{}) + says(Answer{}) + says(answer)));
    };
    const std::string begin =
        "answer_without_sense: In step 1 since power-up the processor's answer makes no sense: ";
    Answer answer;
    answer.frame.gate_on_us = 90;
    answer.frame.gate_off_us = 101;
    EXPECT_EQ(words_for(answer), begin + "a gate pulse from 90 to 101 us");
    answer = Answer{};
    answer.frame.version = 7;
    EXPECT_EQ(words_for(answer), begin + "a frame of version 7");
    answer = Answer{};
    answer.frame.bypass_contact = 2;
    EXPECT_EQ(words_for(answer), begin + "a contact that is neither on nor off");
    answer = Answer{};
    answer.telemetry.state = static_cast<firmware::State>(firmware::state_count);
    EXPECT_EQ(words_for(answer), begin + "state 8");
    answer = Answer{};
    answer.telemetry.reason = static_cast<firmware::Reason>(firmware::reason_count);
    EXPECT_EQ(words_for(answer), begin + fmt::format("reason {}", int{firmware::reason_count}));
}

TEST_F(ProcessorFailures, EndARunWithAVerdictAndItsFigures) {
    sim::Scenario scenario = sim_test::bundled("reference_limited");
    const auto& builtin = std::get<sim::BuiltinLimiter>(scenario.limiter);
    scenario.limiter = sim::ProcessorLimiter{builtin.parts, builtin.settings};
    const sim::ScopedProcessorSetup scope(emulator_that("exit 1\n"));
    const sim::StartResult result = sim::run_start(scenario);
    EXPECT_EQ(result.outcome, sim::Outcome::controller_failed);
    EXPECT_EQ(result.cause, "crashed");
    EXPECT_FALSE(result.as_expected);
    EXPECT_EQ(result.figures.line_current_peak_A, 0.0) << "everything is off from then on";
}

TEST_F(ProcessorFailures, LeaveNoProcessBehind) {
    const sim::ProcessorSetup setup =
        emulator_that("echo $$ > " + (folder_ / "number") + "\n" + says(Hello{}) + says(Answer{}) +
                      "exec sleep 1000\n");
    const auto is_there = [&]() { return kill(std::stoi(folder_.get("number")), 0) == 0; };
    {
        sim::ProcessorController port({}, sim::FlashStore(), setup);
        port.power_up();
        ASSERT_FALSE(port.failure()) << port.failure()->words;
        EXPECT_TRUE(is_there());
        port.lose_power();
        EXPECT_FALSE(is_there()) << "without power there is no processor";
        port.power_up();
        EXPECT_TRUE(is_there());
    }
    EXPECT_FALSE(is_there()) << "it ends with its port";
}

// The emulator holds the pipe open, and writes into it if it is still there after a while.
TEST_F(ProcessorFailures, LeaveNoProcessBehindWhenThisProgramIsKilled) {
    const std::string pipe = folder_ / "pipe";
    ASSERT_EQ(mkfifo(pipe.c_str(), 0600), 0);
    const sim::ProcessorSetup setup = emulator_that("exec 9> " + pipe + "\n" + says(Hello{}) +
                                                    says(Answer{}) + "sleep 10\necho alive >&9\n");
    const pid_t program = fork();
    ASSERT_GE(program, 0);
    if (program == 0) {
        sim::ProcessorController port({}, sim::FlashStore(), setup);
        port.power_up();
        for (;;) {
            pause();
        }
    }
    // Opens when the emulator has.
    std::ifstream from_emulator(pipe);
    kill(program, SIGKILL);
    waitpid(program, nullptr, 0);
    std::string said;
    from_emulator >> said;
    EXPECT_EQ(said, "");
}

}  // namespace
