#include "sim/regression/working_results.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <filesystem>
#include <system_error>

#include "sim/files/input_error.hpp"
#include "sim/regression/results_schema.hpp"
#include "sim/regression/whole_results.hpp"

namespace sim {

namespace {

/// What a kill may cost, whichever comes first.
constexpr int most_unkept = 64;
constexpr std::chrono::seconds longest_unkept{1};
/// Somebody's query holds up the next write.
constexpr std::chrono::seconds longest_reader{60};

std::string difference(const CampaignRow& there, const CampaignRow& wanted) {
    if (there.suite_text != wanted.suite_text) {
        return there.suite == wanted.suite
                   ? fmt::format("it holds suite {} as it was before a change", there.suite)
                   : fmt::format("it holds suite {}, not {}", there.suite, wanted.suite);
    }
    if (there.build != wanted.build) {
        return fmt::format("it holds results of build {}, and this is build {}", there.build,
                           wanted.build);
    }
    if (there.shard_index != wanted.shard_index || there.shard_total != wanted.shard_total) {
        return fmt::format("it holds shard {}/{}, not {}/{}", there.shard_index, there.shard_total,
                           wanted.shard_index, wanted.shard_total);
    }
    return "";
}

bool holds_nothing(const std::string& path) {
    std::error_code error;
    return !std::filesystem::exists(path, error) ||
           (std::filesystem::is_regular_file(path, error) &&
            std::filesystem::file_size(path, error) == 0 &&
            !std::filesystem::exists(path + "-journal", error));
}

}  // namespace

WorkingResults::WorkingResults(const std::string& path, const CampaignRow& campaign,
                               const std::vector<std::string>& figures, ExistingFile existing)
    : path_(path), campaign_(campaign), figures_(figures) {
    if (!holds_nothing(path_)) {
        take_over(existing);
    }
    if (!database_) {
        database_.emplace(path_, Database::Access::change);
    }
    // Whoever else is writing it will not be done in a moment.
    database_->be_patient_for(std::chrono::milliseconds(0));
    begin_transaction();
    database_->be_patient_for(longest_reader);
    if (!database_->has_table("campaign")) {
        make_results_tables(*database_, "main", campaign_, figures_);
    } else {
        database_->run("UPDATE campaign SET finished = 0");
    }
    writer_.emplace(*database_, figures_.size());
    keep();
}

void WorkingResults::take_over(ExistingFile existing) {
    Database there(path_, Database::Access::read);
    if (there.pragma("page_count") == 0) {
        return;  // a campaign that was killed before its first row was kept
    }
    const CampaignRow campaign = campaign_in(there);
    const std::string other = difference(campaign, campaign_);
    if (existing == ExistingFile::go_on) {
        if (!other.empty()) {
            throw InputError(path_, 0, "--resume", other + "; give another --results FILE");
        }
        Statement rows = there.prepare(
            "SELECT case_id, min(passed) FROM starts GROUP BY case_id ORDER BY case_id");
        while (rows.step()) {
            known_.push_back({rows.whole(0), rows.whole(1) != 0});
        }
        return;
    }
    if (existing == ExistingFile::refuse && !other.empty()) {
        throw InputError(path_, 0, "--results",
                         other + "; give another --results FILE, or --overwrite");
    }
    if (existing == ExistingFile::refuse && !campaign.finished) {
        throw InputError(path_, 0, "--results",
                         "it holds the beginning of this campaign; go on with --resume, or begin "
                         "anew with --overwrite");
    }
    remove_existing();
}

/// The journal second: without its database it means nothing.
void WorkingResults::remove_existing() const {
    ::unlink(path_.c_str());
    ::unlink((path_ + "-journal").c_str());
}

/// From here to keep() nobody else can write; readers are not held up.
void WorkingResults::begin_transaction() {
    database_->run("BEGIN IMMEDIATE");
    unkept_ = 0;
    kept_at_ = std::chrono::steady_clock::now();
}

void WorkingResults::put(const CaseRecord& record) {
    writer_->put(record);
    ++unkept_;
    if (unkept_ >= most_unkept || std::chrono::steady_clock::now() - kept_at_ > longest_unkept) {
        keep();
    }
}

void WorkingResults::keep() {
    database_->run("COMMIT");
    begin_transaction();
}

void WorkingResults::finish() {
    database_->run("COMMIT");
    writer_.reset();
    database_.reset();
    CampaignRow whole = campaign_;
    whole.finished = true;
    write_whole_results(path_, whole, figures_, "working",
                        [this](Database& database) { attach(database, path_, "working"); });
}

}  // namespace sim
