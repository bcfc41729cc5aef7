// A PlantRun for one kind of supply, load and unit. The step order is in plant_run.hpp.
#pragma once

#include <algorithm>
#include <boost/math/tools/toms748_solve.hpp>
#include <boost/numeric/odeint/stepper/runge_kutta4_classic.hpp>
#include <cmath>
#include <functional>
#include <stdexcept>
#include <string>
#include <utility>

#include "plant_models/plant.hpp"
#include "plant_models/switches/contact.hpp"
#include "sim/timeline/plant_run.hpp"

namespace sim {

/// A run on one kind of supply, whatever it feeds.
template <class Supply>
class RunOn : public PlantRun {
  public:
    virtual const Supply& supply() const = 0;
    virtual const double* supply_states() const = 0;
};

template <class Supply, class Load, class Unit>
class IntegratedPlant final : public RunOn<Supply> {
  public:
    using Plant = plant_models::Plant<Supply, Load, Unit>;

    IntegratedPlant(const PlantDescription& description, const Supply& supply, const Load& load,
                    const Unit& unit);

    void advance_to(Instant target) override;
    std::unique_ptr<PlantRun> copy() const override {
        return std::make_unique<IntegratedPlant>(*this);
    }
    void apply(const PowerCommands& commands) override;
    void set_damage(const plant_models::Damage& damage) override;
    const plant_models::PlantOutputs& outputs() override {
        plant_.read_outputs(current().state, current().rate, seconds(), outputs_);
        return outputs_;
    }
    plant_models::EnergyAudit energy() const override {
        return plant_.energy(current().state, seconds());
    }
    void restart_audit() override;
    bool at_rest() const override;
    void rest(Instant duration) override;
    void continue_from(const PlantRun& before, const KeptParts& kept) override;
    const Supply& supply() const override { return plant_.supply(); }
    const double* supply_states() const override {
        return current().state.data() + Plant::first_supply_state;
    }
    Instant now() const override { return now_; }
    const std::vector<std::string_view>& channel_names() const override { return channel_names_; }
    std::int64_t events() const override { return events_; }
    std::int64_t steps() const override { return steps_; }

  private:
    using State = typename Plant::State;
    using Guards = typename Plant::Guards;
    using Stepper = boost::numeric::odeint::runge_kutta4_classic<State>;

    void follow_unit_contacts(Instant at);
    double longest_step_s() const;
    double seconds() const { return plant_models::to_seconds(now_); }
    void refresh(double time_s);
    void take_due_edges();
    void find_next_edge();
    void integrate_to(Instant stop);
    bool look_ahead(Instant stop);
    void move_within_look_ahead(Instant stop);
    void settle();
    double step(double time_s, double length_s);
    void try_step(double time_s, double length_s);
    void accept_trial();
    bool guard_fired(std::size_t guard) const;
    bool any_guard_fired() const;
    double locate(std::size_t guard, double time_s, double length_s);
    void check_numbers() const;

    Plant plant_;
    Stepper stepper_;
    /// A point of the trajectory with what is known there. Two of them change places at each step.
    struct Point {
        State state{};
        State rate{};
        Guards guards{};
    };
    Point& here() { return points_[here_]; }
    const Point& here() const { return points_[here_]; }
    Point& trial() { return points_[1 - here_]; }
    const Point& trial() const { return points_[1 - here_]; }

    const Point& current() const { return ahead_ ? between_ : here(); }

    std::array<Point, 2> points_;
    std::size_t here_ = 0;
    // A step without events that reaches beyond `now`: from `here` to `trial`.
    bool ahead_ = false;
    Instant ahead_begin_{0};
    Instant ahead_end_{0};
    Point between_;

    plant_models::Contact line_contact_;
    plant_models::Contact start_contact_;
    plant_models::Contact bypass_contact_;
    Instant gate_on_edge_ = plant_models::never;
    Instant gate_off_edge_ = plant_models::never;
    bool gate_ = false;
    bool line_coil_ = false;   ///< as commanded from outside
    bool start_coil_ = false;  ///< as commanded from outside
    Instant next_edge_ = plant_models::never;

