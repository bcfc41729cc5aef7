#include "sim/results/fit_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sim/fitting/acceptance.hpp"
#include "sim/results/fit_toml.hpp"
#include "sim/results/wrapped_text.hpp"

namespace sim {

namespace {

constexpr int gauge_width = 21;

/// Where the fitted value lies between the two ends: `|----o------|`.
std::string gauge(double lowest, double fitted, double highest) {
    const double share = highest > lowest ? (fitted - lowest) / (highest - lowest) : 0.5;
    std::string line(static_cast<std::size_t>(gauge_width), '-');
    const auto at = std::lround(std::clamp(share, 0.0, 1.0) * (gauge_width - 1));
    line[static_cast<std::size_t>(at)] = 'o';
    return "|" + line + "|";
}

/// Never "-0.000", which looks like a sign that means something.
std::string percent(double share) {
    const double thousandths = std::round(1e5 * share);
    return fmt::format("{:+.3f} %", thousandths == 0.0 ? 0.0 : 1e-3 * thousandths);
}

std::string figures_table(const NameplateFit& fit) {
    std::string text = fmt::format("  {:<32} {:>14} {:>10}\n", "figure", "asked", "fitted");
    for (const HardFigure& hard : fit.motor_class.hard) {
        const double got = fit.fitted.figures.*hard.member;
        text += fmt::format("  {:<32} {:>14.5g} {:>10.5g}   {}\n",
                            fmt::format("{}, {}", hard.words, hard.name.back()), hard.asked, got,
                            percent(difference(hard, fit.fitted.figures)));
    }
    for (const SoftFigure& soft : fit.motor_class.soft) {
        const bool is_inside = inside_band(soft, fit.fitted.figures);
        text += fmt::format("  {:<32} {:>14} {:>10.3g}   {}\n", soft.words,
                            fmt::format("{:.3g} to {:.3g}", soft.lowest, soft.highest),
                            fit.fitted.figures.*soft.member, is_inside ? "inside" : "OUTSIDE");
    }
    return text;
}

std::string open_table(const NameplateFit& fit, bool parameters) {
    std::string text;
    for (const OpenRange& range : fit.open) {
        if (range.is_parameter == parameters) {
            text += fmt::format("  {:<32} {:>10.4g}   {:>10.4g} {} {:.4g}\n", range.name,
                                range.fitted, range.lowest,
                                gauge(range.lowest, range.fitted, range.highest), range.highest);
        }
    }
    return text;
}

}  // namespace

std::string fit_verdict(const NameplateFit& fit) {
    double worst = 0.0;
    for (const HardFigure& hard : fit.motor_class.hard) {
        worst = std::max(worst, std::abs(difference(hard, fit.fitted.figures)));
    }
    const auto held = std::count_if(
        fit.motor_class.soft.begin(), fit.motor_class.soft.end(),
        [&fit](const SoftFigure& soft) { return inside_band(soft, fit.fitted.figures); });
    return fmt::format("fitted: {} printed figures met within {:.3f} %, {} of {} bands held\n",
                       fit.motor_class.hard.size(), 100.0 * worst, held,
                       fit.motor_class.soft.size());
}

std::string fit_text(const NameplateFit& fit) {
    std::string text = fmt::format("{}\n\n  {}\n", fit.nameplate.title, fit_verdict(fit));
    text += figures_table(fit);
    if (!fit.bands_held) {
        text += "\n  No motor has the printed figures and keeps every band: check the nameplate.\n";
    }
    text += fmt::format("\n  {:<32} {:>10}   {:>10} {} {}\n", "what the nameplate leaves open",
                        "fitted", "lowest", std::string(gauge_width + 2U, ' '), "highest");
    text += open_table(fit, true) + "\n" + open_table(fit, false);
    text += "\n  Assumed\n";
    for (const std::string& assumption : fit.assumptions) {
        text += wrapped("  - ", "    ", assumption);
    }
    return text + "\n  To copy into a scenario\n\n" + fit_tables(fit);
}

}  // namespace sim
