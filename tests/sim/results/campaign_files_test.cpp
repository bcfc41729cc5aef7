// Campaigns for other programs: the XML of continuous integration, and CSV.
#include <gtest/gtest.h>

#include <cstdlib>
#include <string>
#include <vector>

#include "files/temporary_folder.hpp"
#include "reporting/sample_campaign.hpp"
#include "sim/results/campaign_csv.hpp"
#include "sim/results/junit_xml.hpp"
#include "sim/results/xml_text.hpp"

namespace {

using sim_test::add_case;
using sim_test::failed_start;
using sim_test::passed_start;

constexpr const char* nasty = "a<b>&\"'\x01\xff]]>\r\n\t\xEF\xBF\xBE--";

std::size_t count(const std::string& text, const std::string& what) {
    std::size_t found = 0;
    for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + 1)) {
        ++found;
    }
    return found;
}

/// The exit code of xmllint (Debian package libxml2-utils), an XML reader that is not ours.
int schema_verdict(const std::string& xml) {
    const sim_test::TemporaryFolder folder;
    const std::string command = "xmllint --nonet --noout --schema " RUNUP_SOURCE_FOLDER
                                "/tests/sim/results/junit_layout.xsd " +
                                folder.put("campaign.xml", xml) + " 2>" + (folder / "errors");
    return std::system(command.c_str());
}

/// What an XML reader makes of the message of the only failure.
std::string message_read_back(const std::string& xml) {
    const sim_test::TemporaryFolder folder;
    const std::string command = "xmllint --nonet --xpath 'string(//failure/@message)' " +
                                folder.put("campaign.xml", xml) + " >" + (folder / "message");
    EXPECT_EQ(std::system(command.c_str()), 0);
    return folder.get("message");
}

sim::CampaignResults mixed_campaign() {
    sim::CampaignResults results = sim_test::campaign();
    add_case(results, passed_start());
    add_case(results, failed_start("limit:hottest_winding_C", "131 C is above 120 C"));
    add_case(results, failed_start("outcome", "crashed instead of running", "crashed"),
             {"second", "dairy", "", "", "capacitor_open", ""});
    sim::CaseRecord& series =
        add_case(results, passed_start(), {"second", "dairy", "", "", "", ""});
    series.starts.push_back(failed_start("monitor:standing_rotor"));
    series.starts.back().start = 2;
    return results;
}

TEST(JunitXml, IsOfTheLayoutThatServersRead) {
    EXPECT_EQ(schema_verdict(sim::junit_xml(mixed_campaign())), 0);
    EXPECT_EQ(schema_verdict(sim::junit_xml(sim_test::campaign())), 0);
    EXPECT_NE(schema_verdict("<testsuites/>"), 0);
}

TEST(JunitXml, CountsEveryCaseOnceAsPassedFailedOrInError) {
    const std::string xml = sim::junit_xml(mixed_campaign());
    EXPECT_NE(xml.find("<testsuites name=\"smoke\" tests=\"4\" failures=\"2\" errors=\"1\">"),
              std::string::npos);
    EXPECT_NE(xml.find("<testsuite name=\"matrix\" tests=\"2\" failures=\"1\" errors=\"0\""),
              std::string::npos);
    EXPECT_NE(xml.find("<testsuite name=\"second\" tests=\"2\" failures=\"1\" errors=\"1\""),
              std::string::npos);
    EXPECT_EQ(count(xml, "<testcase "), 4U);
    EXPECT_EQ(count(xml, "<failure "), 2U);
    EXPECT_EQ(count(xml, "<error type=\"crashed\""), 1U);
}

TEST(JunitXml, SkipsWhatOnlyCountsAgainstARateAndJudgesTheRateByItself) {
    sim::CampaignResults results = sim_test::campaign();
    add_case(results, passed_start());
    add_case(results, failed_start("outcome"));
    add_case(results, failed_start("monitor:standing_rotor"));
    results.rates = {{"matrix", 60.0}};
    const std::string met = sim::junit_xml(results);
    EXPECT_EQ(schema_verdict(met), 0);
    EXPECT_NE(met.find("tests=\"4\" failures=\"1\" errors=\"0\" skipped=\"1\""), std::string::npos);
    EXPECT_NE(met.find("name=\"rate\"/>"), std::string::npos);
    results.rates = {{"matrix", 90.0}};
    const std::string missed = sim::junit_xml(results);
    EXPECT_EQ(schema_verdict(missed), 0);
    EXPECT_NE(missed.find("tests=\"4\" failures=\"2\" errors=\"0\" skipped=\"1\""),
              std::string::npos);
    EXPECT_NE(missed.find("66.67 % of 3 starts ended as accepted; 90 % are required"),
              std::string::npos);
    results.campaign.shard_total = 5;
    const std::string shard = sim::junit_xml(results);
    EXPECT_EQ(schema_verdict(shard), 0);
    EXPECT_NE(shard.find("tests=\"3\" failures=\"1\" errors=\"0\" skipped=\"1\""),
              std::string::npos);
}

