// A long campaign needs no more memory than a short one.
#include <gtest/gtest.h>
#include <unistd.h>

#include <fstream>

#include "files/temporary_folder.hpp"
#include "small_suite.hpp"

namespace {

double resident_MiB() {
    std::ifstream file("/proc/self/statm");
    double size = 0.0;
    double resident = 0.0;
    file >> size >> resident;
    return resident * static_cast<double>(::sysconf(_SC_PAGESIZE)) / (1024.0 * 1024.0);
}

// The bound is a third of what the rows of the later cases alone would take if they were kept.
TEST(CampaignMemory, StaysWhereItWasAfterTheFirstCases) {
#if defined(__SANITIZE_ADDRESS__)
    GTEST_SKIP() << "the address sanitizer keeps what was freed, on purpose";
#endif
    const sim_test::TemporaryFolder folder;
    double early_MiB = 0.0;
    double late_MiB = 0.0;
    sim_test::SmallSuite suite(6000);
    for (std::int64_t id = 0; id < 6000; ++id) {
        suite.instead[id] = [] { throw std::runtime_error(std::string(1000, 'x')); };
    }
    EXPECT_TRUE(sim::run_campaign(suite, sim_test::plan_for(folder / "results"),
                                  [&](std::int64_t done, auto, auto) {
                                      if (done < 1000) {
                                          early_MiB = resident_MiB();
                                      }
                                      late_MiB = resident_MiB();
                                      return true;
                                  }));
    EXPECT_LT(late_MiB - early_MiB, 2.0);
}

}  // namespace
