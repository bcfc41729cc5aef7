// The sources of this repository as text, for rules that no compiler checks.
#pragma once

#include <filesystem>
#include <set>
#include <string>
#include <vector>

namespace architecture_test {

struct SourceFile {
    std::string path;  ///< from the repository's root
    std::string text;
};

/// One #include line.
struct Include {
    std::string name;  ///< what stands between the brackets or quotes
    bool in_quotes = false;
};

std::filesystem::path source_folder();

/// All .cpp and .hpp files under one of the parts, sorted by path.
std::vector<SourceFile> sources_of(const std::string& part);

/// Those of the controller itself: `firmware` without what only carries it (`board`) and without
/// what stands beside it (`examples`).
std::vector<SourceFile> sources_of_controller();

std::vector<Include> includes_of(const std::string& text);

/// The text with comments, strings and character constants blanked out, line by line as before.
std::string code_only(const std::string& text);

/// Every identifier and keyword of code.
std::set<std::string> words_of(const std::string& code);

}  // namespace architecture_test
