// The whole campaign killed, at any moment.
#include <gtest/gtest.h>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/time.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <csignal>
#include <functional>
#include <random>

#include "files/temporary_folder.hpp"
#include "sim/files/input_error.hpp"
#include "sim/regression/results_reader.hpp"
#include "small_suite.hpp"

namespace {

using sim_test::plan_for;
using sim_test::run_small;
using sim_test::SmallSuite;
using sim_test::TemporaryFolder;

/// Runs `work` in a process of its own; the signal that ended it, or 0.
int signal_that_ended(const std::function<void()>& work) {
    const pid_t process = ::fork();
    if (process == 0) {
        work();
        ::_exit(0);
    }
    int status = 0;
    EXPECT_EQ(::waitpid(process, &status, 0), process);
    return WIFSIGNALED(status) ? WTERMSIG(status) : 0;
}

/// No handler is there, so this signal ends the process as SIGKILL would: between any two
/// instructions, with nothing put in order. It counts the process's own time, so a busy machine
/// changes nothing.
void die_after_processor_time_us(int time_us) {
    itimerval timer{};
    timer.it_value.tv_sec = time_us / 1'000'000;
    timer.it_value.tv_usec = time_us % 1'000'000;
    ::setitimer(ITIMER_PROF, &timer, nullptr);
}

/// Of this process so far, its children left out.
int processor_time_us() {
    rusage used{};
    ::getrusage(RUSAGE_SELF, &used);
    return static_cast<int>((used.ru_utime.tv_sec + used.ru_stime.tv_sec) * 1'000'000 +
                            used.ru_utime.tv_usec + used.ru_stime.tv_usec);
}

TEST(KilledCampaign, GoesOnFromAnyMomentToTheSameBytes) {
    const TemporaryFolder folder;
    const SmallSuite suite(1500);
    // A build with sanitizers takes longer, so the moments are shares of the whole.
    const int before_us = processor_time_us();
    run_small(suite, plan_for(folder / "whole"));
    const int whole_us = processor_time_us() - before_us;
    std::minstd_rand random(1);
    int kills = 0;
    int kills_with_something_kept = 0;
    for (int round = 0; round < 4; ++round) {
        sim::RegressPlan plan = plan_for(folder / "killed" + std::to_string(round));
        plan.existing = sim::ExistingFile::go_on;
        const auto attempt = [&](int time_us) {
            return signal_that_ended([&] {
                die_after_processor_time_us(time_us);
                sim::run_campaign(suite, plan, [](auto, auto, auto) { return true; });
            });
        };
        // After a dozen of kills it may live.
        for (int k = 0; k < 12 && attempt(whole_us / 20 +
                                          static_cast<int>(random() % 30) * (whole_us / 100)) != 0;
             ++k) {
            ++kills;
            try {
                const sim::ResultsReader reader(plan.results);
                kills_with_something_kept += reader.case_count() > 0 ? 1 : 0;
            } catch (const sim::InputError&) {
                // Killed before the file had its tables.
            }
        }
        EXPECT_EQ(attempt(0), 0);
        EXPECT_TRUE(folder.get("killed" + std::to_string(round)) == folder.get("whole"));
    }
    EXPECT_GT(kills, 4);
    EXPECT_GT(kills_with_something_kept, 0);
    for (const std::string& name : folder.names()) {
        EXPECT_EQ(name.find('.'), std::string::npos) << name << " was left behind";
    }
}

TEST(KilledCampaign, TakesItsWorkersAlong) {
    const TemporaryFolder folder;
    std::array<int, 2> ends{};
    ASSERT_EQ(::pipe(ends.data()), 0);
    SmallSuite suite(4);
    for (std::int64_t id = 0; id < 4; ++id) {
        suite.instead[id] = [&ends] {
            EXPECT_EQ(::write(ends[1], "x", 1), 1);
            ::pause();
        };
    }
    const pid_t campaign = ::fork();
    if (campaign == 0) {
        sim::run_campaign(suite, plan_for(folder / "results"),
                          [](auto, auto, auto) { return true; });
        ::_exit(0);
    }
    ::close(ends[1]);
    // Both workers are in a case that never ends.
    std::array<char, 2> seen{};
    EXPECT_EQ(::read(ends[0], seen.data(), 1), 1);
    EXPECT_EQ(::read(ends[0], seen.data(), 1), 1);
    ::kill(campaign, SIGKILL);
    EXPECT_EQ(::waitpid(campaign, nullptr, 0), campaign);
    // The pipe ends when nobody is left who could write into it.
    EXPECT_EQ(::read(ends[0], seen.data(), 1), 0);
    ::close(ends[0]);
}

}  // namespace
