// What the nameplate leaves open: for each parameter and figure, the lowest and highest value that
// a motor may have and still be accepted (see acceptance.hpp).
//
// Each end is searched for by pushing that one value, all others free, in four rounds from
// different starting places. Every accepted motor that any of the searches looks at counts for
// every range. So each end belongs to a motor that was seen; the true range may be wider still, if
// a search stopped early.
#pragma once

#include <string_view>
#include <vector>

#include "sim/fitting/motor_class.hpp"
#include "sim/fitting/motor_space.hpp"
#include "sim/fitting/usual_motor.hpp"

namespace sim {

struct OpenRange {
    std::string_view name;  ///< a key of [motor], or a member of MotorFigures
    bool is_parameter = false;
    double fitted = 0.0;
    double lowest = 0.0;
    double highest = 0.0;
};

/// In the order of the motor's parameter table, then the figures. What is known (ratings, the
/// capacitor) or only estimated (inertia) has no range here.
std::vector<OpenRange> find_open_ranges(const MotorSpace&, const MotorClass&, const UsualMotor&);

}  // namespace sim
