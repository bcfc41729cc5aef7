#include "sim/fitting/open_ranges.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <variant>

#include "sim/fitting/acceptance.hpp"
#include "sim/fitting/constrained_search.hpp"

namespace sim {

namespace {

using plant_models::MotorParameters;

constexpr int steps_per_search = 200;

/// A positive value of a candidate whose range is asked for.
struct Quantity {
    std::string_view name;
    std::variant<double MotorParameters::*, double MotorFigures::*> member;

    double of(const Candidate& candidate) const {
        if (const auto* parameter = std::get_if<double MotorParameters::*>(&member)) {
            return candidate.motor.**parameter;
        }
        return candidate.figures.*std::get<double MotorFigures::*>(member);
    }
};

std::vector<Quantity> open_quantities(bool has_capacitor) {
    using M = MotorParameters;
    using F = MotorFigures;
    std::vector<Quantity> quantities = {
        {"main_resistance_ohm", &M::main_resistance_ohm},
        {"main_leakage_reactance_ohm", &M::main_leakage_reactance_ohm},
        {"aux_resistance_ohm", &M::aux_resistance_ohm},
        {"aux_leakage_reactance_ohm", &M::aux_leakage_reactance_ohm},
        {"turns_ratio", &M::turns_ratio},
        {"rotor_resistance_ohm", &M::rotor_resistance_ohm},
        {"rotor_leakage_reactance_ohm", &M::rotor_leakage_reactance_ohm},
        {"magnetizing_reactance_ohm", &M::magnetizing_reactance_ohm},
        {"iron_loss_W", &M::iron_loss_W},
        {"friction_loss_W", &M::friction_loss_W},
        {"windage_loss_W", &M::windage_loss_W},
        {"locked_rotor_torque_Nm", &F::locked_rotor_torque_Nm},
        {"locked_rotor_power_factor", &F::locked_rotor_power_factor},
        {"breakdown_torque_Nm", &F::breakdown_torque_Nm},
        {"rated_torque_Nm", &F::rated_torque_Nm},
        {"rated_speed_rpm", &F::rated_speed_rpm},
        {"rated_power_factor", &F::rated_power_factor},
        {"shaft_power_W", &F::shaft_power_W},
        {"efficiency", &F::efficiency},
    };
    if (has_capacitor) {
        quantities.push_back({"capacitor_voltage_ratio", &F::capacitor_voltage_ratio});
    }
    return quantities;
}

class RangeSearch {
  public:
    RangeSearch(const MotorSpace& space, const MotorClass& motor_class, const UsualMotor& usual)
        : space_(space),
          motor_class_(motor_class),
          quantities_(open_quantities(usual.candidate.motor.run_capacitor_uF > 0.0)) {
        for (const Quantity& quantity : quantities_) {
            const double fitted = quantity.of(usual.candidate);
            ends_.push_back({{fitted, usual.place}, {fitted, usual.place}});
        }
    }

    enum class StartFrom { same_end, other_end };

    void push_every_end(StartFrom from) {
        for (std::size_t k = 0; k < quantities_.size(); ++k) {
            const std::vector<double> low = ends_[k].lowest.place;
            const std::vector<double> high = ends_[k].highest.place;
            push(k, towards_lowest, from == StartFrom::same_end ? low : high);
            push(k, towards_highest, from == StartFrom::same_end ? high : low);
        }
    }

    std::vector<OpenRange> ranges(const Candidate& fitted) const {
        std::vector<OpenRange> found;
        for (std::size_t k = 0; k < quantities_.size(); ++k) {
            found.push_back(
                {quantities_[k].name,
                 std::holds_alternative<double MotorParameters::*>(quantities_[k].member),
                 quantities_[k].of(fitted), ends_[k].lowest.value, ends_[k].highest.value});
        }
        return found;
    }

  private:
    struct End {
        double value;
        std::vector<double> place;
    };
    struct Ends {
        End lowest;
        End highest;
    };

    static constexpr double towards_lowest = 1.0;
    static constexpr double towards_highest = -1.0;

    void push(std::size_t which, double direction, const std::vector<double>& start) {
        const Quantity& pushed = quantities_[which];
        const double scale = std::abs(ends_[which].highest.value);
        SearchProblem problem;
        problem.dimension = space_.dimension();
        problem.inequality_count = 2 * (motor_class_.hard.size() + motor_class_.soft.size());
        problem.evaluate = [this, &pushed, direction, scale](const double* place, double* values) {
            const Candidate candidate = space_.at(place);
            note(candidate, place);
            *values = direction * pushed.of(candidate) / scale;
            for (const HardFigure& hard : motor_class_.hard) {
                const double share = difference(hard, candidate.figures) / hard_tolerance;
                *++values = share - 1.0;
                *++values = -share - 1.0;
            }
            for (const SoftFigure& soft : motor_class_.soft) {
                *++values = below_band(soft, candidate.figures);
                *++values = above_band(soft, candidate.figures);
            }
        };
        search_nearby(problem, start, steps_per_search);
    }

    void note(const Candidate& candidate, const double* place) {
        if (!is_accepted(motor_class_, candidate)) {
            return;
        }
        for (std::size_t k = 0; k < quantities_.size(); ++k) {
            const double value = quantities_[k].of(candidate);
            Ends& ends = ends_[k];
            if (value < ends.lowest.value) {
                ends.lowest = {value, {place, place + space_.dimension()}};
            }
            if (value > ends.highest.value) {
                ends.highest = {value, {place, place + space_.dimension()}};
            }
        }
    }

    const MotorSpace& space_;
    const MotorClass& motor_class_;
    std::vector<Quantity> quantities_;
    std::vector<Ends> ends_;
};

}  // namespace

std::vector<OpenRange> find_open_ranges(const MotorSpace& space, const MotorClass& motor_class,
                                        const UsualMotor& usual) {
    RangeSearch search(space, motor_class, usual);
    // Every round starts from the best that all searches before it have found; the third comes from
    // the far side, which finds its way around a ridge that stopped the others.
    using From = RangeSearch::StartFrom;
    for (const From from : {From::same_end, From::same_end, From::other_end, From::same_end}) {
        search.push_every_end(from);
    }
    return search.ranges(usual.candidate);
}

}  // namespace sim
