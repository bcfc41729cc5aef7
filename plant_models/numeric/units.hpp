// Constants and conversions that several models share.
#pragma once

namespace plant_models {

inline constexpr double pi = 3.14159265358979323846;

constexpr double rpm_to_rad_per_s(double speed_rpm) {
    return speed_rpm * (pi / 30.0);
}
constexpr double rad_per_s_to_rpm(double speed_rad_per_s) {
    return speed_rad_per_s * (30.0 / pi);
}
constexpr double degrees_to_radians(double angle_deg) {
    return angle_deg * (pi / 180.0);
}

}  // namespace plant_models
