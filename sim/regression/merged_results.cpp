#include "sim/regression/merged_results.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <map>
#include <system_error>

#include "sim/files/input_error.hpp"
#include "sim/regression/case_order.hpp"
#include "sim/regression/results_reader.hpp"
#include "sim/regression/results_schema.hpp"
#include "sim/regression/whole_results.hpp"

namespace sim {

namespace {

std::string shard_name(const CampaignRow& campaign) {
    return fmt::format("shard {}/{}", campaign.shard_index, campaign.shard_total);
}

/// What keeps `file` from being a shard of the same campaign as `first`.
std::string mismatch(const ResultsReader& file, const ResultsReader& first,
                     const std::string& first_path) {
    const CampaignRow& one = file.campaign();
    const CampaignRow& other = first.campaign();
    if (one.suite_text != other.suite_text) {
        return one.suite == other.suite
                   ? fmt::format("suite {} was another one here than in {}", one.suite, first_path)
                   : fmt::format("it holds suite {}, and {} suite {}", one.suite, first_path,
                                 other.suite);
    }
    if (one.build != other.build) {
        return fmt::format("build {} ran it, and build {} ran {}", one.build, other.build,
                           first_path);
    }
    if (one.shard_total != other.shard_total) {
        return fmt::format("it is {}, and {} is {}", shard_name(one), first_path,
                           shard_name(other));
    }
    return "";
}

/// The shard's own cases, and all of them.
void check_cases(const std::string& path, const ResultsReader& reader) {
    const CampaignRow& campaign = reader.campaign();
    const Shard shard{campaign.shard_index, campaign.shard_total};
    const std::int64_t expected = shard.end(campaign.cases) - shard.begin(campaign.cases);
    if (!campaign.finished || reader.case_count() != expected) {
        throw InputError(path, 0, "",
                         fmt::format("{} has {} of its {} cases; finish it with runup regress "
                                     "--shard {}/{} --resume",
                                     shard_name(campaign), reader.case_count(), expected,
                                     campaign.shard_index, campaign.shard_total));
    }
}

std::string missing_shards(const std::map<int, std::string>& found, int total) {
    std::string missing;
    for (int index = 1; index <= total; ++index) {
        if (found.count(index) == 0) {
            missing += fmt::format("{}{}/{}", missing.empty() ? "" : ", ", index, total);
        }
    }
    return missing;
}

/// Throws InputError, or returns the campaign of the whole.
CampaignRow check_shards(const std::vector<std::string>& paths) {
    const ResultsReader first(paths.front());
    std::map<int, std::string> found;
    for (const std::string& path : paths) {
        const ResultsReader reader(path);
        const std::string fault = mismatch(reader, first, paths.front());
        if (!fault.empty()) {
            throw InputError(path, 0, "", fault + "; give shards of one campaign");
        }
        const CampaignRow& campaign = reader.campaign();
        const auto [known, is_new] = found.emplace(campaign.shard_index, path);
        if (!is_new) {
            throw InputError(path, 0, "",
                             fmt::format("{} is in {}, too; give each shard once",
                                         shard_name(campaign), known->second));
        }
        check_cases(path, reader);
    }
    CampaignRow whole = first.campaign();
    const std::string missing = missing_shards(found, whole.shard_total);
    if (!missing.empty()) {
        throw InputError(
            paths.front(), 0, "",
            "of its campaign these shards are missing: " + missing + "; give all of them");
    }
    whole.shard_index = 1;
    whole.shard_total = 1;
    return whole;
}

/// The rows of all shards in a database that has no name and goes with the connection.
void pool(Database& database, const std::vector<std::string>& paths, const CampaignRow& campaign,
          const std::vector<std::string>& figures) {
    attach(database, "", "pool");
    make_results_tables(database, "pool", campaign, figures);
    for (const std::string& path : paths) {
        attach(database, path, "shard");
        for (const char* table : {"cases", "inputs", "starts", "broken"}) {
            database.run(fmt::format("INSERT INTO pool.{0} SELECT * FROM shard.{0}", table));
        }
        database.run("DETACH shard");
    }
}

}  // namespace

CampaignRow merge_results(const std::vector<std::string>& shards, const std::string& target) {
    CampaignRow whole = check_shards(shards);
    std::error_code ignored;
    if (std::filesystem::exists(target, ignored)) {
        const ResultsReader no_other_kind_of_file_is_written_over(target);
    }
    const std::vector<std::string> figures = ResultsReader(shards.front()).figures();
    write_whole_results(target, whole, figures, "pool",
                        [&](Database& database) { pool(database, shards, whole, figures); });
    return whole;
}

}  // namespace sim
