#include "sim/suites/suite_forms.hpp"

namespace sim {

Key text_key(const char* name, std::size_t most_bytes, std::optional<std::string> default_text,
             const char* meaning, std::string& target) {
    return {name, TextRule{most_bytes}, std::move(default_text), meaning,
            [&target](const KeyValue& value) { target = std::get<std::string>(value); }};
}

Key names_key(const char* name, std::size_t most_bytes, std::optional<std::string> default_text,
              const char* meaning, std::vector<std::string>& target) {
    return {
        name, NameListRule{most_suite_names, most_bytes}, std::move(default_text), meaning,
        [&target](const KeyValue& value) { target = std::get<std::vector<std::string>>(value); }};
}

Key count_key(const char* name, int most, const char* meaning, int& target) {
    return {name, NumberRule{1, static_cast<double>(most), true, false}, std::to_string(target),
            meaning, [&target](const KeyValue& value) {
                target = static_cast<int>(std::get<double>(value));
            }};
}

std::string always_consistent() {
    return {};
}

}  // namespace sim
