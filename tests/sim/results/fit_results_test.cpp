// The page, the JSON and the TOML of a fit.
#include <gtest/gtest.h>
#include <toml++/toml.h>

#include <set>
#include <sstream>
#include <string>

#include "fitting/nameplate_text.hpp"
#include "sim/results/fit_json.hpp"
#include "sim/results/fit_text.hpp"
#include "sim/results/fit_toml.hpp"
#include "sim/results/wrapped_text.hpp"

namespace {

const sim::NameplateFit& sample_fit() {
    static const sim::NameplateFit fit = sim::fit_nameplate_text(
        sim_test::outdoor_unit(3, 17.6, 90, 40) + "compressor = \"scroll\"\ngas = \"R410A\"\n",
        "unit.toml");
    return fit;
}

TEST(FitJson, HasTheKeysOfItsSchema) {
    const auto json = fit_json(sample_fit());
    EXPECT_EQ(json["schema"], "runup.fit/1");
    const std::set<std::string> expected = {
        "schema", "title",     "nameplate", "printed",          "bands",      "bands_held", "motor",
        "load",   "start_aid", "open",      "displacement_cm3", "assumptions"};
    std::set<std::string> found;
    for (const auto& [key, value] : json.items()) {
        found.insert(key);
    }
    EXPECT_EQ(found, expected);
    EXPECT_EQ(json["printed"].size(), 2U);
    EXPECT_EQ(json["printed"][0]["name"], "locked_rotor_current_A");
    EXPECT_EQ(json["printed"][0]["asked"], 90.0);
    EXPECT_LT(std::abs(json["printed"][0]["difference_percent"].get<double>()), 0.5);
    EXPECT_TRUE(json["bands_held"].get<bool>());
    for (const auto& band : json["bands"]) {
        EXPECT_TRUE(band["inside"].get<bool>()) << band;
        EXPECT_FALSE(band["origin"].get<std::string>().empty());
    }
    EXPECT_TRUE(json["nameplate"]["voltage_V"].is_null());
    EXPECT_TRUE(json["nameplate"]["shaft_power_W"].is_null());
    EXPECT_GT(json["displacement_cm3"].get<double>(), 30.0);
    for (const auto& row : plant_models::MotorParameters::table()) {
        EXPECT_TRUE(json["motor"].contains(std::string(row.key))) << row.key;
    }
    EXPECT_EQ(json["load"]["kind"], "polynomial");
    EXPECT_EQ(json["open"][0]["of"], "motor");
}

TEST(FitToml, HoldsExactlyTheFittedMotorAndLoad) {
    const auto tables = toml::parse(fit_toml(sample_fit()));
    const auto& fit = sample_fit();
    for (const auto& row : plant_models::MotorParameters::table()) {
        const double expected = std::visit(
            [&fit](auto member) { return static_cast<double>(fit.fitted.motor.*member); },
            row.member);
        EXPECT_EQ(tables["motor"][row.key].value<double>(), expected) << row.key;
    }
    for (const auto& row : plant_models::PolynomialLoadParameters::table()) {
        const double expected = std::visit(
            [&fit](auto member) { return static_cast<double>(fit.load.*member); }, row.member);
        EXPECT_EQ(tables["load"][row.key].value<double>(), expected) << row.key;
    }
    EXPECT_EQ(tables["load"]["kind"].value<std::string>(), "polynomial");
    EXPECT_EQ(tables.size(), 2U);
}

TEST(FitToml, SaysWhereEachValueOfTheMotorComesFrom) {
    std::istringstream lines(fit_toml(sample_fit()));
    bool in_motor = false;
    int values = 0;
    for (std::string line; std::getline(lines, line);) {
        in_motor = line == "[motor]" || (in_motor && !line.empty());
        if (in_motor && line.find(" = ") != std::string::npos) {
            ++values;
            EXPECT_NE(line.find(" # "), std::string::npos) << line;
        }
    }
    EXPECT_EQ(values, static_cast<int>(plant_models::MotorParameters::table().size()));
}

TEST(FitToml, GivesAMotorWithoutARunCapacitorItsThermistor) {
    const std::string text =
        "[nameplate]\nvoltage_V = 115\nfrequency_Hz = 60\nrated_load_current_A = 2.6\n"
        "locked_rotor_current_A = 14\nrun_capacitor_uF = 0\npower_hp = 0.1667\n";
    const auto usual = sim::fit_nameplate_text(text, "unit.toml");
    const auto tables = toml::parse(fit_toml(usual));
    // Half of 115 V / 14 A.
    EXPECT_EQ(tables["start_aid"]["kind"].value<std::string>(), "thermistor");
    EXPECT_NEAR(*tables["start_aid"]["cold_resistance_ohm"].value<double>(), 4.107, 0.001);
    EXPECT_EQ(fit_json(usual)["start_aid"]["kind"], "thermistor");
    const auto printed = sim::fit_nameplate_text(text + "start_thermistor_ohm = 6\n", "unit.toml");
    EXPECT_EQ(fit_json(printed)["start_aid"]["cold_resistance_ohm"], 6.0);
    EXPECT_NE(printed.fitted.motor.aux_resistance_ohm, usual.fitted.motor.aux_resistance_ohm);
    EXPECT_TRUE(fit_json(sample_fit())["start_aid"].is_null());
}

TEST(FitPage, NamesEveryFigureEveryOpenValueAndEveryAssumption) {
    const std::string page = fit_text(sample_fit());
    for (const auto& hard : sample_fit().motor_class.hard) {
        EXPECT_NE(page.find(hard.words), std::string::npos) << hard.words;
    }
    for (const auto& soft : sample_fit().motor_class.soft) {
        EXPECT_NE(page.find(soft.words), std::string::npos) << soft.words;
    }
    for (const auto& range : sample_fit().open) {
        EXPECT_NE(page.find("\n  " + std::string(range.name) + " "), std::string::npos)
            << range.name;
    }
    EXPECT_NE(page.find("poles are not printed"), std::string::npos);
    EXPECT_EQ(page.find("OUTSIDE"), std::string::npos);
    EXPECT_EQ(page.find("-0.000"), std::string::npos);
    std::istringstream lines(page);
    for (std::string line; std::getline(lines, line);) {
        EXPECT_LE(line.size(), 100U) << line;
    }
}

TEST(FitPage, ShowsABandThatIsNotHeld) {
    sim::NameplateFit fit = sample_fit();
    fit.motor_class.soft.front().highest = 0.6;
    fit.bands_held = false;
    EXPECT_NE(fit_text(fit).find("OUTSIDE"), std::string::npos);
    EXPECT_NE(fit_text(fit).find("check the nameplate"), std::string::npos);
    EXPECT_NE(fit_verdict(fit).find("7 of 8 bands held"), std::string::npos);
    EXPECT_NE(fit_toml(fit).find("outside a band"), std::string::npos);
}

TEST(WrappedText, KeepsEveryWordAndNoLineIsTooLong) {
    std::string sentence;
    for (int k = 0; k < 60; ++k) {
        sentence += "word" + std::to_string(k) + " ";
    }
    const std::string text = sim::wrapped("- ", "  ", sentence);
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) {
        EXPECT_LE(line.size(), 100U);
        EXPECT_TRUE(line.size() > 60U || text.find(line + "\n") + line.size() + 1 == text.size());
        EXPECT_EQ(line.substr(0, 2), text.find(line) == 0 ? "- " : "  ");
    }
    EXPECT_NE(text.find("word59\n"), std::string::npos);
}

}  // namespace
