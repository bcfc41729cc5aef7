#include "sim/fitting/usual_motor.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <random>
#include <utility>
#include <variant>

#include "sim/fitting/acceptance.hpp"
#include "sim/fitting/constrained_search.hpp"
#include "sim/fitting/five_digits.hpp"

namespace sim {

namespace {

constexpr int global_evaluations = 6000;
constexpr int local_steps = 150;
constexpr int many_places = 40;
// The bands say more about a class of motors than the usual value of one reactance does.
constexpr double usual_weight = 0.3;
// Strong enough to hold a band that can be held, weak enough not to spoil the printed figures.
constexpr double broken_band_weight = 100.0;

double squared(double value) {
    return value * value;
}

double distance_from_usual(const MotorClass& motor_class, const MotorFigures& figures,
                           const std::vector<double>& usual, const double* place) {
    double sum = 0.0;
    for (const SoftFigure& soft : motor_class.soft) {
        // The mean of the two distances from the ends is the distance from the middle.
        sum += squared(0.5 * (above_band(soft, figures) - below_band(soft, figures)));
    }
    for (std::size_t k = 0; k < usual.size(); ++k) {
        sum += usual_weight * squared(2.0 * (place[k] - usual[k]));
    }
    return sum;
}

double broken_bands(const MotorClass& motor_class, const MotorFigures& figures) {
    double sum = 0.0;
    for (const SoftFigure& soft : motor_class.soft) {
        sum += squared(std::max(below_band(soft, figures), 0.0)) +
               squared(std::max(above_band(soft, figures), 0.0));
    }
    return sum;
}

double worst_difference(const MotorClass& motor_class, const MotorFigures& figures) {
    double worst = 0.0;
    for (const HardFigure& hard : motor_class.hard) {
        worst = std::max(worst, std::abs(difference(hard, figures)));
    }
    return worst;
}

enum class Aim {
    any_within_bands,     ///< no preference: the easiest to find
    usual_within_bands,   ///< the bands are constraints
    usual_printed_first,  ///< the bands are a preference
};

SearchProblem problem_of(const MotorSpace& space, const MotorClass& motor_class, Aim aim) {
    const bool bands_are_constraints = aim != Aim::usual_printed_first;
    SearchProblem problem;
    problem.dimension = space.dimension();
    problem.equality_count = motor_class.hard.size();
    problem.inequality_count = bands_are_constraints ? 2 * motor_class.soft.size() : 0;
    problem.evaluate = [&space, &motor_class, aim, bands_are_constraints, usual = space.usual()](
                           const double* place, double* values) {
        const MotorFigures figures = space.at(place).figures;
        *values = aim == Aim::any_within_bands
                      ? 0.0
                      : distance_from_usual(motor_class, figures, usual, place);
        if (!bands_are_constraints) {
            *values += broken_band_weight * broken_bands(motor_class, figures);
        }
        for (const HardFigure& hard : motor_class.hard) {
            *++values = difference(hard, figures);
        }
        if (bands_are_constraints) {
            for (const SoftFigure& soft : motor_class.soft) {
                *++values = below_band(soft, figures);
                *++values = above_band(soft, figures);
            }
        }
    };
    return problem;
}

/// What a reader copies is then what the figures belong to.
Candidate rounded(const Candidate& exact) {
    plant_models::MotorParameters motor = exact.motor;
    for (const auto& row : plant_models::MotorParameters::table()) {
        if (const auto* member =
                std::get_if<double plant_models::MotorParameters::*>(&row.member)) {
            motor.** member = five_digits(motor.**member);
        }
    }
    OperatingPoint point = exact.point;
    point.rated_slip = five_digits(point.rated_slip);
    return with_figures(motor, point);
}

class UsualMotorSearch {
  public:
    UsualMotorSearch(const MotorSpace& space, const MotorClass& motor_class)
        : space_(space),
          motor_class_(motor_class),
          usual_(space.usual()),
          within_bands_(problem_of(space, motor_class, Aim::usual_within_bands)) {}

    UsualMotor find() {
        const std::vector<double> rough =
            search_everywhere(within_bands_, usual_, global_evaluations);
        take_if_better(rough);
        take_if_better(usual_);
        for (int k = 0; k < many_places && best_.place.empty(); ++k) {
            look_for_any_from(somewhere());
        }
        return best_.place.empty() ? with_the_printed_figures(rough) : best_;
    }

  private:
    void take_if_better(const std::vector<double>& start) {
        const std::vector<double> place = search_nearby(within_bands_, start, local_steps);
        const Candidate candidate = rounded(space_.at(place.data()));
        const double distance =
            distance_from_usual(motor_class_, candidate.figures, usual_, place.data());
        if (is_accepted(motor_class_, candidate) &&
            (best_.place.empty() || distance < best_distance_)) {
            best_ = {candidate, place};
            best_distance_ = distance;
        }
    }

    /// Mersenne Twister, seeded alike every time: the same places on every machine.
    std::vector<double> somewhere() {
        std::vector<double> place(space_.dimension());
        for (double& side : place) {
            side = static_cast<double>(random_()) / static_cast<double>(std::mt19937::max());
        }
        return place;
    }

    /// Where the bands leave little room, the way to it matters more than the preference.
    void look_for_any_from(const std::vector<double>& start) {
        const SearchProblem any = problem_of(space_, motor_class_, Aim::any_within_bands);
        const std::vector<double> place = search_nearby(any, start, local_steps);
        if (is_accepted(motor_class_, space_.at(place.data()))) {
            take_if_better(place);
            take_as_it_is(place);
        }
    }

    void take_as_it_is(const std::vector<double>& place) {
        const Candidate candidate = rounded(space_.at(place.data()));
        if (best_.place.empty() && is_accepted(motor_class_, candidate)) {
            best_ = {candidate, place};
        }
    }

    /// Of several searches the one that breaks the bands least among those that meet the printed
    /// figures; if none does, the one that misses them least.
    UsualMotor with_the_printed_figures(const std::vector<double>& rough) {
        const SearchProblem problem = problem_of(space_, motor_class_, Aim::usual_printed_first);
        std::vector<std::vector<double>> starts = {rough, usual_};
        while (starts.size() < 10) {
            starts.push_back(somewhere());
        }
        UsualMotor best;
        std::pair<double, double> least;
        for (const std::vector<double>& start : starts) {
            const std::vector<double> place = search_nearby(problem, start, 2 * local_steps);
            const Candidate candidate = rounded(space_.at(place.data()));
            const std::pair<double, double> faults = {
                std::max(worst_difference(motor_class_, candidate.figures), hard_tolerance),
                broken_bands(motor_class_, candidate.figures)};
            if (best.place.empty() || faults < least) {
                best = {candidate, place};
                least = faults;
            }
        }
        return best;
    }

    const MotorSpace& space_;
    const MotorClass& motor_class_;
    std::mt19937 random_{1};
    std::vector<double> usual_;
    SearchProblem within_bands_;
    UsualMotor best_;
    double best_distance_ = 0.0;
};

}  // namespace

UsualMotor find_usual_motor(const MotorSpace& space, const MotorClass& motor_class) {
    return UsualMotorSearch(space, motor_class).find();
}

}  // namespace sim
