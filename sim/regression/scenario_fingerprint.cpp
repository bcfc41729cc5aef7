#include "sim/regression/scenario_fingerprint.hpp"

#include <optional>
#include <type_traits>
#include <utility>
#include <variant>

#include "plant_models/parameter_defaults.hpp"
#include "sim/regression/fingerprint.hpp"
#include "sim/scenario/controller_setting_rows.hpp"

namespace sim {

namespace {

template <class P, class = void>
struct HasTable : std::false_type {};
template <class P>
struct HasTable<P, std::void_t<decltype(P::table())>> : std::true_type {};

/// Every text ends in a byte that none holds, so that two of them never run together.
void add_word(Fingerprint& sum, std::string_view word) {
    sum.add(word);
    sum.add(std::string_view("\0", 1));
}

template <class P>
void add_tables(Fingerprint& sum, const P& parameters) {
    if constexpr (HasTable<P>::value) {
        for (const plant_models::Parameter<P>& row : P::table()) {
            add_word(sum, row.key);
            std::visit([&](auto member) { sum.add(static_cast<double>(parameters.*member)); },
                       row.member);
        }
    }
    if constexpr (plant_models::HasWords<P>::value) {
        for (const plant_models::WordParameter<P>& row : P::word_table()) {
            add_word(sum, row.key);
            add_word(sum, parameters.*row.member);
        }
    }
}

template <class... P>
void add_kind(Fingerprint& sum, const std::variant<P...>& choice) {
    std::visit(
        [&sum](const auto& one) {
            add_word(sum, std::decay_t<decltype(one)>::kind);
            add_tables(sum, one);
        },
        choice);
}

void add_settings(Fingerprint& sum, const firmware::Settings& settings) {
    for (const NumberSetting& row : number_settings()) {
        add_word(sum, row.key);
        sum.add(std::int64_t{settings.*row.field});
    }
    for (const StageList& list : stage_lists()) {
        add_word(sum, list.key);
        for (const firmware::StageSettings& stage : settings.stages) {
            sum.add(std::int64_t{stage.*list.field});
        }
    }
    sum.add(std::int64_t{settings.stage_count});
    sum.add(static_cast<std::int64_t>(settings.ramp_law));
    sum.add(static_cast<std::int64_t>(settings.learning_law));
}

void add_limiter(Fingerprint& sum, const LimiterChoice& limiter) {
    add_kind(sum, limiter);
    if (const plant_models::LimiterParameters* parts = parts_of(limiter)) {
        add_tables(sum, *parts);
    }
    if (const firmware::Settings* settings = settings_of(limiter)) {
        add_settings(sum, *settings);
    }
    if (const auto* library = std::get_if<LibraryLimiter>(&limiter)) {
        add_word(sum, library->path);
        add_word(sum, library->options);
    }
}

void add_change(Fingerprint& sum, const ScenarioChange& change) {
    sum.add(std::int64_t{change.before_start});
    for (const std::optional<double>& given :
         {change.ambient_C, change.rest_between_s, change.line_voltage_factor,
          change.run_capacitor_factor, change.friction_factor,
          change.run_capacitor_factor_per_start, change.friction_factor_per_start}) {
        sum.add(std::int64_t{given ? 1 : 0});
        sum.add(given.value_or(0.0));
    }
    add_word(sum, change.compressor != nullptr ? change.compressor->name : std::string_view());
}

}  // namespace

std::string scenario_fingerprint(const Scenario& scenario) {
    Fingerprint sum;
    add_tables(sum, scenario.conditions);
    add_tables(sum, scenario.motor);
    add_kind(sum, scenario.load);
    add_tables(sum, scenario.refrigerant);
    add_kind(sum, scenario.unit.heat);
    add_kind(sum, scenario.unit.protector);
    add_kind(sum, scenario.unit.protection_module);
    add_kind(sum, scenario.unit.contactor);
    add_kind(sum, scenario.unit.start_aid);
    add_kind(sum, scenario.source);
    add_tables(sum, scenario.wiring);
    add_limiter(sum, scenario.limiter);
    for (const Fault& fault : scenario.faults) {
        add_kind(sum, fault.what);
        add_tables(sum, fault.timing);
    }
    add_tables(sum, scenario.run);
    add_word(sum, word_of(scenario.expect.outcome));
    add_tables(sum, scenario.limits);
    for (const ScenarioChange& change : scenario.changes) {
        add_change(sum, change);
    }
    return sum.text();
}

std::string settings_fingerprint(const Scenario& scenario) {
    Fingerprint sum;
    add_limiter(sum, scenario.limiter);
    return sum.text();
}

}  // namespace sim
