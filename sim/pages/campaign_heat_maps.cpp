#include "sim/pages/campaign_heat_maps.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>

#include "sim/reporting/case_grid.hpp"
#include "sim/results/campaign_words.hpp"
#include "sim/suites/figure_list.hpp"

namespace sim {

namespace {

const MatrixSide& side_named(std::string_view name) {
    const std::vector<MatrixSide>& sides = matrix_sides();
    return *std::find_if(sides.begin(), sides.end(),
                         [name](const MatrixSide& one) { return name == one.name; });
}

bool has_values(const CampaignResults& results, const MatrixSide& side) {
    return std::any_of(results.cases.begin(), results.cases.end(), [&side](const CaseRecord& one) {
        return !(one.place.*side.member).empty();
    });
}

HeatMap map_over(const CaseGrid& grid) {
    HeatMap map;
    map.row_name = grid.row_side.name;
    map.column_name = grid.column_side.name;
    const auto shown = [](std::vector<std::string> names) {
        std::replace(names.begin(), names.end(), std::string(), std::string("none"));
        return names;
    };
    map.rows = shown(grid.rows);
    map.columns = shown(grid.columns);
    return map;
}

/// Those of the campaign, if it has more than one; else a single empty choice, of all cases. With
/// several settings in one cell a half of them that fails would look like a half that is weak.
std::vector<std::optional<std::string>> settings_apart(const CampaignResults& results) {
    std::vector<std::optional<std::string>> settings;
    for (const CaseRecord& one : results.cases) {
        if (std::find(settings.begin(), settings.end(), one.place.setting) == settings.end()) {
            settings.emplace_back(one.place.setting);
        }
    }
    return settings.size() > 1 ? settings : std::vector<std::optional<std::string>>{std::nullopt};
}

std::string setting_words(const std::optional<std::string>& setting) {
    return !setting           ? std::string()
           : setting->empty() ? ", without a setting"
                              : ", setting " + *setting;
}

/// Compressors by supplies, those apart that never meet: compressors of one voltage and supplies of
/// another.
std::vector<CaseGrid> grids_of(const CampaignResults& results,
                               const std::optional<std::string>& setting) {
    constexpr std::size_t most_parts = 5;
    return separate_parts(
        case_grid(results, side_named("compressor"), side_named("supply"), setting), most_parts);
}

HeatMap rate_map(const CaseGrid& grid, const std::optional<std::string>& setting = std::nullopt) {
    HeatMap map = map_over(grid);
    map.caption = fmt::format("Cases as expected, by {} and {}{}, in percent", grid.row_side.name,
                              grid.column_side.name, setting_words(setting));
    map.unit = "%";
    map.deepest = Deepest::lowest;
    constexpr double to_percent = 100.0;
    map.scale_to = to_percent;
    for (const auto& row : grid.cells) {
        map.cells.emplace_back();
        for (const auto& cases : row) {
            if (cases.empty()) {
                map.cells.back().push_back({});
                continue;
            }
            const SuccessRate rate = success_of(cases);
            const double percent = to_percent * rate.share();
            map.cells.back().push_back(
                {percent, fmt::format("{:.{}f} %", percent, rate.successes == rate.trials ? 0 : 1),
                 fmt::format("{} of {}", rate.successes, rate.trials)});
        }
    }
    return map;
}

/// One colour, one rate in all of them.
void share_scale(std::vector<HeatMap>& maps) {
    double lowest = *maps.front().scale_to;
    for (const HeatMap& map : maps) {
        for (const std::vector<HeatCell>& row : map.cells) {
            for (const HeatCell& cell : row) {
                lowest = std::min(lowest, cell.value.value_or(lowest));
            }
        }
    }
    for (HeatMap& map : maps) {
        map.scale_from = lowest;
    }
}

HeatMap figure_map(const CaseGrid& grid, const Figure& figure, std::size_t place,
                   const std::optional<std::string>& setting) {
    HeatMap map = map_over(grid);
    map.caption =
        fmt::format("Median of {}{}: {}", figure.name, setting_words(setting), figure.meaning);
    const std::string name(figure.name);
    map.unit = name.substr(name.rfind('_') + 1);
    map.deepest = figure.better == Better::higher ? Deepest::lowest : Deepest::highest;
    for (const auto& row : grid.cells) {
        map.cells.emplace_back();
        for (const auto& cases : row) {
            const std::optional<double> median = median_figure(cases, place);
            map.cells.back().push_back(
                {median, median ? figure_words(*median) : std::string(), std::string()});
        }
    }
    return map;
}

}  // namespace

std::vector<HeatMap> rate_maps(const CampaignResults& results) {
    const bool compressors = has_values(results, side_named("compressor"));
    const bool supplies = has_values(results, side_named("supply"));
    std::vector<HeatMap> maps;
    if (compressors && supplies) {
        for (const std::optional<std::string>& setting : settings_apart(results)) {
            for (const CaseGrid& grid : grids_of(results, setting)) {
                maps.push_back(rate_map(grid, setting));
            }
        }
        share_scale(maps);
    }
    const MatrixSide& across =
        side_named(compressors ? "compressor" : (supplies ? "supply" : "block"));
    for (const char* name : {"condition", "fault", "setting"}) {
        if (has_values(results, side_named(name))) {
            maps.push_back(rate_map(case_grid(results, side_named(name), across)));
        }
    }
    return maps;
}

std::vector<HeatMap> figure_maps(const CampaignResults& results) {
    std::vector<HeatMap> maps;
    if (!has_values(results, side_named("compressor")) ||
        !has_values(results, side_named("supply"))) {
        return maps;
    }
    constexpr std::array<const char*, 5> told = {
        "line_current_inrush_100ms_rms_A", "line_voltage_one_cycle_percent", "time_to_speed_s",
        "hottest_winding_C", "start_capacitor_in_s"};
    for (const char* name : told) {
        const Figure* figure = figure_named(name);
        const std::optional<std::size_t> place = results.place_of(name);
        if (figure == nullptr || !place) {
            continue;
        }
        for (const std::optional<std::string>& setting : settings_apart(results)) {
            for (const CaseGrid& grid : grids_of(results, setting)) {
                maps.push_back(figure_map(grid, *figure, *place, setting));
            }
        }
    }
    return maps;
}

}  // namespace sim
