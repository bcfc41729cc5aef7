// From what is printed on a unit to a motor and a load: the whole of `runup fit`.
//
// The model behind it is that of plant_models/motor: no saturation, one cage. What saturation and a
// deep cage do to a locked rotor is then in its leakage and rotor resistance, which is right for
// starting and a little off for running.
#pragma once

#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

#include "plant_models/loads/polynomial.hpp"
#include "sim/fitting/motor_class.hpp"
#include "sim/fitting/motor_space.hpp"
#include "sim/fitting/nameplate.hpp"
#include "sim/fitting/open_ranges.hpp"

namespace sim {

struct NameplateFit {
    Nameplate nameplate;
    MotorClass motor_class;  ///< what was asked of the motor
    Candidate fitted;
    bool bands_held = false;  ///< no: the ranges below let every broken band reach to the fit
    std::vector<OpenRange> open;
    plant_models::PolynomialLoadParameters load;
    std::optional<double> displacement_cm3;
    std::vector<std::string> assumptions;  ///< one sentence each, without a full stop
};

/// The printed figures contradict each other in a way that no single check could name. The message
/// is one sentence that begins with a key.
class NoSuchMotor : public std::runtime_error {
  public:
    using std::runtime_error::runtime_error;
};

/// The nameplate must be free of inconsistencies. Throws NoSuchMotor.
NameplateFit fit_nameplate(const Nameplate&);

}  // namespace sim
