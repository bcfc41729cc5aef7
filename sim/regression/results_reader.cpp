#include "sim/regression/results_reader.hpp"

#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <system_error>
#include <utility>

#include "sim/files/bounded_input.hpp"
#include "sim/files/input_error.hpp"
#include "sim/regression/results_schema.hpp"

namespace sim {

namespace {

/// The same words as for any other input that is not there.
const std::string& checked(const std::string& path) {
    if (path == "-") {
        throw InputError(input_name(path), 0, "", "results cannot be piped; give a file");
    }
    if (std::error_code ignored;
        !std::filesystem::is_regular_file(path, ignored) || ::access(path.c_str(), R_OK) != 0) {
        // Says why, as of any other input.
        read_bounded_input(path, 0);
    }
    return path;
}

/// A campaign that is writing at this moment has done so in a moment.
CampaignRow campaign_when_free(Database& database) {
    database.be_patient_for(std::chrono::seconds(10));
    return campaign_in(database);
}

/// Rows of one table by rising case; the four tables are read side by side.
class Rows {
  public:
    explicit Rows(Statement statement) : statement_(std::move(statement)) { go_on(); }

    /// Whether the present row is of case `id`, which it is asked with rising ids.
    bool is_of(std::int64_t id) const { return is_there_ && statement_.whole(0) == id; }
    const Statement& row() const { return statement_; }
    void go_on() { is_there_ = statement_.step(); }

  private:
    Statement statement_;
    bool is_there_ = false;
};

class Cases {
  public:
    Cases(Database& database, std::size_t figure_count, std::optional<std::int64_t> only)
        : figure_count_(figure_count),
          cases_(select(database, "SELECT * FROM cases", "id", "id", only)),
          inputs_(select(database, "SELECT * FROM inputs", "case_id", "case_id, name", only)),
          starts_(select(database, "SELECT * FROM starts", "case_id", "case_id, start", only)),
          broken_(select(database, "SELECT * FROM broken", "case_id", "case_id, start, requirement",
                         only)) {}

    std::optional<CaseRecord> next() {
        if (!cases_.step()) {
            return std::nullopt;
        }
        CaseRecord record;
        record.id = cases_.whole(0);
        record.place = {cases_.text(1), cases_.text(2), cases_.text(3),
                        cases_.text(4), cases_.text(5), cases_.text(6)};
        record.seed = static_cast<std::uint32_t>(cases_.whole(7));
        record.scenario_hash = cases_.text(8);
        record.settings_hash = cases_.text(9);
        for (; inputs_.is_of(record.id); inputs_.go_on()) {
            record.inputs.push_back({inputs_.row().text(1), inputs_.row().number(2).value_or(0.0)});
        }
        for (; starts_.is_of(record.id); starts_.go_on()) {
            record.starts.push_back(start());
        }
        return record;
    }

  private:
    static Statement select(Database& database, const std::string& what, const std::string& id,
                            const std::string& order, std::optional<std::int64_t> only) {
        Statement statement =
            database.prepare(what + (only ? " WHERE " + id + " = ?" : "") + " ORDER BY " + order);
        if (only) {
            statement.bind(0, *only);
        }
        return statement;
    }

    StartRow start() {
        const Statement& row = starts_.row();
        StartRow start;
        start.start = static_cast<int>(row.whole(1));
        start.outcome = row.text(2);
        start.cause = row.text(3);
        start.expected = row.text(4);
        start.passed = row.whole(5) != 0;
        for (std::size_t k = 0; k < figure_count_; ++k) {
            start.figures.push_back(row.number(6 + static_cast<int>(k)));
        }
        for (; broken_.is_of(row.whole(0)) && broken_.row().whole(1) == start.start;
             broken_.go_on()) {
            start.broken.push_back({broken_.row().text(2), broken_.row().text(3)});
        }
        return start;
    }

    std::size_t figure_count_;
    Statement cases_;
    Rows inputs_;
    Rows starts_;
    Rows broken_;
};

}  // namespace

ResultsReader::ResultsReader(const std::string& path)
    : database_(checked(path), Database::Access::read, path),
      campaign_(campaign_when_free(database_)),
      figures_(figures_in(database_)) {
    database_.run("PRAGMA query_only = ON");
}

std::optional<std::size_t> ResultsReader::place_of(std::string_view figure) const {
    const auto found = std::find(figures_.begin(), figures_.end(), figure);
    return found == figures_.end()
               ? std::nullopt
               : std::optional<std::size_t>(static_cast<std::size_t>(found - figures_.begin()));
}

std::int64_t ResultsReader::case_count() const {
    Statement count = database_.prepare("SELECT count(*) FROM cases");
    count.step();
    return count.whole(0);
}

void ResultsReader::each_case(const std::function<void(const CaseRecord&)>& visit) const {
    Cases cases(database_, figures_.size(), std::nullopt);
    while (const std::optional<CaseRecord> record = cases.next()) {
        visit(*record);
    }
}

std::optional<CaseRecord> ResultsReader::case_of(std::int64_t id) const {
    return Cases(database_, figures_.size(), id).next();
}

}  // namespace sim
