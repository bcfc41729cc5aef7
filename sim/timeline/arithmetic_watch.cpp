#include "sim/timeline/arithmetic_watch.hpp"

#include <cfenv>

#include "sim/timeline/plant_run.hpp"

namespace sim {

namespace {
constexpr int watched = FE_INVALID | FE_OVERFLOW | FE_DIVBYZERO;
}

ArithmeticWatch::ArithmeticWatch() {
    std::feclearexcept(watched);
}

void ArithmeticWatch::check() const {
    const int happened = std::fetestexcept(watched);
    if ((happened & FE_INVALID) != 0) {
        throw NumericFailure("an invalid operation happened in the arithmetic");
    }
    if ((happened & FE_DIVBYZERO) != 0) {
        throw NumericFailure("a division by zero happened in the arithmetic");
    }
    if ((happened & FE_OVERFLOW) != 0) {
        throw NumericFailure("a number became too large");
    }
}

}  // namespace sim
