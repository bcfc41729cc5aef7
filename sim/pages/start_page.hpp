// The page of one start: what it came to, the waves above each other, and torque over speed.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sim/bench/start_result.hpp"
#include "sim/pages/page.hpp"
#include "sim/pages/waveform_recorder.hpp"

namespace sim {

struct RecordedStart {
    Scenario scenario;
    StartResult result;
    Waveforms waves;
};

/// Runs it with somebody who keeps the waves; `also` may be null, and sees every tick, too. So may
/// `listener`.
RecordedStart run_recorded_start(const Scenario& scenario, TickObserver* also = nullptr,
                                 PortListener* listener = nullptr);

/// `direct`: the same start without the limiter, for comparison.
Page start_page(const RecordedStart& start, const std::optional<RecordedStart>& direct);

/// Parts of that page, for other pages.
Plot waveform_plot(const RecordedStart& start, std::string title = "Waves of the start");
Plot torque_speed_plot(const RecordedStart& start);
struct NamedStart {
    std::string name;
    const RecordedStart* start;
};
/// Half-cycle RMS and speed of both; the second is dashed. The button shows the first one's start.
Plot comparison_plot(const NamedStart& one, const NamedStart& other);
Table figure_table(const std::vector<const StartResult*>& results);
Table controller_table(const StartResult& result);
/// How the waves were thinned, and what the readout therefore means.
Paragraph thinning_words(const Waveforms& waves);

}  // namespace sim
