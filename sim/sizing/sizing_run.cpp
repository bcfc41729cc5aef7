#include "sim/sizing/sizing_run.hpp"

#include <algorithm>
#include <cstddef>
#include <optional>
#include <utility>

#include "sim/bench/start_run.hpp"
#include "sim/sizing/bad_day.hpp"
#include "sim/sizing/decided_start.hpp"
#include "sim/sizing/stiff_line.hpp"

namespace sim {

namespace {

/// A supply and a way that can be fitted there.
struct Candidate {
    WayOnSupply* way;
    Scenario scenario;
};

std::vector<Candidate> candidates_of(SizingFindings& findings, const Scenario& unit) {
    std::vector<Candidate> candidates;
    for (SupplyFindings& on : findings.supplies) {
        for (WayOnSupply& way : on.ways) {
            if (auto scenario = brought_up(on_supply(unit, on.supply), way.way)) {
                way.fits = true;
                candidates.push_back({&way, *std::move(scenario)});
            }
        }
    }
    return candidates;
}

void run_normal_days(SizingFindings& findings, std::vector<Candidate>& candidates,
                     const Scenario& unit, int threads, const CampaignProgress& progress) {
    const std::size_t count = candidates.size() + 1;
    // The stiff line first: it takes longest.
    const auto run_case = [&](std::size_t k) {
        if (k == 0) {
            const StiffLine stiff = on_stiff_line(unit);
            findings.running_current_A = stiff.running_current_A;
            findings.on_stiff_line = stiff.direct_start;
        } else {
            candidates[k - 1].way->normal_day = decided_start_of(candidates[k - 1].scenario);
        }
    };
    findings.ended_early = !run_cases(count, threads, run_case, progress);
}

void add_up(WayOnSupply& way, const std::vector<std::optional<OneStart>>& starts, std::size_t first,
            std::size_t stride) {
    std::vector<double> clamp_A;
    for (std::size_t k = first; k < starts.size(); k += stride) {
        if (!starts[k]) {
            continue;
        }
        ++way.bad_days.trials;
        if (!starts[k]->came_up) {
            ++way.failures[starts[k]->ending];
            continue;
        }
        ++way.bad_days.successes;
        if (starts[k]->clamp_A) {
            clamp_A.push_back(*starts[k]->clamp_A);
        }
    }
    if (!clamp_A.empty()) {
        std::sort(clamp_A.begin(), clamp_A.end());
        way.bad_clamp = ClampSpread{clamp_A.front(), clamp_A[clamp_A.size() / 2], clamp_A.back()};
    }
}

}  // namespace

OneStart decided_start_of(const Scenario& scenario) {
    Scenario watched = scenario;
    watched.run.duration_s = longest_watched_start_s;
    watched.run.call_on_s = 0.0;
    watched.run.call_off_s = 0.0;
    DecidedStart observer(scenario.motor.synchronous_speed_rad_per_s(
        plant_models::nominal_frequency_Hz(scenario.source)));
    const StartResult result = run_start(watched, &observer);
    OneStart start;
    start.outcome = result.outcome;
    start.cause = result.cause;
    start.came_up = result.outcome == Outcome::running && result.monitors.empty();
    start.ending = result.monitors.empty() || result.outcome != Outcome::running
                       ? std::string(word_of(result.outcome)) +
                             (result.cause.empty() ? "" : " (" + result.cause + ")")
                       : "broken " + std::string(result.monitors.front().monitor);
    start.clamp_A = result.figures.line_current_inrush_100ms_rms_A;
    start.half_cycle_A = result.figures.line_current_half_cycle_rms_max_A;
    start.lowest_voltage_V = result.figures.line_voltage_half_cycle_rms_min_V;
    start.time_to_speed_s = result.figures.time_to_speed_s;
    return start;
}

SizingFindings run_sizing(const Scenario& unit, const std::vector<SupplyAtHand>& supplies,
                          const SizingPlan& plan, const CampaignProgress& progress) {
    SizingFindings findings;
    for (const SupplyAtHand& supply : supplies) {
        SupplyFindings on{supply, {}};
        for (const Way way : every_way) {
            on.ways.emplace_back().way = way;
        }
        findings.supplies.push_back(std::move(on));
    }
    std::vector<Candidate> candidates = candidates_of(findings, unit);
    run_normal_days(findings, candidates, unit, plan.threads, progress);
    candidates.erase(
        std::remove_if(candidates.begin(), candidates.end(),
                       [](const Candidate& one) { return !one.way->starts_normally(); }),
        candidates.end());
    // Day by day, so that work that is ended early leaves as many days to every way.
    const std::size_t stride = candidates.size();
    std::vector<std::optional<OneStart>> starts(stride * static_cast<std::size_t>(plan.draws));
    const auto run_case = [&](std::size_t k) {
        const BadDay day = drawn_bad_day(plan.seed, static_cast<std::uint32_t>(k / stride));
        starts[k] = decided_start_of(on_bad_day(candidates[k % stride].scenario, day));
    };
    if (!findings.ended_early && !starts.empty()) {
        findings.ended_early = !run_cases(starts.size(), plan.threads, run_case, progress);
    }
    for (std::size_t k = 0; k < stride; ++k) {
        add_up(*candidates[k].way, starts, k, stride);
    }
    for (const SupplyFindings& on : findings.supplies) {
        for (const WayOnSupply& way : on.ways) {
            findings.starts += way.bad_days.trials + (way.normal_day ? 1 : 0);
        }
    }
    return findings;
}

}  // namespace sim
