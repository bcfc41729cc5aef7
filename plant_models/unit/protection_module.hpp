// Protection module "start_watch": electronics at the compressor that judge a start by its current
// and by time, and hold the contactor's coil circuit open if they do not like it.
//
//   idle ──call──> expecting ──inrush──> starting ──fallen──> running
//                      │                    │  ^                 │
//                window over            time over └──inrush──────┘   (a stall looks like a start)
//                      v                    v
//                  lockout, `lockout_s`, then idle again; after `tries` failures in a row: given up
//
// The call ends expecting, starting, running and given up; lockout runs to its end whatever the
// call does. A good start, or the end of a call, clears the count of failures.
//
//   inrush   the RMS current reaches expected_start_current_A
//   fallen   the RMS current is down at running_current_A
//
// The RMS is that of a one-pole mean of the squared line current. The module knows nothing else, so
// it takes a start whose current is held down for one that never happened, or, if it sees the
// current at all, one that lasts for a locked rotor.
//
// Structure: own, after what such modules do in general (common practice); all defaults are
// engineering judgement: a healthy direct start is over within a second.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "plant_models/parameter_table.hpp"
#include "plant_models/unit/fitting_interface.hpp"

namespace plant_models {

struct ProtectionModuleParameters {
    static constexpr std::string_view kind = "start_watch";

    double expected_start_current_A = 0.0;  ///< RMS
    double running_current_A = 0.0;         ///< RMS
    double inrush_window_s = 0.0;           ///< from the call
    double start_time_s = 0.0;              ///< from the inrush
    double lockout_s = 0.0;
    int tries = 0;
    double current_lag_ms = 0.0;

    static const ParameterTable<ProtectionModuleParameters>& table();
    /// One sentence that says what is wrong between fields that are each in bounds; empty if none.
    std::string_view inconsistency() const;
};

/// The model; its members are described in fitting_interface.hpp. `UnitSignals::coil_commanded` is
/// the call alone, before this module's own contact.
class ProtectionModule {
  public:
    enum class Phase : std::uint8_t { idle, expecting, starting, running, lockout, given_up };
    enum StateIndex : std::size_t { mean_square, timer };  // A2, s
    enum GuardIndex : std::size_t {
        call_begins,
        call_ends,
        inrush_seen,
        inrush_missing,
        current_fallen,
        start_too_long,
        lockout_over
    };
    static constexpr std::size_t state_count = 2;
    static constexpr std::size_t guard_count = 7;
    static constexpr std::size_t channel_count = 1;

    explicit ProtectionModule(const ProtectionModuleParameters& module);

    std::array<double, state_count> initial_state() const { return {}; }
    void derivatives(const double* x, double* dxdt, const UnitSignals& signals) const;
    void guards(const double* x, const UnitSignals& signals, double* values) const;
    static bool guard_is_kink(std::size_t) { return false; }
    void on_guard(std::size_t guard, double* x);
    bool settled(const double* /*x*/) const {
        return phase_ == Phase::idle || phase_ == Phase::lockout;
    }
    /// A lockout that is over within the step ends with it.
    void rest(double* x, const RestStep& step);

    void continue_from(const ProtectionModule& before) {
        phase_ = before.phase_;
        failures_ = before.failures_;
        verdict_ = before.verdict_;
    }

    /// Its contact in the coil circuit is closed.
    bool permits() const { return phase_ != Phase::lockout && phase_ != Phase::given_up; }
    /// "module_saw_no_start" or "module_saw_locked_rotor" while it holds the circuit open.
    std::string_view trip_cause() const { return permits() ? "" : verdict_; }
    Phase phase() const { return phase_; }
    int failures() const { return failures_; }

    static std::array<std::string_view, channel_count> channel_names() {
        return {"module_current_A"};
    }
    std::array<double, channel_count> channels(const double* x) const;

  private:
    void enter(Phase phase, double* x);
    void fail(std::string_view verdict, double* x);

    ProtectionModuleParameters parameters_;
    double lag_s_;
    Phase phase_ = Phase::idle;
    int failures_ = 0;
    std::string_view verdict_;
};

}  // namespace plant_models
