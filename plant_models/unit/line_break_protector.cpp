#include "plant_models/unit/line_break_protector.hpp"

#include <cmath>

#include "plant_models/numeric/relaxation.hpp"

namespace plant_models {

namespace {
constexpr double ultimate_per_rated = 1.4;
constexpr double least_trip_ratio = 1.1;
/// A snap disc needs some difference to snap.
constexpr double least_difference_K = 5.0;
}  // namespace

const ParameterTable<LineBreakParameters>& LineBreakParameters::table() {
    using L = LineBreakParameters;
    static const ParameterTable<L> rows = {
        {"ultimate_trip_A",
         &L::ultimate_trip_A,
         0.1,
         500,
         {},
         "current that just opens it if it flows for ever, RMS"},
        {"trip_current_A",
         &L::trip_current_A,
         0.2,
         2000,
         {},
         "current of the short-time trip, mostly locked-rotor, RMS"},
        {"trip_time_s", &L::trip_time_s, 0.2, 120, 8.0, "short-time trip, from cold"},
        {"reference_C", &L::reference_C, 0, 80, 25.0,
         "temperature around the protector at which these figures hold"},
        {"opens_C", &L::opens_C, 60, 180, 107.0, "temperature of the disc that opens it"},
        {"closes_C", &L::closes_C, 30, 150, 71.0, "temperature of the disc that closes it again"},
    };
    return rows;
}

std::string_view LineBreakParameters::inconsistency() const {
    if (trip_current_A < least_trip_ratio * ultimate_trip_A) {
        return "trip_current_A must be at least 1.1 x ultimate_trip_A";
    }
    if (closes_C > opens_C - least_difference_K) {
        return "closes_C must be at least 5 K below opens_C";
    }
    if (reference_C > closes_C - least_difference_K) {
        return "reference_C must be at least 5 K below closes_C";
    }
    return {};
}

LineBreakProtector::LineBreakProtector(const LineBreakParameters& protector,
                                       const Conditions& conditions, double shell_C)
    : parameters_(protector) {
    const double ultimate = protector.ultimate_trip_A * protector.ultimate_trip_A;
    const double trip = protector.trip_current_A * protector.trip_current_A;
    time_constant_s_ = protector.trip_time_s / std::log(trip / (trip - ultimate));
    const double span_K = protector.opens_C - protector.reference_C;
    rise_K_per_A2_ = span_K / ultimate;
    initial_C_ = shell_C + span_K / (ultimate_per_rated * ultimate_per_rated) *
                               std::exp(-conditions.rest_s / time_constant_s_);
}

void LineBreakProtector::derivatives(const double* x, double* dxdt,
                                     const UnitSignals& signals) const {
    const double heated_C =
        signals.shell_C + rise_K_per_A2_ * signals.line_current_A * signals.line_current_A;
    dxdt[disc] = (heated_C - x[disc]) / time_constant_s_;
}

void LineBreakProtector::guards(const double* x, const UnitSignals& /*signals*/,
                                double* values) const {
    values[opens] = closed_ ? parameters_.opens_C - x[disc] : 1.0;
    values[closes] = closed_ ? 1.0 : x[disc] - parameters_.closes_C;
}

void LineBreakProtector::on_guard(std::size_t guard, double* /*x*/) {
    closed_ = guard == closes;
    trips_ += closed_ ? 0 : 1;
}

void LineBreakProtector::rest(double* x, const RestStep& step) {
    x[disc] =
        relaxed(x[disc], step.shell_begin_C, step.shell_end_C, time_constant_s_, step.duration_s);
    if (closed_ && x[disc] >= parameters_.opens_C) {
        on_guard(opens, x);
    } else if (!closed_ && x[disc] <= parameters_.closes_C) {
        on_guard(closes, x);
    }
}

}  // namespace plant_models
