// Writes cases into the tables of a results file; the two ends of the file's life are elsewhere
// (working_results.hpp, whole_results.hpp).
#pragma once

#include <cstddef>

#include "sim/regression/case_record.hpp"
#include "sim/regression/database.hpp"

namespace sim {

class ResultsWriter {
  public:
    /// The tables must be there (make_results_tables), with so many figures. Transactions are the
    /// caller's business.
    ResultsWriter(Database& database, std::size_t figure_count);

    /// Throws OutputError.
    void put(const CaseRecord& record);

  private:
    std::size_t figure_count_;
    Statement case_;
    Statement input_;
    Statement start_;
    Statement broken_;
};

}  // namespace sim
