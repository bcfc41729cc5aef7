// The page of a series of starts: how current, ladder and time go from start to start, the table of
// all starts, and the first start beside the last.
#pragma once

#include <optional>

#include "sim/bench/repeat_run.hpp"
#include "sim/pages/page.hpp"
#include "sim/pages/start_page.hpp"

namespace sim {

/// Keeps the waves of the first and the last start of a series (see Watchers).
class FirstAndLast {
  public:
    explicit FirstAndLast(int starts) : starts_(starts) {}

    TickObserver* watcher(int start_number, const Scenario& now);

    struct Recorded {
        RecordedStart first;
        std::optional<RecordedStart> last;  ///< none in a series of one, or one that was cut short
    };
    /// Once, when the series is over.
    Recorded finish(const RepeatResult& result);

  private:
    struct Watched {
        Scenario scenario;
        WaveformRecorder recorder;
    };
    int starts_;
    std::optional<Watched> first_;
    std::optional<Watched> last_;
};

Page repeat_page(const RepeatResult& result, const FirstAndLast::Recorded& recorded);

/// Parts of that page, for other pages.
Plot learning_plot(const RepeatResult& result);
Table starts_table(const RepeatResult& result);

}  // namespace sim