TEST(JunitXml, SaysWhyAndHowToRunItAgain) {
    const std::string xml = sim::junit_xml(mixed_campaign());
    EXPECT_NE(xml.find("message=\"limit:hottest_winding_C: 131 C is above 120 C\""),
              std::string::npos);
    EXPECT_NE(xml.find("runup start --case smoke#1"), std::string::npos);
    EXPECT_NE(xml.find("message=\"start 2: monitor:standing_rotor: words\""), std::string::npos);
}

TEST(JunitXml, HoldsAnyTextAndGivesItBack) {
    sim::CampaignResults results = sim_test::campaign();
    results.campaign.suite = nasty;
    results.campaign.build = nasty;
    sim::CaseRecord& one =
        add_case(results, failed_start(nasty, nasty), {nasty, nasty, nasty, nasty, nasty, nasty});
    one.inputs = {{nasty, 1.5}};
    const std::string xml = sim::junit_xml(results);
    EXPECT_EQ(schema_verdict(xml), 0);
    const std::string shown = "a<b>&\"'\\x01\\xff]]>\r\n\t\\xef\\xbf\\xbe--";
    EXPECT_EQ(message_read_back(xml), shown + ": " + shown + "\n");
}

TEST(XmlText, LeavesPlainTextAlone) {
    EXPECT_EQ(sim::xml_text("cold room, 5 µF – 20 °C"), "cold room, 5 µF – 20 °C");
    EXPECT_EQ(sim::xml_text(""), "");
    EXPECT_EQ(sim::xml_text("a&b"), "a&amp;b");
}

/// Rows and fields by the grammar of RFC 4180, written without a look at the writer.
std::vector<std::vector<std::string>> parsed(const std::string& text) {
    std::vector<std::vector<std::string>> rows = {{""}};
    bool in_quotes = false;
    for (std::size_t k = 0; k < text.size(); ++k) {
        const char letter = text[k];
        if (in_quotes) {
            if (letter == '"' && k + 1 < text.size() && text[k + 1] == '"') {
                rows.back().back() += '"';
                ++k;
            } else if (letter == '"') {
                in_quotes = false;
            } else {
                rows.back().back() += letter;
            }
        } else if (letter == '"') {
            in_quotes = true;
        } else if (letter == ',') {
            rows.back().emplace_back();
        } else if (letter == '\r' && text[k + 1] == '\n') {
            rows.push_back({""});
            ++k;
        } else {
            EXPECT_NE(letter, '\n');
            rows.back().back() += letter;
        }
    }
    EXPECT_EQ(rows.back(), std::vector<std::string>{""});
    rows.pop_back();
    return rows;
}

TEST(CampaignCsv, HasARowForEveryStartAndOneForTheNames) {
    const auto rows = parsed(sim::campaign_csv(mixed_campaign()));
    ASSERT_EQ(rows.size(), 6U);
    for (const auto& row : rows) {
        EXPECT_EQ(row.size(), rows.front().size());
    }
    EXPECT_EQ(rows[0][0], "case");
    EXPECT_EQ(rows[5][0], "3");
    EXPECT_EQ(rows[5][1], "2");
}

TEST(CampaignCsv, GivesEveryTextAndEveryBitBack) {
    sim::CampaignResults results = sim_test::campaign();
    sim::CaseRecord& one = add_case(results, failed_start("outcome"),
                                    {"b,c", "\"quoted\"", "two\r\nlines", "", "", ""});
    one.inputs = {{"line,V", 0.1 + 0.2}};
    one.starts[0].figures[0] = 1.0 / 3.0;
    const auto rows = parsed(sim::campaign_csv(results));
    const auto value = [&rows](const std::string& name) {
        for (std::size_t k = 0; k < rows[0].size(); ++k) {
            if (rows[0][k] == name) {
                return rows[1][k];
            }
        }
        return std::string("no such column");
    };
    EXPECT_EQ(value("block"), "b,c");
    EXPECT_EQ(value("compressor"), "\"quoted\"");
    EXPECT_EQ(value("supply"), "two\r\nlines");
    EXPECT_EQ(std::stod(value("drawn:line,V")), 0.1 + 0.2);
    EXPECT_EQ(std::stod(value("line_current_inrush_100ms_rms_A")), 1.0 / 3.0);
    EXPECT_EQ(value("time_to_speed_s"), "");
    EXPECT_EQ(value("broken"), "outcome");
}

}  // namespace
