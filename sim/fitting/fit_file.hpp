// The fit of a nameplate file. Figures can contradict each other in a way that only shows when no
// motor has them all; here that becomes an InputError like every other fault of the file.
#pragma once

#include <string>
#include <string_view>

#include "sim/fitting/nameplate_fit.hpp"

namespace sim {

/// Reads the file at `path`, a pipe, or standard input ("-"). Throws InputError.
NameplateFit fit_file(const std::string& path);

/// The same for the text of a file called `file`.
NameplateFit fit_nameplate_text(std::string_view text, const std::string& file);

}  // namespace sim
