#include "fine_reference.hpp"

#include <cmath>
#include <cstddef>
#include <limits>
#include <variant>

#include "sim/timeline/plant_run.hpp"
#include "waveform.hpp"

namespace benchmarks {

namespace {

constexpr sim::Instant fine_step{2'500};
constexpr sim::Instant sampling{5'000};

double threshold_rad_per_s(const sim::Scenario& scenario) {
    const double frequency_Hz =
        std::visit([](const auto& supply) { return supply.frequency_Hz; }, scenario.source);
    return 0.9 * scenario.motor.synchronous_speed_rad_per_s(frequency_Hz);
}

double time_to_speed_s(const std::vector<double>& time_s, const std::vector<double>& speed,
                       const sim::Scenario& scenario) {
    return published::first_rise_through({time_s, speed}, threshold_rad_per_s(scenario));
}

}  // namespace

FineReference fine_reference(const RecordedStart& start) {
    sim::PlantDescription plant = sim::describe_plant(start.scenario);
    plant.largest_step = fine_step;
    const auto run = sim::make_plant_run(plant);
    FineReference reference;
    const auto read = [&] {
        const plant_models::PlantOutputs& out = run->outputs();
        reference.time_s.push_back(out.time_s);
        reference.line_current_A.push_back(out.line_current_A);
        reference.speed_rad_per_s.push_back(out.speed_rad_per_s);
    };
    read();
    for (const sim::PowerCommands& commands : start.commands) {
        run->apply(commands);
        const sim::Instant end = run->now() + sim::tick_length;
        while (run->now() < end) {
            run->advance_to(run->now() + sampling);
            read();
        }
    }
    return reference;
}

Error error_of(const RecordedStart& start, const FineReference& reference) {
    // Every tick is one of the reference's samples.
    constexpr auto samples_per_tick = static_cast<std::size_t>(sim::tick_length / sampling);
    double difference = 0.0;
    double size = 0.0;
    for (std::size_t tick = 0; tick < start.line_current_A.size(); ++tick) {
        const double exact = reference.line_current_A.at(samples_per_tick * tick);
        difference += std::pow(start.line_current_A[tick] - exact, 2);
        size += exact * exact;
    }
    const double time =
        start.result.figures.time_to_speed_s.value_or(std::numeric_limits<double>::quiet_NaN());
    return {std::sqrt(difference / size),
            std::abs(time -
                     time_to_speed_s(reference.time_s, reference.speed_rad_per_s, start.scenario))};
}

Error error_of(const std::vector<double>& time_s, const std::vector<double>& line_current_A,
               const std::vector<double>& speed_rad_per_s, const sim::Scenario& scenario,
               const FineReference& reference) {
    const published::Waveform exact{reference.time_s, reference.line_current_A};
    double difference = 0.0;
    double size = 0.0;
    for (std::size_t k = 1; k < time_s.size() && time_s[k] < reference.time_s.back(); ++k) {
        const double weight = time_s[k] - time_s[k - 1];
        const double value = exact.at(time_s[k]);
        difference += weight * std::pow(line_current_A[k] - value, 2);
        size += weight * value * value;
    }
    return {std::sqrt(difference / size),
            std::abs(time_to_speed_s(time_s, speed_rad_per_s, scenario) -
                     time_to_speed_s(reference.time_s, reference.speed_rad_per_s, scenario))};
}

}  // namespace benchmarks
