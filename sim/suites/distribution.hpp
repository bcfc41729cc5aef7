// The distributions from which chance draws a number. Each is drawn through its quantile function
// from one even number between 0 and 1, so that two suites that differ in a width only still draw
// corresponding values.
#pragma once

#include <string_view>
#include <variant>

#include "plant_models/parameter_table.hpp"

namespace sim {

struct FixedValue {
    static constexpr std::string_view kind = "fixed";
    double value = 0.0;
    static const plant_models::ParameterTable<FixedValue>& table();
};

/// Every value as likely as any other.
struct Uniform {
    static constexpr std::string_view kind = "uniform";
    double lowest = 0.0;
    double highest = 0.0;
    static const plant_models::ParameterTable<Uniform>& table();
    std::string_view inconsistency() const;
};

struct Triangular {
    static constexpr std::string_view kind = "triangular";
    double lowest = 0.0;
    double likeliest = 0.0;
    double highest = 0.0;
    static const plant_models::ParameterTable<Triangular>& table();
    std::string_view inconsistency() const;
};

/// Cut off at both ends; what lies beyond is shared out over the rest.
struct TruncatedNormal {
    static constexpr std::string_view kind = "normal";
    double mean = 0.0;
    double deviation = 0.0;  ///< standard deviation before it is cut off
    double lowest = 0.0;
    double highest = 0.0;
    static const plant_models::ParameterTable<TruncatedNormal>& table();
    std::string_view inconsistency() const;
};

/// Of which the logarithm is normal, cut off in the same way.
struct TruncatedLogNormal {
    static constexpr std::string_view kind = "log_normal";
    double median = 0.0;            ///< above 0
    double deviation_factor = 0.0;  ///< above 1: two of three values lie within this factor
    double lowest = 0.0;
    double highest = 0.0;
    static const plant_models::ParameterTable<TruncatedLogNormal>& table();
    std::string_view inconsistency() const;
};

using Distribution =
    std::variant<FixedValue, Uniform, Triangular, TruncatedNormal, TruncatedLogNormal>;

/// `even` from 0 to 1; the result lies between lowest and highest.
double drawn_value(const Distribution& distribution, double even);

double lowest_of(const Distribution& distribution);
double highest_of(const Distribution& distribution);

}  // namespace sim
