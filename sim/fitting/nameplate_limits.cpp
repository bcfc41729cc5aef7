#include "sim/fitting/nameplate_limits.hpp"

#include <fmt/format.h>

#include <cmath>

#include "plant_models/numeric/units.hpp"
#include "sim/fitting/nameplate.hpp"

namespace sim {

namespace {

constexpr double widest_voltage_range = 1.35;
constexpr double lowest_current_ratio = 2.5;
constexpr double highest_current_ratio = 9.0;
constexpr double highest_shaft_share = 0.92;

/// Small motors waste most of what they take; a large one that did would not last.
double lowest_shaft_share(double apparent_VA) {
    return apparent_VA < 500.0 ? 0.25 : apparent_VA < 1500.0 ? 0.4 : 0.5;
}

/// Of the shaft's power in a sentence: the key that gave it, and its value as printed.
std::string shaft_text(const Nameplate& plate) {
    if (plate.shaft_power_W) {
        return fmt::format("shaft_power_W is {:.5g}", *plate.shaft_power_W);
    }
    return fmt::format("power_hp is {:.4g} ({:.0f} W)", *plate.power_hp, *plate.printed_shaft_W());
}

/// An amount of watts in the unit of the key that gave the shaft's power.
std::string in_its_unit(const Nameplate& plate, double power_W) {
    return plate.shaft_power_W ? fmt::format("{:.0f}", power_W)
                               : fmt::format("{:.2f}", power_W / watts_per_hp);
}

std::string shaft_fault(const Nameplate& plate, double shaft_W) {
    const double apparent_VA = plate.rated_apparent_VA();
    const std::string supplied =
        fmt::format("{:.4g} A at {:.4g} V carry {:.0f} VA", plate.rated_load_current_A,
                    plate.rated_voltage_V(), apparent_VA);
    const double highest_W = highest_shaft_share * apparent_VA;
    const double lowest_W = lowest_shaft_share(apparent_VA) * apparent_VA;
    if (shaft_W > highest_W) {
        return fmt::format(
            "{}, but {}, of which no motor turns more than {:.0f} % into work; give at most {} "
            "or correct rated_load_current_A",
            shaft_text(plate), supplied, 100.0 * highest_shaft_share,
            in_its_unit(plate, highest_W));
    }
    if (shaft_W < lowest_W) {
        return fmt::format(
            "{}, but {}, and a motor of this size turns at least {:.0f} % into work; give at "
            "least {} or correct rated_load_current_A",
            shaft_text(plate), supplied, 100.0 * lowest_shaft_share(apparent_VA),
            in_its_unit(plate, lowest_W));
    }
    return {};
}

std::string cooling_fault(const Nameplate& plate, const char* of_what, double power,
                          double lowest_ratio, double highest_ratio) {
    const double cooling_W = *plate.cooling_capacity_W;
    if (cooling_W < lowest_ratio * power || cooling_W > highest_ratio * power) {
        return fmt::format(
            "cooling_capacity_W is {:.6g}, {:.2f} times {} ({:.0f}), which no compressor does; "
            "give {:.0f} to {:.0f}",
            cooling_W, cooling_W / power, of_what, power, std::ceil(lowest_ratio * power),
            std::floor(highest_ratio * power));
    }
    return {};
}

}  // namespace

std::string voltage_fault(const Nameplate& plate) {
    const bool has_range = plate.lowest_voltage_V || plate.highest_voltage_V;
    if (plate.voltage_V && has_range) {
        return "voltage_V stands beside a range; give voltage_V alone, or lowest_voltage_V and "
               "highest_voltage_V";
    }
    if (plate.voltage_V) {
        return {};
    }
    if (!has_range) {
        return "voltage_V is missing; give a number from 100 to 250, or lowest_voltage_V and "
               "highest_voltage_V where a range is printed";
    }
    if (!plate.lowest_voltage_V || !plate.highest_voltage_V) {
        return fmt::format(
            "{} stands alone; give both lowest_voltage_V and highest_voltage_V, or voltage_V",
            plate.lowest_voltage_V ? "lowest_voltage_V" : "highest_voltage_V");
    }
    if (*plate.lowest_voltage_V >= *plate.highest_voltage_V) {
        return fmt::format(
            "lowest_voltage_V is {:.4g} and not below highest_voltage_V, {:.4g}; give the lower "
            "end first, or voltage_V where one voltage is printed",
            *plate.lowest_voltage_V, *plate.highest_voltage_V);
    }
    if (*plate.highest_voltage_V > widest_voltage_range * *plate.lowest_voltage_V) {
        return fmt::format(
            "lowest_voltage_V is {:.4g}, too far below highest_voltage_V, {:.4g}, for one way of "
            "wiring; give at least {:.0f}",
            *plate.lowest_voltage_V, *plate.highest_voltage_V,
            std::ceil(*plate.highest_voltage_V / widest_voltage_range));
    }
    return {};
}

std::string frequency_fault(const Nameplate& plate) {
    if (plate.frequency_Hz == 50.0 || plate.frequency_Hz == 60.0) {
        return {};
    }
    return fmt::format("frequency_Hz is {:.6g}; give 50 or 60", plate.frequency_Hz);
}

std::string current_fault(const Nameplate& plate) {
    const double rated_A = plate.rated_load_current_A;
    const double locked_A = plate.locked_rotor_current_A;
    const std::string accepted =
        fmt::format("give {:.1f} to {:.1f}, which is {:.1f} to {:.0f} times rated_load_current_A",
                    lowest_current_ratio * rated_A, highest_current_ratio * rated_A,
                    lowest_current_ratio, highest_current_ratio);
    if (locked_A <= rated_A) {
        return fmt::format(
            "locked_rotor_current_A is {:.4g}, no more than the {:.4g} of rated_load_current_A "
            "(the two may be swapped); {}",
            locked_A, rated_A, accepted);
    }
    const double ratio = locked_A / rated_A;
    if (ratio < lowest_current_ratio || ratio > highest_current_ratio) {
        return fmt::format(
            "locked_rotor_current_A is {:.4g}, {:.1f} times the rated-load current; {}", locked_A,
            ratio, accepted);
    }
    return {};
}

std::string power_fault(const Nameplate& plate) {
    const std::optional<double> shaft_W = plate.printed_shaft_W();
    if (!shaft_W && !plate.cooling_capacity_W) {
        return "power_hp is missing; give power_hp, shaft_power_W or cooling_capacity_W, at least "
               "one of them";
    }
    if (plate.power_hp && plate.shaft_power_W) {
        const double same_W = *plate.power_hp * watts_per_hp;
        if (std::abs(same_W - *plate.shaft_power_W) > 0.03 * same_W) {
            return fmt::format(
                "shaft_power_W is {:.5g}, but {:.4g} hp are {:.0f} W; give one of the two",
                *plate.shaft_power_W, *plate.power_hp, same_W);
        }
    }
    if (shaft_W) {
        if (std::string fault = shaft_fault(plate, *shaft_W); !fault.empty()) {
            return fault;
        }
    }
    if (!plate.cooling_capacity_W) {
        return {};
    }
    return shaft_W ? cooling_fault(plate, "the power at the shaft", *shaft_W, 1.0, 5.5)
                   : cooling_fault(plate, "rated voltage times rated-load current",
                                   plate.rated_apparent_VA(), 0.5, 4.5);
}

std::string capacitor_fault(const Nameplate& plate) {
    if (!plate.has_run_capacitor()) {
        return {};
    }
    const double least_A_per_uF = std::sqrt(2.0) * 2.0 * plant_models::pi * plate.frequency_Hz *
                                  plate.rated_voltage_V() * 1e-6;
    const double least_A = least_A_per_uF * plate.run_capacitor_uF;
    const double highest_uF = plate.rated_load_current_A / least_A_per_uF;
    if (least_A > plate.rated_load_current_A) {
        return fmt::format(
            "run_capacitor_uF is {:.4g}, which would carry {:.3g} A or more while running, more "
            "than rated_load_current_A (it may be a start capacitor); give at most {:.0f}",
            plate.run_capacitor_uF, least_A, std::floor(highest_uF));
    }
    if (least_A < 0.02 * plate.rated_load_current_A) {
        return fmt::format(
            "run_capacitor_uF is {:.4g}, too little to do anything beside {:.4g} A; give at least "
            "{:.2g}, or 0 where there is none",
            plate.run_capacitor_uF, plate.rated_load_current_A, 0.02 * highest_uF + 0.1);
    }
    return {};
}

std::string thermistor_fault(const Nameplate& plate) {
    if (plate.has_run_capacitor() && plate.start_thermistor_ohm) {
        return "start_thermistor_ohm is for a motor without a run capacitor; leave it out, or give "
               "run_capacitor_uF = 0";
    }
    return {};
}

}  // namespace sim
