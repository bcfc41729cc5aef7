#include "sim/fitting/nameplate_keys.hpp"

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace sim {

namespace {

/// A key that stores into a number, or into one that may be left out.
template <class Target>
Key number_key(std::string name, NumberRule rule, std::optional<std::string> default_text,
               std::string meaning, Target& target) {
    return {std::move(name), Rule(rule), std::move(default_text), std::move(meaning),
            [&target](const KeyValue& value) { target = std::get<double>(value); }};
}

Key word_key(std::string name, std::vector<std::string_view> words, std::string meaning,
             std::optional<std::string>& target) {
    return {std::move(name), Rule(WordRule{std::move(words)}), "none", std::move(meaning),
            [&target](const KeyValue& value) { target = std::get<std::string>(value); }};
}

TableForm nameplate_form(Nameplate& to, const NameplateCheck& last_check) {
    TableForm form;
    form.keys = {
        {"title", TextRule{120}, "the file's name", "what the unit is, for people",
         [&to](const KeyValue& value) { to.title = std::get<std::string>(value); }},
        number_key("voltage_V", {100, 250}, "none", "rated voltage, RMS, where one is printed",
                   to.voltage_V),
        number_key("lowest_voltage_V", {100, 250}, "none",
                   "lower end, where a range such as 208-230 is printed", to.lowest_voltage_V),
        number_key("highest_voltage_V", {100, 250}, "none", "its upper end", to.highest_voltage_V),
        number_key("frequency_Hz", {50, 60}, std::nullopt, "50 or 60", to.frequency_Hz),
        number_key("rated_load_current_A", {0.5, 60}, std::nullopt,
                   "rated-load current of the compressor", to.rated_load_current_A),
        number_key("locked_rotor_current_A", {2, 400}, std::nullopt,
                   "locked-rotor current of the compressor", to.locked_rotor_current_A),
        number_key("run_capacitor_uF", {0, 200}, std::nullopt,
                   "run capacitor; 0: none, a thermistor starts the motor", to.run_capacitor_uF),
        number_key("start_thermistor_ohm", {1, 100}, "half of the locked motor's impedance",
                   "cold thermistor, where there is no run capacitor", to.start_thermistor_ohm),
        number_key("power_hp", {0.03, 20}, "none", "power at the shaft in horsepower", to.power_hp),
        number_key("shaft_power_W", {20, 15000}, "none", "power at the shaft", to.shaft_power_W),
        number_key("cooling_capacity_W", {20, 50000}, "none",
                   "heat that the compressor takes from the cold side; a ton is 3517 W",
                   to.cooling_capacity_W),
        number_key("poles", {2, 4, true, true}, "2", "number of poles", to.poles),
        word_key("compressor", {"reciprocating", "rolling_piston", "scroll"},
                 "how it compresses; decides the load's defaults", to.compressor),
        word_key("gas", {"R410A", "R22", "R134a", "R290", "R32"},
                 "refrigerant; with the cooling capacity it gives the displacement", to.gas),
    };
    form.inconsistency = [&to, last_check]() {
        std::string fault = to.inconsistency();
        return fault.empty() && last_check ? last_check(to) : fault;
    };
    return form;
}

}  // namespace

ScenarioTable nameplate_table(Nameplate& target, const NameplateCheck& last_check) {
    return {
        "nameplate",
        true,
        "what is printed on the unit",
        {TableKind{"", [&target, last_check]() { return nameplate_form(target, last_check); }}}};
}

}  // namespace sim
