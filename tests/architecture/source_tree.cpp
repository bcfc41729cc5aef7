#include "source_tree.hpp"

#include <algorithm>
#include <cctype>
#include <fstream>
#include <iterator>
#include <sstream>

namespace architecture_test {

namespace fs = std::filesystem;

fs::path source_folder() {
    return RUNUP_SOURCE_FOLDER;
}

std::vector<SourceFile> sources_of(const std::string& part) {
    std::vector<SourceFile> files;
    for (const auto& entry : fs::recursive_directory_iterator(source_folder() / part)) {
        const fs::path& path = entry.path();
        if (entry.is_regular_file() && (path.extension() == ".cpp" || path.extension() == ".hpp")) {
            std::ifstream file(path, std::ios::binary);
            files.push_back({fs::relative(path, source_folder()).generic_string(),
                             {std::istreambuf_iterator<char>(file), {}}});
        }
    }
    std::sort(files.begin(), files.end(),
              [](const SourceFile& one, const SourceFile& other) { return one.path < other.path; });
    return files;
}

std::vector<SourceFile> sources_of_controller() {
    std::vector<SourceFile> files = sources_of("firmware");
    const auto beside = [](const SourceFile& file) {
        return file.path.rfind("firmware/board/", 0) == 0 ||
               file.path.rfind("firmware/examples/", 0) == 0;
    };
    files.erase(std::remove_if(files.begin(), files.end(), beside), files.end());
    return files;
}

std::vector<Include> includes_of(const std::string& text) {
    std::vector<Include> includes;
    std::istringstream lines(text);
    std::string line;
    while (std::getline(lines, line)) {
        std::size_t at = line.find_first_not_of(" \t");
        if (at == std::string::npos || line[at] != '#') {
            continue;
        }
        at = line.find_first_not_of(" \t", at + 1);
        if (at == std::string::npos || line.compare(at, 7, "include") != 0) {
            continue;
        }
        const std::size_t open = line.find_first_of("<\"", at);
        if (open == std::string::npos) {
            continue;
        }
        const bool in_quotes = line[open] == '"';
        const std::size_t close = line.find(in_quotes ? '"' : '>', open + 1);
        includes.push_back({line.substr(open + 1, close - open - 1), in_quotes});
    }
    return includes;
}

std::string code_only(const std::string& text) {
    std::string code;
    enum class In { program, line_comment, block_comment, string, character } in = In::program;
    for (std::size_t k = 0; k < text.size(); ++k) {
        const char letter = text[k];
        const char next = k + 1 < text.size() ? text[k + 1] : '\0';
        const char before = k > 0 ? text[k - 1] : '\0';
        if (letter == '\n') {
            in = in == In::line_comment ? In::program : in;
            code += '\n';
            continue;
        }
        const bool in_program = in == In::program;
        if (in_program && letter == '/' && next == '/') {
            in = In::line_comment;
        } else if (in_program && letter == '/' && next == '*') {
            in = In::block_comment;
        } else if (in_program && letter == '"') {
            in = In::string;
        } else if (in_program && letter == '\'' &&
                   std::isdigit(static_cast<unsigned char>(before)) == 0) {
            in = In::character;  // not the separator of 1'000
        } else if (!in_program) {
            const bool escape = (in == In::string || in == In::character) && letter == '\\';
            if (escape) {
                ++k;
                code += ' ';
            } else if ((in == In::string && letter == '"') ||
                       (in == In::character && letter == '\'') ||
                       (in == In::block_comment && letter == '/' && before == '*')) {
                in = In::program;
            }
            code += ' ';
            continue;
        }
        code += in == In::program ? letter : ' ';
    }
    return code;
}

std::set<std::string> words_of(const std::string& code) {
    std::set<std::string> words;
    std::string word;
    for (const char letter : code + " ") {
        if (std::isalnum(static_cast<unsigned char>(letter)) != 0 || letter == '_') {
            word += letter;
        } else if (!word.empty()) {
            words.insert(word);
            word.clear();
        }
    }
    return words;
}

}  // namespace architecture_test
