#include "plant_models/loads/scroll_pockets.hpp"

#include <algorithm>

namespace plant_models {

namespace {
double end_angle_rad(double wrap_turns) {
    return (2.0 * wrap_turns - 1.0) * pi;
}
/// Opening and closing must not fall on the same angle: the order of the two events would be open.
constexpr double apart_rad = 1e-6;
}  // namespace

double ScrollPockets::compression_span_rad(double volume_ratio, double wrap_turns) {
    return end_angle_rad(wrap_turns) * (1.0 - 1.0 / volume_ratio);
}

ScrollPockets::ScrollPockets(const Figures& figures)
    : displacement_(figures.displacement_m3),
      closed_shrinking_(figures.displacement_m3 / end_angle_rad(figures.wrap_turns)),
      forming_growth_(figures.displacement_m3 / turn_rad),
      opening_angle_(
          std::clamp(compression_span_rad(figures.volume_ratio, figures.wrap_turns) - turn_rad,
                     apart_rad, turn_rad - apart_rad)),
      discharge_volume_(inner_m3(opening_angle_)),
      central_shrinking_(discharge_volume_ / turn_rad) {}

}  // namespace plant_models