    plant_models::PlantOutputs outputs_;
    Instant now_{0};
    double largest_step_s_ = 0.0;
    std::int64_t events_ = 0;
    std::int64_t steps_ = 0;
    int events_without_progress_ = 0;
    std::vector<std::string_view> channel_names_;
};

namespace detail {
plant_models::ContactTiming line_contact(const PlantDescription& description);
plant_models::ContactTiming start_contact(const PlantDescription& description);
plant_models::ContactTiming bypass_contact(const PlantDescription& description);
/// Smallest advance that counts; also what an event takes that is due where the step begins.
inline constexpr double smallest_advance_s = 1e-9;
/// A pulse that lasts this long goes on into the next tick.
inline constexpr Instant tick{100000};
inline constexpr int most_events_in_one_step = 1000;
}  // namespace detail

template <class Supply, class Load, class Unit>
IntegratedPlant<Supply, Load, Unit>::IntegratedPlant(const PlantDescription& description,
                                                     const Supply& supply, const Load& load,
                                                     const Unit& unit)
    : plant_(description.motor, description.limiter, supply, load, unit, description.wiring),
      line_contact_(detail::line_contact(description)),
      start_contact_(detail::start_contact(description)),
      bypass_contact_(detail::bypass_contact(description)) {
    here().state = plant_.initial_state(description.initial_speed_rad_per_s);
    largest_step_s_ =
        std::min(plant_.largest_step_s(), plant_models::to_seconds(description.largest_step));
    const auto add_names = [this](const auto& names) {
        channel_names_.insert(channel_names_.end(), names.begin(), names.end());
    };
    add_names(Plant::supply_channel_names());
    add_names(Plant::load_channel_names());
    add_names(unit.channel_names());
    refresh(0.0);
    if (description.connection == Connection::direct) {
        plant_.set_bypass_contact(true, here().state);
    }
    if constexpr (Unit::is_fitted) {
        if (unit.moves_start_contact() && unit.start_contact_wanted()) {
            start_contact_.begin_touching();
            plant_.set_start_contact(true, here().state, 0.0);
        }
    }
    refresh(0.0);
}

template <class Supply, class Load, class Unit>
void IntegratedPlant<Supply, Load, Unit>::refresh(double time_s) {
    plant_.set_origin(time_s);
    plant_.derivative(here().state, here().rate, time_s);
    plant_.guards(here().state, here().rate, time_s, here().guards);
}

template <class Supply, class Load, class Unit>
void IntegratedPlant<Supply, Load, Unit>::apply(const PowerCommands& commands) {
    bypass_contact_.command(commands.bypass_coil, now_);
    if constexpr (Unit::is_fitted) {
        if (commands.line_coil != line_coil_) {
            line_coil_ = commands.line_coil;
            settle();
            plant_.set_coil_commanded(line_coil_);
            refresh(seconds());
        }
        start_coil_ = commands.start_capacitor_coil;
        follow_unit_contacts(now_);
    } else {
        line_contact_.command(commands.line_coil, now_);
        start_contact_.command(commands.start_capacitor_coil, now_);
    }
    const bool pulse = commands.gate_off > commands.gate_on;
    const bool whole_tick_ahead = commands.gate_off >= detail::tick;
    // A pulse that lasted to the end of the last tick goes on unbroken if this one starts at 0.
    const bool on_now = pulse && commands.gate_on.count() == 0;
    gate_on_edge_ = pulse && !on_now ? now_ + commands.gate_on : plant_models::never;
    gate_off_edge_ = pulse && !whole_tick_ahead ? now_ + commands.gate_off : plant_models::never;
    find_next_edge();
    if (on_now != gate_ || next_edge_ <= ahead_end_) {
        settle();
    }
    if (on_now != gate_) {
        gate_ = on_now;
        plant_.set_gate(gate_, here().state, here().rate, seconds());
        refresh(seconds());
    }
}

template <class Supply, class Load, class Unit>
void IntegratedPlant<Supply, Load, Unit>::set_damage(const plant_models::Damage& damage) {
    settle();
    bypass_contact_.set_condition(damage.bypass_contact, now_);
    start_contact_.set_condition(damage.start_contact, now_);
    find_next_edge();
    plant_.set_damage(damage, here().state, seconds());
    refresh(seconds());
}

/// Contacts that the unit moves by itself follow its decisions; the others follow the commands.
template <class Supply, class Load, class Unit>
void IntegratedPlant<Supply, Load, Unit>::follow_unit_contacts([[maybe_unused]] Instant at) {
    if constexpr (Unit::is_fitted) {
        const Unit& unit = plant_.unit();
        line_contact_.command(unit.moves_contactor() ? unit.contactor_wanted() : line_coil_, at);
        start_contact_.command(
            unit.moves_start_contact() ? unit.start_contact_wanted() : start_coil_, at);
        find_next_edge();
    }
}

template <class Supply, class Load, class Unit>
double IntegratedPlant<Supply, Load, Unit>::longest_step_s() const {
    if constexpr (Unit::is_fitted) {
        return std::min(largest_step_s_, plant_.largest_step_s(here().state));
    } else {
        return largest_step_s_;
    }
}

template <class Supply, class Load, class Unit>
void IntegratedPlant<Supply, Load, Unit>::find_next_edge() {
    next_edge_ = std::min({line_contact_.next_edge(), start_contact_.next_edge(),
                           bypass_contact_.next_edge(), gate_on_edge_, gate_off_edge_});
}

template <class Supply, class Load, class Unit>
void IntegratedPlant<Supply, Load, Unit>::take_due_edges() {
    while (next_edge_ <= now_) {
        if (line_contact_.next_edge() <= now_) {
            line_contact_.take_edge();
            plant_.set_line_contact(line_contact_.touching(), here().state);
        } else if (start_contact_.next_edge() <= now_) {
            start_contact_.take_edge();
            plant_.set_start_contact(start_contact_.touching(), here().state, seconds());
        } else if (bypass_contact_.next_edge() <= now_) {
            bypass_contact_.take_edge();
            plant_.set_bypass_contact(bypass_contact_.touching(), here().state);
        } else {
            gate_ = gate_on_edge_ <= now_;
            (gate_ ? gate_on_edge_ : gate_off_edge_) = plant_models::never;
            plant_.set_gate(gate_, here().state, here().rate, seconds());
        }
        refresh(seconds());
        find_next_edge();
    }
}

template <class Supply, class Load, class Unit>
void IntegratedPlant<Supply, Load, Unit>::advance_to(Instant target) {
    while (now_ < target) {
        take_due_edges();
        const Instant stop = std::min(target, next_edge_);
        if ((ahead_ && stop <= ahead_end_) || look_ahead(stop)) {
            move_within_look_ahead(stop);
        } else {
            settle();
            integrate_to(stop);
        }
    }
    check_numbers();
}

/// Tries one step to twice the distance. It is kept if nothing happens within it; then the point at
/// `stop` is read from its cubic interpolant, and a command that changes nothing saves a step.
template <class Supply, class Load, class Unit>
bool IntegratedPlant<Supply, Load, Unit>::look_ahead(Instant stop) {
    const Instant end = now_ + 2 * (stop - now_);
    if (ahead_ || end > next_edge_ ||
        plant_models::to_seconds(end - now_) > longest_step_s() * (1.0 + 1e-9)) {
        return false;
    }
    plant_.set_origin(seconds());
    try_step(seconds(), plant_models::to_seconds(end - now_));
    ahead_ = !any_guard_fired();
    ahead_begin_ = now_;
    ahead_end_ = ahead_ ? end : now_;
    return ahead_;
}

template <class Supply, class Load, class Unit>
void IntegratedPlant<Supply, Load, Unit>::move_within_look_ahead(Instant stop) {
    now_ = stop;
    if (stop == ahead_end_) {
        ahead_ = false;
        accept_trial();
        return;
    }
    // Cubic Hermite. Halfway, value and slope are both of fourth order in the step.
    const double h = plant_models::to_seconds(ahead_end_ - ahead_begin_);
    const double u = plant_models::to_seconds(stop - ahead_begin_) / h;
    const double v = 1.0 - u;
    const double value_1 = u * u * (3.0 - 2.0 * u);
    const double slope_0 = h * u * v * v;
    const double slope_1 = -h * u * u * v;
    const double rate_value = 6.0 * u * v / h;
    const double rate_0 = v * (1.0 - 3.0 * u);
    const double rate_1 = u * (3.0 * u - 2.0);
    for (std::size_t k = 0; k < Plant::state_count; ++k) {
        const double rise = trial().state[k] - here().state[k];
        between_.state[k] =
            here().state[k] + value_1 * rise + slope_0 * here().rate[k] + slope_1 * trial().rate[k];
        between_.rate[k] = rate_value * rise + rate_0 * here().rate[k] + rate_1 * trial().rate[k];
    }
}

/// Gives up what lies ahead of `now` and integrates to it properly.
template <class Supply, class Load, class Unit>
void IntegratedPlant<Supply, Load, Unit>::settle() {
    if (ahead_) {
        ahead_ = false;
        const double begin_s = plant_models::to_seconds(ahead_begin_);
        plant_.set_origin(begin_s);
        try_step(begin_s, plant_models::to_seconds(now_ - ahead_begin_));
        accept_trial();
    }
    ahead_end_ = now_;
}

template <class Supply, class Load, class Unit>
void IntegratedPlant<Supply, Load, Unit>::integrate_to(Instant stop) {
    const double start_s = seconds();
    double span_s = plant_models::to_seconds(stop - now_);
    const double count = std::ceil(span_s / longest_step_s() - 1e-9);
    const double length_s = span_s / std::max(count, 1.0);
    double done_s = 0.0;
    while (done_s < span_s) {
        const double left_s = span_s - done_s;
        // A remainder too short to count is taken along.
        const double wanted_s = left_s - length_s < detail::smallest_advance_s ? left_s : length_s;
        const double taken_s = step(start_s + done_s, wanted_s);
        done_s = taken_s == left_s ? span_s : done_s + taken_s;
        if (next_edge_ < stop) {
            // The unit has just moved a contact of its own, which will touch or part before.
            stop = next_edge_;
            span_s = std::max(done_s, plant_models::to_seconds(stop - now_));
        }
    }
    now_ = stop;
}

template <class Supply, class Load, class Unit>
void IntegratedPlant<Supply, Load, Unit>::try_step(double time_s, double length_s) {
    auto system = [this](const State& x, State& dxdt, double t) { plant_.derivative(x, dxdt, t); };
    stepper_.do_step(system, here().state, here().rate, time_s, trial().state, length_s);
    plant_.derivative(trial().state, trial().rate, time_s + length_s);
    plant_.guards(trial().state, trial().rate, time_s + length_s, trial().guards);
    ++steps_;
}

template <class Supply, class Load, class Unit>
void IntegratedPlant<Supply, Load, Unit>::accept_trial() {
    here_ = 1 - here_;
}

template <class Supply, class Load, class Unit>
bool IntegratedPlant<Supply, Load, Unit>::guard_fired(std::size_t guard) const {
    const double before = here().guards[guard];
    const double after = trial().guards[guard];
    if (Plant::guard_is_kink(guard)) {
        return (before > 0.0 && after < 0.0) || (before < 0.0 && after > 0.0);
    }
    return after < 0.0 || (after == 0.0 && before > 0.0);
}

template <class Supply, class Load, class Unit>
bool IntegratedPlant<Supply, Load, Unit>::any_guard_fired() const {
    bool any = false;
    for (std::size_t k = 0; k < Plant::guard_count; ++k) {
        any = any || guard_fired(k);
    }
    return any;
}

/// Advances by `length_s`, or to the first event before that; returns how far it came.
template <class Supply, class Load, class Unit>
double IntegratedPlant<Supply, Load, Unit>::step(double time_s, double length_s) {
    plant_.set_origin(time_s);
    try_step(time_s, length_s);
    if (!any_guard_fired()) {
        accept_trial();
        events_without_progress_ = 0;
        return length_s;
    }
    // Which guards fired has to be kept: locating one overwrites the trial.
    std::array<bool, Plant::guard_count> fired{};
    for (std::size_t k = 0; k < Plant::guard_count; ++k) {
        fired[k] = guard_fired(k);
    }
    double earliest_s = 2.0 * length_s;
    std::size_t first = 0;
    for (std::size_t k = 0; k < Plant::guard_count; ++k) {
        if (fired[k]) {
            const double at_s = locate(k, time_s, length_s);
            if (at_s < earliest_s) {
                earliest_s = at_s;
                first = k;
            }
        }
    }
    try_step(time_s, earliest_s);
    accept_trial();
    plant_.on_guard(first, here().state, here().rate, time_s + earliest_s);
    refresh(time_s + earliest_s);
    if constexpr (Unit::is_fitted) {
        if (first >= Plant::first_unit_guard) {
            follow_unit_contacts(plant_models::instant_at_or_after(time_s + earliest_s));
        }
    }
    ++events_;
    if (++events_without_progress_ > detail::most_events_in_one_step) {
        throw NumericFailure("events pile up at t = " + std::to_string(time_s) + " s");
    }
    return earliest_s;
}

/// Where within the step the guard becomes zero; the end of the bracket on which it has fired.
template <class Supply, class Load, class Unit>
double IntegratedPlant<Supply, Load, Unit>::locate(std::size_t guard, double time_s,
                                                   double length_s) {
    const auto value = [&](double at_s) {
        try_step(time_s, at_s);
        return trial().guards[guard];
    };
    double low_s = 0.0;
    double low_value = here().guards[guard];
    double high_s = length_s;
    double high_value = value(length_s);
    if (high_value == 0.0) {
        return length_s;
    }
    // A guard that was armed by the last event starts at zero: look for where it was positive.
    while (low_value == 0.0 || (low_value < 0.0) == (high_value < 0.0)) {
        low_s = 0.5 * high_s;
        if (low_s < detail::smallest_advance_s) {
            return std::min(detail::smallest_advance_s, length_s);
        }
        low_value = value(low_s);
        if (low_value == 0.0) {
            high_s = low_s;  // a guard may stay at zero for a while, too
        } else if ((low_value < 0.0) == (high_value < 0.0)) {
            high_s = low_s;
            high_value = low_value;
        }
    }
    const auto close_enough = [](double a, double b) { return std::abs(b - a) < 1e-14; };
    std::uintmax_t iterations = 100;
    const auto bracket = boost::math::tools::toms748_solve(value, low_s, high_s, low_value,
                                                           high_value, close_enough, iterations);
    return std::max(bracket.second, std::min(detail::smallest_advance_s, length_s));
}

template <class Supply, class Load, class Unit>
void IntegratedPlant<Supply, Load, Unit>::restart_audit() {
    settle();
    plant_.restart_audit(here().state, seconds());
    refresh(seconds());
}

template <class Supply, class Load, class Unit>
bool IntegratedPlant<Supply, Load, Unit>::at_rest() const {
    return next_edge_ == plant_models::never && !gate_ && !line_contact_.coil_on() &&
           plant_.at_rest(current().state);
}

template <class Supply, class Load, class Unit>
void IntegratedPlant<Supply, Load, Unit>::rest(Instant duration) {
    if (!at_rest()) {
        throw std::logic_error("a rest cannot begin before the plant is at rest");
    }
    settle();
    const Instant end = now_ + duration;
    const double whole_s = plant_.whole_rest_s(plant_models::to_seconds(duration));
    const Instant whole(static_cast<Instant::rep>(std::llround(1e9 * whole_s)));
    const double begin_s = seconds();
    now_ += std::min(whole, duration);
    ahead_end_ = now_;
    plant_.rest(here().state, begin_s, seconds());
    refresh(seconds());
    follow_unit_contacts(now_);
    advance_to(end);
}

template <class Supply, class Load, class Unit>
void IntegratedPlant<Supply, Load, Unit>::continue_from(const PlantRun& before,
                                                        const KeptParts& kept) {
    now_ = before.now();
    ahead_end_ = now_;
    if (kept.supply) {
        const auto& run = dynamic_cast<const RunOn<Supply>&>(before);
        plant_.keep_supply(run.supply(), run.supply_states(), here().state);
    }
    if (kept.unit) {
        const auto& run = dynamic_cast<const IntegratedPlant&>(before);
        plant_.keep_unit(run.plant_, run.current().state, here().state);
    }
    refresh(seconds());
}

template <class Supply, class Load, class Unit>
void IntegratedPlant<Supply, Load, Unit>::check_numbers() const {
    // These three depend on every other state: none of those can stop being a number alone.
    const State& x = current().state;
    if (!std::isfinite(x[Plant::speed] + x[Plant::main_current] + x[Plant::source_energy])) {
        throw NumericFailure(
            "a plant state is no longer a number at t = " + std::to_string(seconds()) + " s");
    }
}

}  // namespace sim
