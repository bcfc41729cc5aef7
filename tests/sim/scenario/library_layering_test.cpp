// [library]: a scenario laid over the bundled compressors and supplies. What the scenario gives
// counts, the rest is the library's, and a message names the file in which the fault was made.
//
// Nothing here knows an entry by its name: each test takes what the library holds.
#include <fmt/format.h>
#include <gtest/gtest.h>
#include <toml++/toml.h>

#include <cmath>
#include <functional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "plant_models/supplies/supply_list.hpp"
#include "scenario/scenario_text.hpp"
#include "sim/library/library.hpp"
#include "sim/scenario/closest_word.hpp"
#include "sim/scenario/scenario_tables.hpp"
#include "sim/scenario/table_reading.hpp"

namespace {

using sim::LibraryEntry;
using sim_test::fault_of;

sim::Scenario read(const std::string& text) {
    return sim::parse_scenario(text, "cellar.toml");
}

double supply_Hz(const sim::Scenario& scenario) {
    return plant_models::nominal_frequency_Hz(scenario.source);
}

/// The first supply that the compressor's motor runs on; null if the library has none.
const LibraryEntry* supply_for(const LibraryEntry& compressor) {
    const plant_models::MotorParameters motor = sim::parse_library_entry(compressor).motor;
    const LibraryEntry* best = nullptr;
    double best_V = 1e9;
    for (const LibraryEntry& entry : sim::library_supplies()) {
        const sim::Scenario supply = sim::parse_library_entry(entry);
        const double off_V =
            std::abs(plant_models::nominal_voltage_V(supply.source) - motor.rated_voltage_V);
        if (std::abs(supply_Hz(supply) - motor.rated_frequency_Hz) < 1.0 && off_V < best_V) {
            best = &entry;
            best_V = off_V;
        }
    }
    return best;
}

std::string choice(std::string_view compressor, std::string_view supply) {
    return "[library]\ncompressor = \"" + std::string(compressor) + "\"\nsupply = \"" +
           std::string(supply) + "\"\n";
}

const std::string direct = "[limiter]\nkind = \"none\"\n";

/// The first compressor on its supply, with no word of its own; ends in a newline.
std::string from_library() {
    const LibraryEntry& compressor = sim::library_compressors().front();
    return choice(compressor.name, supply_for(compressor)->name) + direct;
}

template <class P>
std::vector<double> values_of(const P& parameters) {
    std::vector<double> values;
    for (const auto& row : P::table()) {
        std::visit([&](auto member) { values.push_back(static_cast<double>(parameters.*member)); },
                   row.member);
    }
    return values;
}

template <class... P>
std::vector<double> values_of(const std::variant<P...>& choice) {
    return std::visit([](const auto& one) { return values_of(one); }, choice);
}

void expect_same_unit(const sim::Scenario& one, const sim::Scenario& other) {
    EXPECT_EQ(values_of(one.motor), values_of(other.motor));
    EXPECT_EQ(one.load.index(), other.load.index());
    EXPECT_EQ(values_of(one.load), values_of(other.load));
    EXPECT_EQ(values_of(one.refrigerant), values_of(other.refrigerant));
    EXPECT_EQ(one.refrigerant.gas, other.refrigerant.gas);
    EXPECT_EQ(one.refrigerant.expansion, other.refrigerant.expansion);
    EXPECT_EQ(values_of(one.unit.heat), values_of(other.unit.heat));
    EXPECT_EQ(values_of(one.unit.protector), values_of(other.unit.protector));
    EXPECT_EQ(values_of(one.unit.contactor), values_of(other.unit.contactor));
    EXPECT_EQ(one.unit.start_aid.index(), other.unit.start_aid.index());
    EXPECT_EQ(values_of(one.unit.start_aid), values_of(other.unit.start_aid));
}

TEST(LaidOverLibrary, IsNotEmpty) {
    ASSERT_FALSE(sim::library_compressors().empty());
    ASSERT_FALSE(sim::library_supplies().empty());
    ASSERT_NE(supply_for(sim::library_compressors().front()), nullptr);
}

TEST(LaidOverLibrary, GivesAScenarioThatSaysNothingElseEveryTableOfItsEntries) {
    for (const LibraryEntry& compressor : sim::library_compressors()) {
        const LibraryEntry* supply = supply_for(compressor);
        ASSERT_NE(supply, nullptr) << compressor.name;
        SCOPED_TRACE(std::string(compressor.name) + " on " + std::string(supply->name));
        const sim::Scenario scenario = read(choice(compressor.name, supply->name) + direct);
        expect_same_unit(scenario, sim::parse_library_entry(compressor));
        const sim::Scenario alone = sim::parse_library_entry(*supply);
        EXPECT_EQ(scenario.source.index(), alone.source.index());
        EXPECT_EQ(values_of(scenario.source), values_of(alone.source));
        EXPECT_EQ(values_of(scenario.wiring), values_of(alone.wiring));
        EXPECT_EQ(scenario.library.compressor, &compressor);
        EXPECT_EQ(scenario.library.supply, supply);
    }
}

TEST(LaidOverLibrary, DoesNotGiveTheScenarioItsTitle) {
    EXPECT_EQ(read(from_library()).title, "cellar");
    EXPECT_EQ(read(from_library() + "[scenario]\ntitle = \"Mine\"\n").title, "Mine");
    EXPECT_EQ(read(from_library()).name, "cellar");
}

TEST(LaidOverLibrary, MayGiveTheCompressorAloneOrTheSupplyAlone) {
    const LibraryEntry& compressor = sim::library_compressors().front();
    const sim::Scenario unit = sim::parse_library_entry(compressor);
    const std::string grid = fmt::format(
        "[source]\nkind = \"grid\"\nvoltage_V = {}\nfrequency_Hz = {}\nresistance_ohm = 0.1\n"
        "inductance_mH = 0.1\nphase_deg = 0\n",
        unit.motor.rated_voltage_V, unit.motor.rated_frequency_Hz);
    const sim::Scenario own_supply =
        read("[library]\ncompressor = \"" + std::string(compressor.name) + "\"\n" + grid + direct);
    expect_same_unit(own_supply, unit);
    EXPECT_EQ(own_supply.library.supply, nullptr);

    const LibraryEntry& supply = sim::library_supplies().front();
    const double hertz = supply_Hz(sim::parse_library_entry(supply));
    std::string own_unit = sim_test::right_scenario();
    const std::size_t at = own_unit.find("[source]");
    own_unit.erase(at, own_unit.find("[limiter]") - at);
    own_unit = sim_test::replaced(own_unit, "rated_frequency_Hz = 50",
                                  fmt::format("rated_frequency_Hz = {}", hertz));
    const sim::Scenario scenario =
        read(own_unit + "[library]\nsupply = \"" + std::string(supply.name) + "\"\n");
    EXPECT_EQ(values_of(scenario.source), values_of(sim::parse_library_entry(supply).source));
    EXPECT_EQ(scenario.motor.main_resistance_ohm, 1.5);
    EXPECT_EQ(scenario.library.compressor, nullptr);
}

TEST(LaidOverLibrary, LetsTheScenariosOwnKeyCountAndChangesNothingElse) {
    const sim::Scenario before = read(from_library());
    const std::vector<double> motor = values_of(before.motor);
    for (std::size_t k = 0; k < motor.size(); ++k) {
        const auto& row = plant_models::MotorParameters::table()[k];
        // Keys that other tables or each other are checked against, and whole numbers.
        if (row.key == "poles" || row.key == "rated_frequency_Hz" ||
            row.key == "run_capacitor_uF") {
            continue;
        }
        const double value = motor[k] == 0.0 ? 0.5 * row.highest : 0.99 * motor[k];
        const sim::Scenario after = read(
            from_library() + fmt::format("[motor]\n{} = {:.17g}\n", std::string(row.key), value));
        std::vector<double> expected = motor;
        expected[k] = value;
        EXPECT_EQ(values_of(after.motor), expected) << row.key;
        EXPECT_EQ(values_of(after.load), values_of(before.load)) << row.key;
        EXPECT_EQ(values_of(after.source), values_of(before.source)) << row.key;
    }
}

TEST(LaidOverLibrary, LaysATableOfTheSameKindOverItsOwnWithOrWithoutTheKind) {
    const sim::Scenario before = read(from_library());
    const std::string kind =
        std::visit([](const auto& load) { return std::string(load.kind); }, before.load);
    for (const std::string& head : {std::string(), "kind = \"" + kind + "\"\n"}) {
        const std::string text = from_library() + "[load]\n" + head;
        ASSERT_EQ(fault_of(text), "was read");
        EXPECT_EQ(values_of(read(text).load), values_of(before.load));
        // Every load has this key.
        const sim::Scenario after = read(text + "reference_speed_rpm = 2765.5\n");
        ASSERT_EQ(after.load.index(), before.load.index());
        int changed = 0;
        const std::vector<double> one = values_of(before.load);
        const std::vector<double> other = values_of(after.load);
        for (std::size_t k = 0; k < one.size(); ++k) {
            changed += one[k] != other[k] ? 1 : 0;
        }
        EXPECT_EQ(changed, 1);
    }
}

TEST(LaidOverLibrary, DropsAllItsKeysOfATableWhoseKindTheScenarioChanges) {
    const std::string fan =
        "[load]\nkind = \"polynomial\"\nbreakaway_torque_Nm = 0.5\nconstant_torque_Nm = 0.4\n"
        "square_torque_Nm = 2\nreference_speed_rpm = 2900\n";
    const sim::Scenario before = read(from_library());
    ASSERT_FALSE(std::holds_alternative<plant_models::PolynomialLoadParameters>(before.load))
        << "the first entry is no compressor; another kind must be taken here";
    const sim::Scenario after = read(from_library() + fan);
    ASSERT_TRUE(std::holds_alternative<plant_models::PolynomialLoadParameters>(after.load));
    EXPECT_EQ(values_of(after.load), (std::vector<double>{0.5, 0.4, 2.0, 2900.0}));
    EXPECT_EQ(values_of(after.motor), values_of(before.motor));
    // The library has a reference speed, too, but one that belongs to the kind that is gone.
    const std::string incomplete = sim_test::replaced(fan, "reference_speed_rpm = 2900\n", "");
    const std::string fault = fault_of(from_library() + incomplete);
    EXPECT_EQ(fault.substr(0, fault.find(';')),
              "cellar.toml:6: load.reference_speed_rpm: this key is missing");
}

TEST(LaidOverLibrary, DropsItsSupplyWhenTheScenarioGivesAnotherKind) {
    const sim::Scenario before = read(from_library());
    const std::string kind =
        std::visit([](const auto& source) { return std::string(source.kind); }, before.source);
    const std::string other =
        kind == "inverter"
            ? "kind = \"grid\"\nresistance_ohm = 0.1\ninductance_mH = 0.1\nphase_deg = 0\n"
            : "kind = \"inverter\"\npeak_current_limit_A = 60\n";
    const std::string text = from_library() + "[source]\n" + other;
    EXPECT_NE(fault_of(text).find("source.voltage_V: this key is missing"), std::string::npos)
        << fault_of(text);
    const sim::Scenario after =
        read(text + fmt::format("voltage_V = {}\nfrequency_Hz = {}\n", before.motor.rated_voltage_V,
                                before.motor.rated_frequency_Hz));
    EXPECT_NE(after.source.index(), before.source.index());
    expect_same_unit(after, before);
}

TEST(LaidOverLibrary, RefusesAnUnknownNameWithTheClosestOne) {
    const std::string name(sim::library_compressors().front().name);
    std::string slip = name;
    slip.insert(slip.size() / 2, "x");
    const std::string fault = fault_of(choice(slip, sim::library_supplies().front().name) + direct);
    EXPECT_EQ(fault.substr(0, 37 + slip.size()),
              "cellar.toml:2: library.compressor: \"" + slip + "\"")
        << fault;
    EXPECT_NE(fault.find("(did you mean \"" + name + "\"?)"), std::string::npos) << fault;

    const std::string supply(sim::library_supplies().back().name);
    const std::string other = fault_of(choice(name, supply + "_") + direct);
    EXPECT_EQ(other.substr(0, 32), "cellar.toml:3: library.supply: \"");
    EXPECT_NE(other.find("(did you mean \"" + supply + "\"?)"), std::string::npos) << other;
}

TEST(LaidOverLibrary, RefusesTheNameOfACompressorForASupplyAndAnythingThatIsNoName) {
    const std::string compressor(sim::library_compressors().front().name);
    for (const std::string& value : {"\"" + compressor + "\"", std::string("\"\""),
                                     std::string("3"), std::string("[\"a\"]")}) {
        const std::string fault = fault_of("[library]\nsupply = " + value + "\n" + direct);
        EXPECT_EQ(fault.substr(0, 31), "cellar.toml:2: library.supply: ") << fault;
        EXPECT_NE(fault.find(" is not accepted; give \""), std::string::npos) << fault;
    }
    EXPECT_EQ(fault_of("[library]\nmotor = \"x\"\n" + direct).substr(0, 36),
              "cellar.toml:2: library.motor: unknow");
}

TEST(LaidOverLibrary, ThatIsChosenForNothingNamesWhatIsMissingInTheScenario) {
    EXPECT_EQ(fault_of("[library]\n" + direct).substr(0, 45),
              "cellar.toml: motor: this table is missing; gi");
    const std::string fault =
        fault_of("[library]\ncompressor = \"" +
                 std::string(sim::library_compressors().front().name) + "\"\n" + direct);
    EXPECT_EQ(fault.substr(0, 46), "cellar.toml: source: this table is missing; gi");
}

TEST(FaultOfTheScenario, IsNamedByItsOwnFileAndLineThoughTheLibraryIsUnderIt) {
    struct Fault {
        std::string lines;
        std::string key;
        int line;
    };
    const std::vector<Fault> faults = {
        {"[motor]\nmain_resistance_ohm = -1\n", "motor.main_resistance_ohm", 7},
        {"[motor]\nmain_resistence_ohm = 1\n", "motor.main_resistence_ohm", 7},
        {"[load]\nkind = \"fan\"\n", "load.kind", 7},
        {"[source]\n\nphase_deg = 1000\n", "source.phase_deg", 8},
        {"[source]\nkind = 5\n", "source.kind", 7},
        {"[moter]\n", "moter", 6},
    };
    for (const Fault& fault : faults) {
        try {
            read(from_library() + fault.lines);
            ADD_FAILURE() << "was read: " << fault.lines;
        } catch (const sim::InputError& error) {
            EXPECT_EQ(error.file(), "cellar.toml") << error.what();
            EXPECT_EQ(error.key(), fault.key) << error.what();
            EXPECT_EQ(error.line(), fault.line) << error.what();
        }
    }
}

TEST(FaultOfTheScenario, ThatOnlyShowsBesideTheLibrarysTablesIsNotTheLibrarys) {
    // The scenario moves the motor off the supply's frequency; neither is wrong by itself.
    const sim::Scenario before = read(from_library());
    const double other_Hz = before.motor.rated_frequency_Hz > 55.0 ? 50.0 : 60.0;
    const std::string text =
        from_library() + fmt::format("[motor]\nrated_frequency_Hz = {}\n", other_Hz);
    try {
        read(text);
        ADD_FAILURE() << "was read";
    } catch (const sim::InputError& error) {
        EXPECT_EQ(error.file(), "cellar.toml") << error.what();
        EXPECT_GT(error.line(), 0) << error.what();
    }
}

// Two files by hand, so that the library's can be wrong.

struct TwoFiles {
    std::string library;
    std::string scenario;

