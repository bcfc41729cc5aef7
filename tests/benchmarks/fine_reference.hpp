// How far a run is from the exact solution of the same equations under the same commands.
//
// The commands that a run gave, tick by tick, are given again to a plant that takes steps of 2.5 us
// at most. Its error is of the order of 1e-10 of the result: the published checks measure fourth
// order down to there, events included, against a solver of other hands.
#pragma once

#include <vector>

#include "recorded_start.hpp"

namespace benchmarks {

struct FineReference {
    std::vector<double> time_s;  ///< every 5 us
    std::vector<double> line_current_A;
    std::vector<double> speed_rad_per_s;
};

FineReference fine_reference(const RecordedStart& start);

struct Error {
    double line_current = 0.0;     ///< RMS of the difference over RMS of the reference
    double time_to_speed_s = 0.0;  ///< absolute; of passing 90 % of synchronous speed
};

/// Of the bench's own run.
Error error_of(const RecordedStart& start, const FineReference& reference);

/// Of anybody's waveforms, compared at their own time points.
Error error_of(const std::vector<double>& time_s, const std::vector<double>& line_current_A,
               const std::vector<double>& speed_rad_per_s, const sim::Scenario& scenario,
               const FineReference& reference);

}  // namespace benchmarks
