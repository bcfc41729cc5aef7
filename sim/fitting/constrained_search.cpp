#include "sim/fitting/constrained_search.hpp"

#include <nlopt.h>

#include <algorithm>
#include <memory>
#include <type_traits>

namespace sim {

namespace {

constexpr unsigned long seed = 20240229;
constexpr double difference_step = 1e-6;
constexpr double constraint_tolerance = 1e-7;
constexpr double penalty_weight = 1e4;

using Optimiser = std::unique_ptr<std::remove_pointer_t<nlopt_opt>, decltype(&nlopt_destroy)>;

/// Keeps the values and slopes of the last place: the optimiser asks for the objective, the
/// equalities and the inequalities of the same place one after the other.
class Evaluator {
  public:
    explicit Evaluator(const SearchProblem& problem)
        : problem_(problem),
          count_(1 + problem.equality_count + problem.inequality_count),
          values_(count_),
          shifted_(count_),
          slopes_(count_ * problem.dimension) {}

    const SearchProblem& problem() const { return problem_; }
    const std::vector<double>& values_at(const double* place) {
        if (place_.empty() || !std::equal(place_.begin(), place_.end(), place)) {
            place_.assign(place, place + problem_.dimension);
            problem_.evaluate(place, values_.data());
            has_slopes_ = false;
        }
        return values_;
    }
    /// Row by row: the slopes of one value along every side.
    const std::vector<double>& slopes_at(const double* place) {
        values_at(place);
        if (!has_slopes_) {
            fill_slopes();
            has_slopes_ = true;
        }
        return slopes_;
    }

  private:
    void fill_slopes() {
        std::vector<double> moved = place_;
        for (std::size_t side = 0; side < problem_.dimension; ++side) {
            // Inwards, so that no place outside the cube is ever looked at.
            const double step = place_[side] > 0.5 ? -difference_step : difference_step;
            moved[side] = place_[side] + step;
            problem_.evaluate(moved.data(), shifted_.data());
            moved[side] = place_[side];
            for (std::size_t k = 0; k < count_; ++k) {
                slopes_[k * problem_.dimension + side] = (shifted_[k] - values_[k]) / step;
            }
        }
    }

    const SearchProblem& problem_;
    std::size_t count_;
    std::vector<double> place_;
    std::vector<double> values_;
    std::vector<double> shifted_;
    std::vector<double> slopes_;
    bool has_slopes_ = false;
};

double objective(unsigned /*dimension*/, const double* place, double* slope, void* data) {
    auto& evaluator = *static_cast<Evaluator*>(data);
    const double value = evaluator.values_at(place).front();
    if (slope != nullptr) {
        std::copy_n(evaluator.slopes_at(place).begin(), evaluator.problem().dimension, slope);
    }
    return value;
}

void copy_constraints(std::size_t first, unsigned count, double* result, const double* place,
                      double* slopes, Evaluator& evaluator) {
    const std::vector<double>& values = evaluator.values_at(place);
    std::copy_n(values.begin() + static_cast<std::ptrdiff_t>(first), count, result);
    if (slopes != nullptr) {
        const std::size_t dimension = evaluator.problem().dimension;
        std::copy_n(
            evaluator.slopes_at(place).begin() + static_cast<std::ptrdiff_t>(first * dimension),
            count * dimension, slopes);
    }
}

void equalities(unsigned count, double* result, unsigned /*dimension*/, const double* place,
                double* slopes, void* data) {
    copy_constraints(1, count, result, place, slopes, *static_cast<Evaluator*>(data));
}

void inequalities(unsigned count, double* result, unsigned /*dimension*/, const double* place,
                  double* slopes, void* data) {
    auto& evaluator = *static_cast<Evaluator*>(data);
    copy_constraints(1 + evaluator.problem().equality_count, count, result, place, slopes,
                     evaluator);
}

double penalised(unsigned /*dimension*/, const double* place, double* /*slope*/, void* data) {
    auto& evaluator = *static_cast<Evaluator*>(data);
    const std::vector<double>& values = evaluator.values_at(place);
    const std::size_t equality_end = 1 + evaluator.problem().equality_count;
    double sum = values.front();
    for (std::size_t k = 1; k < values.size(); ++k) {
        const double broken = k < equality_end ? values[k] : std::max(values[k], 0.0);
        sum += penalty_weight * broken * broken;
    }
    return sum;
}

Optimiser in_unit_cube(nlopt_algorithm algorithm, std::size_t dimension) {
    Optimiser optimiser(nlopt_create(algorithm, static_cast<unsigned>(dimension)), &nlopt_destroy);
    nlopt_set_lower_bounds1(optimiser.get(), 0.0);
    nlopt_set_upper_bounds1(optimiser.get(), 1.0);
    return optimiser;
}

/// The return code is left aside: the place is judged by its values, not by why the search ended.
std::vector<double> run(nlopt_opt optimiser, std::vector<double> place) {
    for (double& side : place) {
        side = std::clamp(side, 0.0, 1.0);
    }
    double value = 0.0;
    nlopt_optimize(optimiser, place.data(), &value);
    return place;
}

}  // namespace

std::vector<double> search_everywhere(const SearchProblem& problem, std::vector<double> start,
                                      int most_evaluations) {
    Evaluator evaluator(problem);
    const Optimiser optimiser = in_unit_cube(NLOPT_GN_CRS2_LM, problem.dimension);
    nlopt_srand(seed);
    nlopt_set_min_objective(optimiser.get(), penalised, &evaluator);
    nlopt_set_maxeval(optimiser.get(), most_evaluations);
    return run(optimiser.get(), std::move(start));
}

std::vector<double> search_nearby(const SearchProblem& problem, std::vector<double> start,
                                  int most_steps) {
    Evaluator evaluator(problem);
    const Optimiser optimiser = in_unit_cube(NLOPT_LD_SLSQP, problem.dimension);
    nlopt_set_min_objective(optimiser.get(), objective, &evaluator);
    const std::vector<double> tolerance(problem.equality_count + problem.inequality_count,
                                        constraint_tolerance);
    if (problem.equality_count > 0) {
        nlopt_add_equality_mconstraint(optimiser.get(),
                                       static_cast<unsigned>(problem.equality_count), equalities,
                                       &evaluator, tolerance.data());
    }
    if (problem.inequality_count > 0) {
        nlopt_add_inequality_mconstraint(optimiser.get(),
                                         static_cast<unsigned>(problem.inequality_count),
                                         inequalities, &evaluator, tolerance.data());
    }
    nlopt_set_xtol_abs1(optimiser.get(), 1e-7);
    nlopt_set_maxeval(optimiser.get(), most_steps);
    return run(optimiser.get(), std::move(start));
}

}  // namespace sim
