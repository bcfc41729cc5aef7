// Keys and forms that several tables of a suite are made of.
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "sim/scenario/parameter_keys.hpp"
#include "sim/suites/suite_parts.hpp"

namespace sim {

inline constexpr std::size_t most_suite_name_bytes = 60;
inline constexpr std::size_t most_suite_path_bytes = 1000;
inline constexpr std::size_t most_suite_names = 200;

Key text_key(const char* name, std::size_t most_bytes, std::optional<std::string> default_text,
             const char* meaning, std::string& target);
/// A name, or a list of them.
Key names_key(const char* name, std::size_t most_bytes, std::optional<std::string> default_text,
              const char* meaning, std::vector<std::string>& target);
/// From 1; its default stands in `target`.
Key count_key(const char* name, int most, const char* meaning, int& target);
/// For tables whose keys cannot contradict each other.
std::string always_consistent();

/// Of what a table [[block]] says.
TableForm form_of(Block& target);
TableForm form_of(Requirements& target);
/// One for each distribution; each begins by adding a spread.
std::vector<TableKind> spread_kinds(std::deque<Spread>& target);

}  // namespace sim
