#include "sim/results/fit_toml.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <variant>

#include "sim/results/wrapped_text.hpp"
#include "sim/scenario/key.hpp"

namespace sim {

namespace {

/// Where the value of a motor's key comes from.
std::string origin_of(const NameplateFit& fit, std::string_view key) {
    const auto range = std::find_if(fit.open.begin(), fit.open.end(), [key](const OpenRange& one) {
        return one.is_parameter && one.name == key;
    });
    if (range != fit.open.end()) {
        return fmt::format("{}: {:.4g} to {:.4g}", key == "inertia_kg_m2" ? "estimated" : "open",
                           range->lowest, range->highest);
    }
    if (key == "poles") {
        return fit.nameplate.poles ? "printed" : "not printed; usual";
    }
    return key == "run_capacitor_esr_ohm" ? "judgement" : "printed";
}

template <class P>
std::string value_text(const P& parameters, const plant_models::Parameter<P>& row) {
    return std::visit(
        [&parameters](auto member) { return number_text(static_cast<double>(parameters.*member)); },
        row.member);
}

std::string printed_line(const Nameplate& plate) {
    const std::string voltage =
        plate.voltage_V
            ? fmt::format("{:.4g} V", *plate.voltage_V)
            : fmt::format("{:.4g} to {:.4g} V", *plate.lowest_voltage_V, *plate.highest_voltage_V);
    std::string text =
        fmt::format("{}, {:.0f} Hz, {:.4g} A rated, {:.4g} A locked", voltage, plate.frequency_Hz,
                    plate.rated_load_current_A, plate.locked_rotor_current_A);
    text += plate.has_run_capacitor() ? fmt::format(", {:.4g} uF", plate.run_capacitor_uF)
                                      : ", no run capacitor";
    if (plate.shaft_power_W) {
        text += fmt::format(", {:.5g} W at the shaft", *plate.shaft_power_W);
    } else if (plate.power_hp) {
        text += fmt::format(", {:.4g} hp", *plate.power_hp);
    }
    if (plate.cooling_capacity_W) {
        text += fmt::format(", {:.5g} W of cooling", *plate.cooling_capacity_W);
    }
    return text;
}

}  // namespace

std::string fit_toml(const NameplateFit& fit) {
    std::string text = fmt::format(
        "# {}\n#\n{}"
        "# Open: the lowest and highest value that the nameplate and its class still allow.\n",
        fit.nameplate.title,
        wrapped("# Fitted from the nameplate: ", "#   ", printed_line(fit.nameplate) + "."));
    for (const std::string& assumption : fit.assumptions) {
        text += wrapped("# - ", "#   ", assumption);
    }
    if (!fit.bands_held) {
        text += "# This motor is outside a band of its class: check the nameplate.\n";
    }
    return text + "\n" + fit_tables(fit);
}

std::string fit_tables(const NameplateFit& fit) {
    std::string text = "[motor]\n";
    for (const auto& row : plant_models::MotorParameters::table()) {
        text += fmt::format("{:<40} # {}\n",
                            fmt::format("{} = {}", row.key, value_text(fit.fitted.motor, row)),
                            origin_of(fit, row.key));
    }
    text += fmt::format("\n# Takes the rated torque, {:.4g} N m, at the rated speed.\n[load]\n",
                        fit.fitted.figures.rated_torque_Nm);
    text += fmt::format("kind = \"{}\"\n", plant_models::PolynomialLoadParameters::kind);
    for (const auto& row : plant_models::PolynomialLoadParameters::table()) {
        text += fmt::format("{} = {}\n", row.key, value_text(fit.load, row));
    }
    if (!fit.nameplate.has_run_capacitor()) {
        text += fmt::format(
            "\n# What the locked-rotor current was fitted with.\n[start_aid]\n"
            "kind = \"thermistor\"\ncold_resistance_ohm = {}\n",
            number_text(fit.nameplate.starting_resistance_ohm()));
    }
    if (fit.displacement_cm3) {
        text += fmt::format("# Displacement for a compressor load: about {:.3g} cm3.\n",
                            *fit.displacement_cm3);
    }
    return text;
}

}  // namespace sim
