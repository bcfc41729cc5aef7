#include "sim/scenario/limiter_choice.hpp"

#include <type_traits>

#include "sim/scenario/controller_settings.hpp"

namespace sim {

namespace {

constexpr std::size_t most_path_bytes = 1000;
constexpr std::size_t most_option_bytes = 200;

/// Our own controller, wherever it runs.
template <class Limiter>
TableForm own_controller_form(Limiter& target) {
    TableForm form;
    plant_models::set_defaults(target.parts);
    append_parameter_keys(form.keys, target.parts);
    append_controller_keys(form.keys, target.settings);
    form.inconsistency = [&target]() { return controller_problem(target.settings); };
    return form;
}

template <class Parts, class Choice>
Parts* parts_in(Choice& limiter) {
    return std::visit(
        [](auto& one) -> Parts* {
            if constexpr (std::is_same_v<std::decay_t<decltype(one)>, NoLimiter>) {
                return nullptr;
            } else {
                return &one.parts;
            }
        },
        limiter);
}

template <class Settings, class Choice>
Settings* settings_in(Choice& limiter) {
    if (auto* builtin = std::get_if<BuiltinLimiter>(&limiter)) {
        return &builtin->settings;
    }
    if (auto* processor = std::get_if<ProcessorLimiter>(&limiter)) {
        return &processor->settings;
    }
    return nullptr;
}

}  // namespace

const plant_models::LimiterParameters* parts_of(const LimiterChoice& limiter) {
    return parts_in<const plant_models::LimiterParameters>(limiter);
}

plant_models::LimiterParameters* parts_of(LimiterChoice& limiter) {
    return parts_in<plant_models::LimiterParameters>(limiter);
}

const firmware::Settings* settings_of(const LimiterChoice& limiter) {
    return settings_in<const firmware::Settings>(limiter);
}

firmware::Settings* settings_of(LimiterChoice& limiter) {
    return settings_in<firmware::Settings>(limiter);
}

TableForm form_of(NoLimiter&) {
    return {Keys{}, []() { return std::string(); }};
}

TableForm form_of(BuiltinLimiter& target) {
    return own_controller_form(target);
}

TableForm form_of(ProcessorLimiter& target) {
    return own_controller_form(target);
}

TableForm form_of(LibraryLimiter& target) {
    TableForm form;
    plant_models::set_defaults(target.parts);
    append_parameter_keys(form.keys, target.parts);
    target.path.clear();
    target.options.clear();
    form.keys.push_back(
        {"path", TextRule{most_path_bytes}, std::nullopt,
         "shared library with the controller; a relative path begins at the "
         "scenario file's folder",
         [&target](const KeyValue& value) { target.path = std::get<std::string>(value); }});
    form.keys.push_back(
        {"options", TextRule{most_option_bytes}, "\"\"",
         "text that the library gets when its controller is made",
         [&target](const KeyValue& value) { target.options = std::get<std::string>(value); }});
    form.inconsistency = []() { return std::string(); };
    return form;
}

}  // namespace sim
