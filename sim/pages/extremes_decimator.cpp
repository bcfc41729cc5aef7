#include "sim/pages/extremes_decimator.hpp"

namespace sim {

void ExtremesDecimator::keep(const Point& point) {
    if (trace_.time_s.empty() || point.time_s > trace_.time_s.back()) {
        trace_.time_s.push_back(point.time_s);
        trace_.value.push_back(point.value);
    }
}

void ExtremesDecimator::add(double time_s, double value) {
    const Point point{time_s, value};
    if (!last_) {
        keep(point);
    }
    last_ = point;
    if (!smallest_ || value < smallest_->value) {
        smallest_ = point;
    }
    if (!largest_ || value > largest_->value) {
        largest_ = point;
    }
}

void ExtremesDecimator::close_bucket() {
    if (!smallest_) {
        return;
    }
    const bool smallest_first = smallest_->time_s < largest_->time_s;
    keep(smallest_first ? *smallest_ : *largest_);
    keep(smallest_first ? *largest_ : *smallest_);
    smallest_.reset();
    largest_.reset();
}

const Trace& ExtremesDecimator::finish() {
    close_bucket();
    if (last_) {
        keep(*last_);
    }
    return trace_;
}

}  // namespace sim
