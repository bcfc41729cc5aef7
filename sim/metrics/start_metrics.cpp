#include "sim/metrics/start_metrics.hpp"

#include <algorithm>
#include <cmath>

#include "plant_models/numeric/units.hpp"
#include "sim/metrics/hermite.hpp"

namespace sim {

namespace {
constexpr double up_to_speed_share = 0.90;
constexpr double tick_s = 1e-9 * static_cast<double>(tick_length.count());
}  // namespace

StartMetrics::StartMetrics(double synchronous_speed_rad_per_s, double supply_frequency_Hz,
                           bool has_limiter)
    : threshold_rad_per_s_(up_to_speed_share * synchronous_speed_rad_per_s),
      has_limiter_(has_limiter),
      current_rms_(supply_frequency_Hz, tick_s),
      voltage_rms_(supply_frequency_Hz, tick_s),
      inrush_(tick_s) {}

void StartMetrics::follow_peak(const plant_models::PlantOutputs& plant) {
    const double magnitude = std::abs(plant.line_current_A);
    if (magnitude > figures_.line_current_peak_A) {
        figures_.line_current_peak_A = magnitude;
        figures_.line_current_peak_at_s = plant.time_s;
    }
    // The crest lies between two ticks: look for it only where it could be the highest.
    const bool turns = last_.line_current_rate_A_per_s * plant.line_current_rate_A_per_s < 0.0;
    if (turns &&
        std::max(magnitude, std::abs(last_.line_current_A)) > 0.99 * figures_.line_current_peak_A) {
        const HermiteSpan span{last_.line_current_A, last_.line_current_rate_A_per_s,
                               plant.line_current_A, plant.line_current_rate_A_per_s, tick_s};
        const double u = span.extremum();
        const double crest = std::abs(span.value(u));
        if (crest > figures_.line_current_peak_A) {
            figures_.line_current_peak_A = crest;
            figures_.line_current_peak_at_s = last_.time_s + u * tick_s;
        }
    }
}

void StartMetrics::follow_speed(const plant_models::PlantOutputs& plant) {
    if (!figures_.time_to_speed_s && plant.speed_rad_per_s >= threshold_rad_per_s_) {
        double at_s = plant.time_s;
        if (!first_ && last_.speed_rad_per_s < threshold_rad_per_s_) {
            const HermiteSpan span{last_.speed_rad_per_s, last_.acceleration_rad_per_s2,
                                   plant.speed_rad_per_s, plant.acceleration_rad_per_s2, tick_s};
            at_s = last_.time_s + tick_s * span.crossing(threshold_rad_per_s_);
        }
        figures_.time_to_speed_s = at_s;
    }
    const double speed_rpm = plant_models::rad_per_s_to_rpm(plant.speed_rad_per_s);
    figures_.final_speed_rpm = speed_rpm;
    figures_.highest_speed_rpm = std::max(figures_.highest_speed_rpm, speed_rpm);
    figures_.backwards_at_end_s =
        plant.speed_rad_per_s < 0.0 ? figures_.backwards_at_end_s + tick_s : 0.0;
}

void StartMetrics::follow_rms(const plant_models::PlantOutputs& plant) {
    const auto raise = [](std::optional<double>& highest, double value) {
        highest = std::max(highest.value_or(value), value);
    };
    const auto lower = [](std::optional<double>& lowest, double value) {
        lowest = std::min(lowest.value_or(value), value);
    };
    if (current_rms_.add(plant.line_current_A, plant.supply_frequency_Hz)) {
        raise(figures_.line_current_half_cycle_rms_max_A, current_rms_.half_cycle_rms());
        if (current_rms_.half_cycles() >= 2) {
            raise(figures_.line_current_one_cycle_rms_max_A, current_rms_.one_cycle_rms());
        }
    }
    if (voltage_rms_.add(plant.line_voltage_V, plant.supply_frequency_Hz)) {
        lower(figures_.line_voltage_half_cycle_rms_min_V, voltage_rms_.half_cycle_rms());
        if (voltage_rms_.half_cycles() >= 2) {
            lower(figures_.line_voltage_one_cycle_rms_min_V, voltage_rms_.one_cycle_rms());
        }
    }
}

void StartMetrics::observe(const TickView& view) {
    const plant_models::PlantOutputs& plant = view.plant;
    if (!first_) {
        follow_peak(plant);
    }
    follow_speed(plant);
    follow_rms(plant);
    inrush_.add(plant.line_current_A);
    if (has_limiter_ && plant.bypass_closed && !figures_.handover_s) {
        figures_.handover_s = plant.time_s;
    }
    if (has_limiter_ && plant.start_capacitor_in) {
        figures_.start_capacitor_in_s += tick_s;
    }
    last_ = {plant.time_s, plant.line_current_A, plant.line_current_rate_A_per_s,
             plant.speed_rad_per_s, plant.acceleration_rad_per_s2};
    first_ = false;
}

StartFigures StartMetrics::figures() const {
    StartFigures figures = figures_;
    figures.line_current_inrush_100ms_rms_A = inrush_.largest_rms_A();
    return figures;
}

}  // namespace sim
