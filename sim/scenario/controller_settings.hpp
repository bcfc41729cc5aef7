// The controller's settings as keys of [limiter], in the units that people use.
//
// The controller holds its settings as integers (permille, milliamperes, millidegrees). A key in
// percent, A, degrees or Hz is rounded to the nearest of them; a key whose unit is the controller's
// own takes whole numbers only. Defaults are the controller's. What fits together is decided by the
// controller's own check, so that the bench is never more lenient than the controller.
//
// The two lists `stage_percent` and `stage_dwell_ms` describe the ladder; their common length is
// the number of stages.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "firmware/settings/settings.hpp"
#include "sim/scenario/key.hpp"

namespace sim {

/// Appends the settings' keys, bound to `target`, and gives `target` the controller's defaults.
/// `target` must outlive the keys.
void append_controller_keys(Keys& keys, firmware::Settings& target);

/// How a scenario names the learning laws, and the law of such a word.
std::vector<std::string_view> learning_law_names();
std::optional<firmware::LearningLawKind> learning_law_of(std::string_view word);

/// The key under which a scenario file sets the field that the controller's check names; empty for
/// `none`.
std::string_view key_of(firmware::SettingsProblem problem);

/// What the controller's own check finds wrong, as a sentence that begins with a key; empty if
/// nothing.
std::string controller_problem(const firmware::Settings& settings);

}  // namespace sim
