#include "sim/suites/distribution.hpp"

#include <algorithm>
#include <boost/math/distributions/normal.hpp>
#include <cmath>

namespace sim {

namespace {

/// Beyond what any input takes; the input's own bounds are checked with it.
constexpr double widest = 1e9;
constexpr std::string_view wrong_ends = "lowest and highest must rise in this order; give them so";
constexpr std::string_view wrong_likeliest =
    "likeliest must lie between lowest and highest, and those apart; give them so";
constexpr std::string_view wrong_mean = "mean must lie from lowest to highest; give it so";
constexpr std::string_view wrong_median = "median must lie from lowest to highest; give it so";

double normal_quantile(double mean, double deviation, double lowest, double highest, double even) {
    const boost::math::normal standard;
    const double below = boost::math::cdf(standard, (lowest - mean) / deviation);
    const double up_to = boost::math::cdf(standard, (highest - mean) / deviation);
    // The ends of an infinite normal are no numbers.
    const double share = std::clamp(below + (up_to - below) * even, 1e-15, 1.0 - 1e-15);
    const double value = mean + deviation * boost::math::quantile(standard, share);
    return std::clamp(value, lowest, highest);
}

struct Draw {
    double even;

    double operator()(const FixedValue& one) const { return one.value; }
    double operator()(const Uniform& one) const {
        return one.lowest + (one.highest - one.lowest) * even;
    }
    double operator()(const Triangular& one) const {
        const double width = one.highest - one.lowest;
        const double rising = one.likeliest - one.lowest;
        const double value =
            even * width <= rising
                ? one.lowest + std::sqrt(even * width * rising)
                : one.highest - std::sqrt((1.0 - even) * width * (one.highest - one.likeliest));
        return std::clamp(value, one.lowest, one.highest);
    }
    double operator()(const TruncatedNormal& one) const {
        return normal_quantile(one.mean, one.deviation, one.lowest, one.highest, even);
    }
    double operator()(const TruncatedLogNormal& one) const {
        const double value =
            std::exp(normal_quantile(std::log(one.median), std::log(one.deviation_factor),
                                     std::log(one.lowest), std::log(one.highest), even));
        return std::clamp(value, one.lowest, one.highest);
    }
};

}  // namespace

const plant_models::ParameterTable<FixedValue>& FixedValue::table() {
    static const plant_models::ParameterTable<FixedValue> rows = {
        {"value", &FixedValue::value, -widest, widest, {}, "in the input's unit"},
    };
    return rows;
}

const plant_models::ParameterTable<Uniform>& Uniform::table() {
    static const plant_models::ParameterTable<Uniform> rows = {
        {"lowest", &Uniform::lowest, -widest, widest, {}, "in the input's unit"},
        {"highest", &Uniform::highest, -widest, widest, {}, "in the input's unit"},
    };
    return rows;
}

std::string_view Uniform::inconsistency() const {
    return lowest <= highest ? std::string_view() : wrong_ends;
}

const plant_models::ParameterTable<Triangular>& Triangular::table() {
    static const plant_models::ParameterTable<Triangular> rows = {
        {"lowest", &Triangular::lowest, -widest, widest, {}, "in the input's unit"},
        {"likeliest", &Triangular::likeliest, -widest, widest, {}, "the triangle's tip"},
        {"highest", &Triangular::highest, -widest, widest, {}, "in the input's unit"},
    };
    return rows;
}

std::string_view Triangular::inconsistency() const {
    return lowest <= likeliest && likeliest <= highest && lowest < highest ? std::string_view()
                                                                           : wrong_likeliest;
}

const plant_models::ParameterTable<TruncatedNormal>& TruncatedNormal::table() {
    using N = TruncatedNormal;
    static const plant_models::ParameterTable<N> rows = {
        {"mean", &N::mean, -widest, widest, {}, "in the input's unit"},
        {"deviation", &N::deviation, 1e-6, widest, {}, "standard deviation before the cut"},
        {"lowest", &N::lowest, -widest, widest, {}, "where it is cut off"},
        {"highest", &N::highest, -widest, widest, {}, "where it is cut off"},
    };
    return rows;
}

std::string_view TruncatedNormal::inconsistency() const {
    return lowest <= mean && mean <= highest ? std::string_view() : wrong_mean;
}

const plant_models::ParameterTable<TruncatedLogNormal>& TruncatedLogNormal::table() {
    using L = TruncatedLogNormal;
    static const plant_models::ParameterTable<L> rows = {
        {"median", &L::median, 1e-6, widest, {}, "in the input's unit"},
        {"deviation_factor",
         &L::deviation_factor,
         1.0001,
         1000,
         {},
         "two values of three lie within this factor of the median, before the cut"},
        {"lowest", &L::lowest, 1e-6, widest, {}, "where it is cut off"},
        {"highest", &L::highest, 1e-6, widest, {}, "where it is cut off"},
    };
    return rows;
}

std::string_view TruncatedLogNormal::inconsistency() const {
    return lowest <= median && median <= highest ? std::string_view() : wrong_median;
}

double drawn_value(const Distribution& distribution, double even) {
    return std::visit(Draw{even}, distribution);
}

double lowest_of(const Distribution& distribution) {
    return drawn_value(distribution, 0.0);
}

double highest_of(const Distribution& distribution) {
    return drawn_value(distribution, 1.0);
}

}  // namespace sim
