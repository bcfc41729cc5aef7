#include "sim/fitting/nameplate_fit.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sim/fitting/acceptance.hpp"
#include "sim/fitting/assumptions.hpp"
#include "sim/fitting/inertia_estimate.hpp"
#include "sim/fitting/load_estimate.hpp"
#include "sim/fitting/usual_motor.hpp"

namespace sim {

namespace {

/// The key that gave a printed figure: the shaft's power has two.
std::string_view key_of(const HardFigure& hard, const Nameplate& plate) {
    const bool is_in_hp = hard.name == "shaft_power_W" && !plate.shaft_power_W;
    return is_in_hp ? "power_hp" : hard.name;
}

[[noreturn]] void refuse(const NameplateFit& fit) {
    const MotorFigures& figures = fit.fitted.figures;
    const MotorClass& motor_class = fit.motor_class;
    const HardFigure& worst = *std::max_element(
        motor_class.hard.begin(), motor_class.hard.end(),
        [&figures](const HardFigure& one, const HardFigure& other) {
            return std::abs(difference(one, figures)) < std::abs(difference(other, figures));
        });
    throw NoSuchMotor(fmt::format(
        "{} asks for {:.5g} {}, but the nearest motor to all the figures comes to {:.5g}; give "
        "about "
        "that, or correct the other figures",
        key_of(worst, fit.nameplate), worst.asked, worst.name.back(), figures.*worst.member));
}

/// Every broken band reaches to the fit, so that ranges around it exist.
MotorClass with_bands_reaching_to(const MotorFigures& figures, MotorClass motor_class) {
    for (SoftFigure& soft : motor_class.soft) {
        soft.lowest = std::min(soft.lowest, figures.*soft.member);
        soft.highest = std::max(soft.highest, figures.*soft.member);
    }
    return motor_class;
}

/// Behind the parameters, before the figures.
void insert_inertia(std::vector<OpenRange>& open, const Nameplate& plate, double fitted) {
    const InertiaEstimate inertia = inertia_estimate(plate);
    const auto first_figure = std::find_if(
        open.begin(), open.end(), [](const OpenRange& range) { return !range.is_parameter; });
    open.insert(first_figure, OpenRange{"inertia_kg_m2", true, fitted, inertia.lowest_kg_m2,
                                        inertia.highest_kg_m2});
}

}  // namespace

NameplateFit fit_nameplate(const Nameplate& plate) {
    NameplateFit fit;
    fit.nameplate = plate;
    fit.motor_class = class_of(plate);
    const MotorSpace space(plate, fit.motor_class);
    const UsualMotor usual = find_usual_motor(space, fit.motor_class);
    fit.fitted = usual.candidate;
    if (!meets_printed_figures(fit.motor_class, fit.fitted.figures)) {
        refuse(fit);
    }
    fit.bands_held = is_accepted(fit.motor_class, fit.fitted);
    fit.open =
        find_open_ranges(space, with_bands_reaching_to(fit.fitted.figures, fit.motor_class), usual);
    insert_inertia(fit.open, plate, fit.fitted.motor.inertia_kg_m2);
    fit.load = load_estimate(plate, fit.fitted.figures);
    fit.displacement_cm3 = displacement_cm3(plate, fit.fitted.figures);
    fit.assumptions = assumptions_of(plate, fit.displacement_cm3.has_value());
    return fit;
}

}  // namespace sim
