#include "plant_models/unit/protection_module.hpp"

#include <algorithm>
#include <cmath>

#include "plant_models/numeric/relaxation.hpp"

namespace plant_models {

namespace {
/// The ripple of a mean over 20 ms must not reach from one threshold to the other.
constexpr double least_current_ratio = 1.2;
}  // namespace

const ParameterTable<ProtectionModuleParameters>& ProtectionModuleParameters::table() {
    using P = ProtectionModuleParameters;
    static const ParameterTable<P> rows = {
        {"expected_start_current_A",
         &P::expected_start_current_A,
         0.5,
         2000,
         {},
         "RMS line current that a start must reach to count as one"},
        {"running_current_A",
         &P::running_current_A,
         0.1,
         1000,
         {},
         "RMS line current to which a start must have fallen"},
        {"inrush_window_s", &P::inrush_window_s, 0.05, 60, 2.0,
         "time from the call within which the start current must show"},
        {"start_time_s", &P::start_time_s, 0.1, 30, 1.0,
         "time from the start current within which it must have fallen"},
        {"lockout_s", &P::lockout_s, 0.1, 3600, 300.0, "rest after a failed start"},
        {"tries", &P::tries, 1, 100, 4.0, "failed starts in a row until it gives up"},
        {"current_lag_ms", &P::current_lag_ms, 5, 500, 20.0,
         "time constant of its mean of the squared current"},
    };
    return rows;
}

std::string_view ProtectionModuleParameters::inconsistency() const {
    if (expected_start_current_A < least_current_ratio * running_current_A) {
        return "expected_start_current_A must be at least 1.2 x running_current_A";
    }
    return {};
}

ProtectionModule::ProtectionModule(const ProtectionModuleParameters& module)
    : parameters_(module), lag_s_(1e-3 * module.current_lag_ms) {}

void ProtectionModule::derivatives(const double* x, double* dxdt,
                                   const UnitSignals& signals) const {
    dxdt[mean_square] = (signals.line_current_A * signals.line_current_A - x[mean_square]) / lag_s_;
    const bool counting =
        phase_ == Phase::expecting || phase_ == Phase::starting || phase_ == Phase::lockout;
    dxdt[timer] = counting ? 1.0 : 0.0;
}

void ProtectionModule::guards(const double* x, const UnitSignals& signals, double* values) const {
    const ProtectionModuleParameters& p = parameters_;
    std::fill(values, values + guard_count, 1.0);
    const double call = signals.coil_commanded ? 1.0 : -1.0;
    const double below_inrush =
        p.expected_start_current_A * p.expected_start_current_A - x[mean_square];
    switch (phase_) {
        case Phase::idle:
            values[call_begins] = -call;
            break;
        case Phase::expecting:
            values[call_ends] = call;
            values[inrush_seen] = below_inrush;
            values[inrush_missing] = p.inrush_window_s - x[timer];
            break;
        case Phase::starting:
            values[call_ends] = call;
            values[current_fallen] = x[mean_square] - p.running_current_A * p.running_current_A;
            values[start_too_long] = p.start_time_s - x[timer];
            break;
        case Phase::running:
            values[call_ends] = call;
            values[inrush_seen] = below_inrush;
            break;
        case Phase::lockout:
            values[lockout_over] = p.lockout_s - x[timer];
            break;
        case Phase::given_up:
            values[call_ends] = call;
            break;
    }
}

void ProtectionModule::on_guard(std::size_t guard, double* x) {
    switch (guard) {
        case call_begins:
            enter(Phase::expecting, x);
            break;
        case call_ends:
            failures_ = 0;
            enter(Phase::idle, x);
            break;
        case inrush_seen:
            enter(Phase::starting, x);
            break;
        case inrush_missing:
            fail("module_saw_no_start", x);
            break;
        case current_fallen:
            failures_ = 0;
            enter(Phase::running, x);
            break;
        case start_too_long:
            fail("module_saw_locked_rotor", x);
            break;
        case lockout_over:
            // From idle a call that is still there begins anew at once.
            enter(Phase::idle, x);
            break;
        default:
            break;
    }
}

void ProtectionModule::rest(double* x, const RestStep& step) {
    x[mean_square] = relaxed(x[mean_square], 0.0, lag_s_, step.duration_s);
    if (phase_ == Phase::lockout) {
        x[timer] += step.duration_s;
        if (x[timer] >= parameters_.lockout_s) {
            on_guard(lockout_over, x);
        }
    }
}

std::array<double, ProtectionModule::channel_count> ProtectionModule::channels(
    const double* x) const {
    return {std::sqrt(std::max(x[mean_square], 0.0))};
}

void ProtectionModule::enter(Phase phase, double* x) {
    phase_ = phase;
    x[timer] = 0.0;
}

void ProtectionModule::fail(std::string_view verdict, double* x) {
    verdict_ = verdict;
    ++failures_;
    enter(failures_ >= parameters_.tries ? Phase::given_up : Phase::lockout, x);
}

}  // namespace plant_models
