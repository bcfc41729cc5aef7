// What is taken for granted about a motor of a nameplate's kind, because the nameplate does not
// print it: bands for figures, and bounds with a usual value for what the motor is made of.
//
// Three kinds are told apart: motors with a run capacitor, the same below 0.5 kVA, and motors that
// start on a thermistor and run on the main winding alone. Every number's origin is in
// motor_class.cpp and in the result.
#pragma once

#include <string_view>
#include <vector>

#include "sim/fitting/motor_figures.hpp"
#include "sim/fitting/nameplate.hpp"

namespace sim {

/// A figure that is not printed, with the band in which it is accepted.
struct SoftFigure {
    std::string_view name;  ///< as in MotorFigures
    std::string_view words;
    double MotorFigures::*member;
    double lowest;
    double highest;
    std::string_view origin;
};

/// A figure that is printed and must be met.
struct HardFigure {
    std::string_view name;
    std::string_view words;
    double MotorFigures::*member;
    double asked;
};

/// One unknown of the fit, positive, searched on a logarithmic scale.
struct Unknown {
    double lowest;
    double usual;
    double highest;
};

/// Impedances are in units of rated voltage / rated-load current.
struct MotorClass {
    std::vector<HardFigure> hard;
    std::vector<SoftFigure> soft;

    Unknown main_resistance, main_leakage, rotor_resistance, magnetizing;
    Unknown rotor_leakage_ratio;   ///< over the main winding's leakage
    Unknown turns_ratio;           ///< auxiliary over main
    Unknown aux_resistance_ratio;  ///< over the main winding's, each per turn squared
    Unknown aux_leakage_ratio;     ///< likewise
    Unknown rated_slip;
    Unknown iron_share, mechanical_share;  ///< of the losses at rated load
};

MotorClass class_of(const Nameplate&);

}  // namespace sim
