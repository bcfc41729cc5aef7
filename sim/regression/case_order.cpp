#include "sim/regression/case_order.hpp"

#include <cmath>
#include <initializer_list>
#include <numeric>

namespace sim {

CaseOrder::CaseOrder(std::int64_t cases) : cases_(cases), step_(1) {
    constexpr double golden_ratio = 1.618033988749895;
    const auto ideal =
        static_cast<std::int64_t>(std::llround(static_cast<double>(cases) / golden_ratio));
    for (std::int64_t away = 0; away < cases; ++away) {
        for (const std::int64_t step : {ideal + away, ideal - away}) {
            if (step > 0 && std::gcd(step, cases) == 1) {
                step_ = step;
                return;
            }
        }
    }
}

std::int64_t CaseOrder::id_at(std::int64_t place) const {
    // Below 2^31 cases the product stays in its type.
    return place * step_ % cases_;
}

}  // namespace sim
