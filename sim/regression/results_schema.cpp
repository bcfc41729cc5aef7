#include "sim/regression/results_schema.hpp"

#include <fmt/format.h>

#include "sim/suites/figure_list.hpp"

namespace sim {

namespace {

/// Of the file format, in its header: "run" and the version of its first edition.
constexpr std::int64_t application_id = 0x72756e01;

constexpr int fixed_start_columns = 6;

std::string tables(const std::string& where, const std::vector<std::string>& figures) {
    std::string figure_columns;
    for (const std::string& figure : figures) {
        figure_columns += fmt::format("  {} REAL,\n", figure);
    }
    return fmt::format(
        R"(CREATE TABLE {0}.campaign (
  schema INTEGER NOT NULL,
  suite TEXT NOT NULL, title TEXT NOT NULL,
  suite_text TEXT NOT NULL,
  suite_hash TEXT NOT NULL,
  build TEXT NOT NULL,
  cases INTEGER NOT NULL,
  shard_index INTEGER NOT NULL, shard_total INTEGER NOT NULL,
  finished INTEGER NOT NULL
);
CREATE TABLE {0}.cases (
  id INTEGER PRIMARY KEY, block TEXT, compressor TEXT, supply TEXT, condition TEXT, fault TEXT,
  setting TEXT, seed INTEGER, scenario_hash TEXT, settings_hash TEXT
);
CREATE TABLE {0}.inputs (
  case_id INTEGER, name TEXT, value REAL,
  PRIMARY KEY (case_id, name)
) WITHOUT ROWID;
CREATE TABLE {0}.starts (
  case_id INTEGER, start INTEGER,
  outcome TEXT, cause TEXT,
  expected TEXT, passed INTEGER,
{1}  PRIMARY KEY (case_id, start)
) WITHOUT ROWID;
CREATE TABLE {0}.broken (
  case_id INTEGER, start INTEGER, requirement TEXT, words TEXT,
  PRIMARY KEY (case_id, start, requirement)
) WITHOUT ROWID;
)",
        where, figure_columns);
}

void refuse_others(Database& database) {
    if (database.pragma("application_id") != application_id || !database.has_table("campaign")) {
        database.fail("this is no file of results; give one that runup regress wrote");
    }
}

}  // namespace

std::vector<std::string> recorded_figures() {
    std::vector<std::string> names;
    for (const Figure& figure : figure_list()) {
        names.emplace_back(figure.name);
    }
    return names;
}

void make_results_tables(Database& database, const std::string& where, const CampaignRow& campaign,
                         const std::vector<std::string>& figures) {
    database.run(fmt::format("PRAGMA {}.application_id = {}", where, application_id));
    database.run(tables(where, figures));
    Statement row = database.prepare(
        fmt::format("INSERT INTO {}.campaign VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)", where));
    row.bind(0, std::int64_t{campaign.schema});
    row.bind(1, campaign.suite);
    row.bind(2, campaign.title);
    row.bind(3, campaign.suite_text);
    row.bind(4, campaign.suite_hash);
    row.bind(5, campaign.build);
    row.bind(6, campaign.cases);
    row.bind(7, std::int64_t{campaign.shard_index});
    row.bind(8, std::int64_t{campaign.shard_total});
    row.bind(9, std::int64_t{campaign.finished ? 1 : 0});
    row.run();
}

CampaignRow campaign_in(Database& database) {
    refuse_others(database);
    Statement version = database.prepare("SELECT schema FROM campaign");
    const bool is_there = version.step();
    if (!is_there || version.whole(0) != results_schema_version) {
        database.fail(is_there
                          ? fmt::format("its results are of version {}; give one of version {}",
                                        version.whole(0), results_schema_version)
                          : std::string("its campaign is missing; run it again"));
    }
    Statement row = database.prepare(
        "SELECT suite, title, suite_text, suite_hash, build, cases, shard_index, shard_total, "
        "finished FROM campaign");
    row.step();
    CampaignRow campaign;
    campaign.schema = results_schema_version;
    campaign.suite = row.text(0);
    campaign.title = row.text(1);
    campaign.suite_text = row.text(2);
    campaign.suite_hash = row.text(3);
    campaign.build = row.text(4);
    campaign.cases = row.whole(5);
    campaign.shard_index = static_cast<int>(row.whole(6));
    campaign.shard_total = static_cast<int>(row.whole(7));
    campaign.finished = row.whole(8) != 0;
    return campaign;
}

std::vector<std::string> figures_in(Database& database) {
    refuse_others(database);
    const Statement starts = database.prepare("SELECT * FROM starts");
    std::vector<std::string> names;
    for (int k = fixed_start_columns; k < starts.columns(); ++k) {
        names.push_back(starts.column_name(k));
    }
    return names;
}

}  // namespace sim
