#include "sim/suites/suite_reading.hpp"

#include <filesystem>
#include <string_view>
#include <vector>

#include "sim/files/input_error.hpp"
#include "sim/files/quoting.hpp"
#include "sim/scenario/closest_word.hpp"
#include "sim/suites/bundled_suites.hpp"

namespace sim {

void refuse_if_no_path(const std::string& path_or_name) {
    std::error_code ignored;
    if (path_or_name == "-" || path_or_name.find_first_of("/.") != std::string::npos ||
        std::filesystem::exists(path_or_name, ignored)) {
        return;
    }
    std::vector<std::string_view> names;
    std::string all;
    for (const LibraryEntry& one : bundled_suites()) {
        names.push_back(one.name);
        all += (all.empty() ? "" : ", ") + std::string(one.name);
    }
    const auto meant = closest_word(path_or_name, names);
    throw InputError("suites", 0, shortened(path_or_name, 60),
                     "this is no bundled suite and no file; " +
                         (meant ? "did you mean " + std::string(*meant) + "?"
                                : "give a file, or one of " + all));
}

}  // namespace sim
