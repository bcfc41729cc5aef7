#include "sim/sizing/site_checks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "sim/bench/library_overview.hpp"
#include "sim/sizing/voltage_change.hpp"

namespace sim {

namespace {

/// Where the limiter's reading is told: its smallest supply, else the first on which it starts.
const SupplyFindings* limited_example(const SizeReport& report) {
    for (const SupplyRole role : {SupplyRole::storage, SupplyRole::engine}) {
        const SmallestSupply* smallest = report.decision.smallest_for(role, Way::limiter);
        if (smallest != nullptr && smallest->index) {
            return &report.findings.supplies[*smallest->index];
        }
    }
    for (const SupplyFindings& on : report.findings.supplies) {
        if (on.by(Way::limiter).starts_normally()) {
            return &on;
        }
    }
    return nullptr;
}

std::optional<std::string> before(const SizeReport& report) {
    const std::optional<OneStart>& start = report.findings.on_stiff_line;
    if (!start || !start->clamp_A || !brought_up(report.sized.unit, Way::directly)) {
        return std::nullopt;
    }
    return fmt::format(
        "Before: an inrush clamp (100 ms) on the line at the unit should read about {:.0f} A as it "
        "starts directly on a stiff line; its locked rotor draws {:.0f} A. Above {:.0f} A: the "
        "line is above its rated voltage, or this is another compressor than the one looked at.",
        *start->clamp_A, locked_rotor_A(report.sized.unit),
        suspicious_share * std::max(*start->clamp_A, locked_rotor_A(report.sized.unit)));
}

std::optional<std::string> after(const SizeReport& report) {
    const SupplyFindings* on = limited_example(report);
    if (on == nullptr || !on->by(Way::limiter).normal_day->clamp_A) {
        return std::nullopt;
    }
    const WayOnSupply& limited = on->by(Way::limiter);
    const double usual_A = *limited.normal_day->clamp_A;
    const double highest_A =
        limited.bad_clamp ? std::max(usual_A, limited.bad_clamp->highest_A) : usual_A;
    return fmt::format(
        "After: with the limiter on {} the same clamp should read about {:.0f} A, up to {:.0f} A "
        "on a bad day. Above {:.0f} A: the start capacitor is not in circuit or is worn out, R and "
        "S are exchanged, the pressures had not equalised, or the limiter has not settled yet (let "
        "it make five starts, minutes apart).",
        on->supply.name, usual_A, highest_A, suspicious_share * highest_A);
}

std::optional<std::string> running(const SizeReport& report) {
    if (!report.findings.running_current_A) {
        return std::nullopt;
    }
    return fmt::format(
        "Running: about {:.1f} A on a hot day, once the pressures have built up. More: a dirty "
        "condenser, too much charge, or a run capacitor that has aged.",
        *report.findings.running_current_A);
}

/// Of the utilities on which it comes up directly.
std::vector<std::string> lights(const SizeReport& report) {
    std::vector<std::string> sentences;
    for (const SupplyFindings& on : report.findings.supplies) {
        const Scenario unit = on_supply(report.sized.unit, on.supply);
        std::string words;
        for (const Way way : {Way::directly, Way::limiter}) {
            const auto& day = on.by(way).normal_day;
            if (!day || !day->came_up || !day->half_cycle_A) {
                continue;
            }
            const std::optional<double> change = relative_voltage_change(unit, *day->half_cycle_A);
            if (change) {
                words += fmt::format("{}{:.1f} % {}", words.empty() ? "" : ", ", 100.0 * *change,
                                     way == Way::directly ? "directly" : "through the limiter");
            }
        }
        if (!words.empty()) {
            sentences.push_back(fmt::format(
                "Lights on {}: a start changes the household's voltage by {}. Above about {:.0f} % "
                "lamps are seen to blink (the general limit of IEC 61000-3-3, recalled{}).",
                on.supply.name, words, 100.0 * visible_voltage_change,
                on.supply.frequency_Hz() > 55.0 ? "; it sets none for 60 Hz" : ""));
        }
    }
    return sentences;
}

}  // namespace

std::vector<std::string> site_checks(const SizeReport& report) {
    std::vector<std::string> sentences;
    for (const auto& sentence : {before(report), after(report), running(report)}) {
        if (sentence) {
            sentences.push_back(*sentence);
        }
    }
    for (std::string& sentence : lights(report)) {
        sentences.push_back(std::move(sentence));
    }
    return sentences;
}

}  // namespace sim
