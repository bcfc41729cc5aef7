#include "sim/recorder/comtrade_scale.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>

namespace sim {

ComtradeScale::ComtradeScale(std::int64_t lowest, std::int64_t highest, int digits,
                             std::int64_t most)
    : digits_(digits) {
    if (lowest >= -most && highest <= most) {
        return;
    }
    middle_ = lowest + (highest - lowest) / 2;
    const std::int64_t reach = std::max(highest - middle_, middle_ - lowest);
    step_ = std::max<std::int64_t>(1, (reach + most - 1) / most);
}

std::int64_t ComtradeScale::number_of(std::int64_t reading) const {
    const std::int64_t from_middle = reading - middle_;
    const std::int64_t half = step_ / 2;
    return (from_middle < 0 ? from_middle - half : from_middle + half) / step_;
}

std::string ComtradeScale::in_units(std::int64_t multiple) const {
    std::string text = fmt::format("{:0{}}", std::abs(multiple), digits_ + 1);
    if (digits_ > 0) {
        text.insert(text.size() - static_cast<std::size_t>(digits_), ".");
    }
    return multiple < 0 ? "-" + text : text;
}

}  // namespace sim
