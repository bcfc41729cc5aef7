#include "sim/scenario/limiter_choice.hpp"

#include "sim/scenario/controller_settings.hpp"

namespace sim {

TableForm form_of(NoLimiter&) {
    return {Keys{}, []() { return std::string(); }};
}

TableForm form_of(BuiltinLimiter& target) {
    TableForm form;
    plant_models::set_defaults(target.parts);
    append_parameter_keys(form.keys, target.parts);
    append_controller_keys(form.keys, target.settings);
    form.inconsistency = [&target]() { return controller_problem(target.settings); };
    return form;
}

}  // namespace sim
