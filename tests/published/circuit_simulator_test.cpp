// The way to the circuit simulator itself, on circuits whose solution is known in closed form.
#include "circuit_simulator.hpp"

#include <gtest/gtest.h>
#include <unistd.h>

#include <cmath>
#include <cstddef>
#include <filesystem>
#include <stdexcept>
#include <string>
#include <vector>

namespace {

using namespace published;

TransientSettings milliseconds(double duration_ms) {
    TransientSettings settings;
    settings.duration_s = duration_ms * 1e-3;
    settings.largest_step_s = 2e-6;
    return settings;
}

// L = 10 mH, R = 4 ohm on sqrt(2) 100 V sin(wt + 30 degrees): sine plus decaying exponential.
const std::string series_circuit =
    "vs top 0 sin(0 141.42135623730951 50 0 0 30)\n"
    "r1 top middle 4\n"
    "l1 middle 0 10e-3 ic=0\n";

TEST(CircuitSimulator, ReproducesTheTransientOfAResistanceAndAnInductance) {
    const auto result = run_circuit(series_circuit, {"i(vs)"}, milliseconds(40.0));
    const double omega = 100.0 * 3.14159265358979323846;
    const double impedance = std::hypot(4.0, omega * 10e-3);
    const double lag = std::atan2(omega * 10e-3, 4.0);
    const double phase = 3.14159265358979323846 / 6.0;
    const double amplitude = std::sqrt(2.0) * 100.0 / impedance;
    ASSERT_GT(result.time_s.size(), 10000U);
    for (std::size_t k = 0; k < result.time_s.size(); ++k) {
        const double t = result.time_s[k];
        const double current = amplitude * (std::sin(omega * t + phase - lag) -
                                            std::sin(phase - lag) * std::exp(-t * 4.0 / 10e-3));
        ASSERT_NEAR(-result.signals[0][k], current, 1e-5 * amplitude) << "at " << t << " s";
    }
}

TEST(CircuitSimulator, HandsBackTheSignalsInTheOrderOfTheRequest) {
    const auto one =
        run_circuit(series_circuit, {"v(top)", "i(vs)", "v(middle)"}, milliseconds(2.0));
    const auto other =
        run_circuit(series_circuit, {"v(middle)", "v(top)", "i(vs)"}, milliseconds(2.0));
    ASSERT_EQ(one.time_s, other.time_s);
    EXPECT_EQ(one.signals[0], other.signals[1]);
    EXPECT_EQ(one.signals[1], other.signals[2]);
    EXPECT_EQ(one.signals[2], other.signals[0]);
    EXPECT_NE(one.signals[0], one.signals[2]);
    // Ohm's law between the columns shows that each name has its own data.
    EXPECT_NEAR(one.signals[0].back() - one.signals[2].back(), -4.0 * one.signals[1].back(), 1e-6);
}

std::string complaint(const std::string& elements, const std::vector<std::string>& signals) {
    try {
        run_circuit(elements, signals, milliseconds(1.0));
    } catch (const std::runtime_error& error) {
        return error.what();
    }
    return {};
}

TEST(CircuitSimulator, AWrongNetlistIsReportedInTheSimulatorsOwnWords) {
    const std::string words =
        complaint("vs top 0 1\nr1 top 0 4\nb1 x 0 v=nonsense(3)\n", {"v(top)"});
    EXPECT_NE(words.find("circuit simulator"), std::string::npos);
    EXPECT_NE(words.find("nonsense"), std::string::npos) << words;
}

TEST(CircuitSimulator, ASignalThatDoesNotExistIsAnError) {
    EXPECT_NE(complaint(series_circuit, {"v(top)", "v(nowhere)"}), "");
}

TEST(CircuitSimulator, LeavesNoFolderBehind) {
    const auto count = [] {
        int folders = 0;
        for (const auto& entry :
             std::filesystem::directory_iterator(std::filesystem::temp_directory_path())) {
            folders += entry.path().filename().string().rfind(
                           "published_tests." + std::to_string(getpid()), 0) == 0;
        }
        return folders;
    };
    run_circuit(series_circuit, {"v(top)"}, milliseconds(1.0));
    complaint("r1 top 0 none\n", {"v(top)"});
    EXPECT_EQ(count(), 0);
}

}  // namespace
