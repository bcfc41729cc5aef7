#include "sim/scenario/key_reference.hpp"

#include <gtest/gtest.h>

#include <string>

#include "sim/scenario/fitting_together.hpp"
#include "sim/scenario/scenario_tables.hpp"

namespace {

TEST(KeyReference, NamesEveryTableKindAndKeyWithItsMeaning) {
    const std::string text = sim::describe_keys();
    const auto expect_text = [&text](const std::string& part) {
        EXPECT_NE(text.find(part), std::string::npos) << part;
    };
    sim::Scenario scratch;
    for (const sim::ScenarioTable& table : sim::scenario_tables(scratch)) {
        expect_text("\n[" + std::string(table.name) + "] ");
        for (const sim::TableKind& kind : table.kinds) {
            if (!kind.kind.empty()) {
                expect_text("kind = \"" + std::string(kind.kind) + "\"");
            }
            for (const sim::Key& key : kind.begin().keys) {
                expect_text("  " + key.name + " = " + sim::accepted_by(key.rule) + "; ");
                expect_text(key.meaning.substr(0, key.meaning.find('\n')) + "\n");
            }
        }
    }
}

TEST(KeyReference, ShowsBoundsAndDefaults) {
    const std::string text = sim::describe_keys();
    EXPECT_NE(text.find("  poles = an even whole number from 2 to 16; must be given\n"
                        "      number of poles, even\n"),
              std::string::npos);
    EXPECT_NE(text.find("  minimum_rest_s = a number from 0 to 3600; default 180\n"),
              std::string::npos);
    EXPECT_NE(text.find("        locked_out: the controller has used up its tries\n"),
              std::string::npos);
}

TEST(KeyReference, ShowsOneTableAloneJustAsAmongTheOthers) {
    const std::string all = sim::describe_keys();
    for (const std::string_view name : sim::table_names()) {
        const auto one = sim::describe_table(name);
        ASSERT_TRUE(one.has_value()) << name;
        EXPECT_EQ(one->rfind("[" + std::string(name) + "] ", 0), 0U) << name;
        EXPECT_NE(all.find("\n\n" + *one + "\n"), std::string::npos) << name;
    }
    EXPECT_EQ(sim::describe_table("moter"), std::nullopt);
}

TEST(KeyReference, EndsInWhatMustFitTogether) {
    const std::string text = sim::describe_keys();
    const std::string rules(sim::fitting_rules());
    ASSERT_GT(text.size(), rules.size());
    EXPECT_EQ(text.substr(text.size() - rules.size()), rules);
    for (const std::string part : {"2.5 Hz", "[start_aid]", "run_capacitor_uF = 0", "Warned"}) {
        EXPECT_NE(rules.find(part), std::string::npos) << part;
    }
}

}  // namespace
