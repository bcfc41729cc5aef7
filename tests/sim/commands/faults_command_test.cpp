// runup faults, end to end.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "commands/program.hpp"

namespace {

using sim_test::bundled_path;
using sim_test::run_program;

TEST(FaultsCommand, PrintsABlockPerFaultAndTheJsonBesideIt) {
    const sim_test::Outcome text =
        run_program({"faults", bundled_path("reference_limited"), "--every-ms", "300", "--until-ms",
                     "600", "--only", "motor_disconnected"});
    EXPECT_NE(text.output.find("motor_disconnected\n"), std::string::npos) << text.output;
    EXPECT_NE(text.output.find("of 3  resting"), std::string::npos) << text.output;
    EXPECT_NE(text.output.find("1 fault, 1 unit, 3 instants, 3 starts"), std::string::npos)
        << text.output;
    const sim_test::Outcome json =
        run_program({"faults", bundled_path("reference_limited"), "--every-ms", "300", "--until-ms",
                     "600", "--only", "motor_disconnected", "--json", "-"});
    EXPECT_EQ(json.exit_code, text.exit_code);
    const auto result = nlohmann::json::parse(json.output);
    EXPECT_EQ(result["schema"], "runup.faults/1");
    EXPECT_EQ(result["runs"], 3);
    EXPECT_EQ(result["faults"][0]["fault"], "motor_disconnected");
    EXPECT_LT(result["faults"][0]["worst_closure"]["closure"], 1e-3);
}

TEST(FaultsCommand, NeedsALimiterAndAFaultOfThatName) {
    const sim_test::Outcome direct = run_program({"faults", bundled_path("reference_direct")});
    EXPECT_EQ(direct.exit_code, 2);
    EXPECT_NE(direct.errors.find("limiter.kind: there is no controller that a fault could meet"),
              std::string::npos)
        << direct.errors;
    const sim_test::Outcome unknown =
        run_program({"faults", bundled_path("reference_limited"), "--only", "moter"});
    EXPECT_EQ(unknown.exit_code, 2);
    EXPECT_NE(unknown.errors.find("no fault's name begins so"), std::string::npos)
        << unknown.errors;
}

TEST(FaultsCommand, RefusesAUnitThatIsBrokenAlready) {
    const sim_test::Outcome broken =
        run_program({"faults", bundled_path("hut_thyristor_shorted"), "--every-ms", "1000"});
    EXPECT_EQ(broken.exit_code, 2);
    EXPECT_EQ(broken.output, "");
    EXPECT_NE(broken.errors.find(": fault: a campaign breaks everything in turn"),
              std::string::npos)
        << broken.errors;
}

}  // namespace