    /// What reading the table `name` from both ends in.
    sim::InputError fault(std::string_view name) const {
        const toml::table below = toml::parse(library);
        const toml::table above = toml::parse(scenario);
        const std::string below_name = "library/unit.toml";
        const std::string above_name = "cellar.toml";
        const auto keys = sim::laid_over(sim::keys_in_file_order(below, below_name),
                                         sim::keys_in_file_order(above, above_name), "kind");
        sim::Scenario scratch;
        for (const sim::ScenarioTable& table : sim::scenario_tables(scratch)) {
            if (table.name == name) {
                try {
                    const bool only_library = scenario.empty();
                    sim::read_table(keys, {only_library ? below_name : above_name, 0}, table);
                } catch (const sim::InputError& error) {
                    return error;
                }
            }
        }
        return {"nowhere", 0, "", "was read"};
    }
};

const std::string disc =
    "kind = \"line_break\"\nultimate_trip_A = 20\ntrip_current_A = 90\nopens_C = 110\n"
    "closes_C = 70\n";

TEST(FaultOfTheLibrary, IsNamedByTheLibrarysFileAndLine) {
    const sim::InputError wrong = TwoFiles{disc + "trip_time_s = 0\n", ""}.fault("protector");
    EXPECT_EQ(wrong.file(), "library/unit.toml");
    EXPECT_EQ(wrong.line(), 6);
    const sim::InputError beside =
        TwoFiles{disc + "trip_time_s = 0\n", "opens_C = 115\n"}.fault("protector");
    EXPECT_EQ(beside.file(), "library/unit.toml");
    EXPECT_EQ(beside.line(), 6);
    const sim::InputError contradiction =
        TwoFiles{sim_test::replaced(disc, "closes_C = 70", "closes_C = 109"), ""}.fault(
            "protector");
    EXPECT_EQ(contradiction.file(), "library/unit.toml");
    EXPECT_EQ(contradiction.line(), 5);
}

TEST(FaultOfTheScenario, ThatContradictsALibraryKeyOfTheSameTableIsStillTheScenarios) {
    // The sentence begins with closes_C, which only the library gives; the slip is the scenario's.
    const sim::InputError error = TwoFiles{disc, "\nopens_C = 72\n"}.fault("protector");
    EXPECT_NE(std::string(error.what()).find("closes_C must be at least 5 K below opens_C"),
              std::string::npos)
        << error.what();
    EXPECT_EQ(error.file(), "cellar.toml") << error.what();
    EXPECT_EQ(error.line(), 2) << error.what();
}

TEST(LaidOver, KeepsTheScenariosOrderAndItsValueWhereBothGiveAKey) {
    const toml::table below = toml::parse("kind = \"a\"\none = 1\ntwo = 2\n");
    const toml::table above = toml::parse("two = 20\nthree = 30\n");
    const std::string below_name = "below";
    const std::string above_name = "above";
    const auto text = [](const std::vector<sim::GivenKey>& keys) {
        std::string all;
        for (const sim::GivenKey& key : keys) {
            all += std::string(key.file) + ":" + std::to_string(key.line) + ":" +
                   std::string(key.name) + " ";
        }
        return all;
    };
    const auto lower = sim::keys_in_file_order(below, below_name);
    const auto upper = sim::keys_in_file_order(above, above_name);
    EXPECT_EQ(text(sim::laid_over(lower, upper, "kind")),
              "above:1:two above:2:three below:1:kind below:2:one ");
    // A value that decides, and differs: the upper stands alone. A wrong type differs, too.
    EXPECT_EQ(text(sim::laid_over(lower, upper, "two")), "above:1:two above:2:three ");
    EXPECT_EQ(text(sim::laid_over({}, upper, "kind")), "above:1:two above:2:three ");
    EXPECT_EQ(text(sim::laid_over(lower, {}, "kind")), "below:1:kind below:2:one below:3:two ");
}

}  // namespace
