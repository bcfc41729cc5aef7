// A results file while its campaign runs: cases are added as they end, and what was added survives
// whatever becomes of this process. finish() puts the whole file in its place.
#pragma once

#include <chrono>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "sim/regression/database.hpp"
#include "sim/regression/results_writer.hpp"

namespace sim {

/// What may become of a file that is there already.
enum class ExistingFile {
    refuse,     ///< unless it is the same campaign, finished: that one may be run again
    go_on,      ///< with the same campaign, finished or not; begin it if there is none
    overwrite,  ///< any results, but no other kind of file
};

class WorkingResults {
  public:
    /// `campaign` with finished = false. Throws InputError for a file that may not be written over
    /// or gone on with, saying why; OutputError for one that cannot be written.
    WorkingResults(const std::string& path, const CampaignRow& campaign,
                   const std::vector<std::string>& figures, ExistingFile existing);

    /// What the file held already.
    struct Known {
        std::int64_t id = 0;
        bool passed = false;
    };
    const std::vector<Known>& known() const { return known_; }

    /// Throws OutputError.
    void put(const CaseRecord& record);
    /// What has been put until now is kept from now on.
    void keep();
    /// Closes, and writes the whole file in its place.
    void finish();

  private:
    void take_over(ExistingFile existing);
    void remove_existing() const;
    void begin_transaction();

    std::string path_;
    CampaignRow campaign_;
    std::vector<std::string> figures_;
    std::vector<Known> known_;
    std::optional<Database> database_;
    std::optional<ResultsWriter> writer_;
    int unkept_ = 0;
    std::chrono::steady_clock::time_point kept_at_;
};

}  // namespace sim
