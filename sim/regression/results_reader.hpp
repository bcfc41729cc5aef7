// Reads a file of results, case by case, so that a large one needs no more memory than a small one.
//
// A file that is not finished can be read, too: campaign().finished tells.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "sim/regression/case_record.hpp"
#include "sim/regression/database.hpp"

namespace sim {

class ResultsReader {
  public:
    /// Throws InputError for a file that is missing, no file of results, or of another version.
    explicit ResultsReader(const std::string& path);

    const CampaignRow& campaign() const { return campaign_; }
    /// What StartRow::figures holds, in its order: the columns of this file, which may have been
    /// written by a program that knew other figures.
    const std::vector<std::string>& figures() const { return figures_; }
    /// Place in figures(); none if this file does not have it.
    std::optional<std::size_t> place_of(std::string_view figure) const;

    std::int64_t case_count() const;

    /// In the order of their ids.
    void each_case(const std::function<void(const CaseRecord&)>& visit) const;
    /// None if the file does not have it.
    std::optional<CaseRecord> case_of(std::int64_t id) const;

    /// For queries of one's own; the file cannot be changed through it.
    Database& database() const { return database_; }

  private:
    mutable Database database_;
    CampaignRow campaign_;
    std::vector<std::string> figures_;
};

}  // namespace sim
