#include "sim/files/input_error.hpp"

#include <utility>

#include "sim/files/quoting.hpp"

namespace sim {

namespace {

std::string sentence(const std::string& file, int line, const std::string& key,
                     const std::string& fault) {
    // A file name is the user's own and is shown whole, but it must not drive the terminal.
    std::string text = escaped(file);
    if (line > 0) {
        text += ":" + std::to_string(line);
    }
    text += ": ";
    if (!key.empty()) {
        text += key + ": ";
    }
    return text + fault;
}

}  // namespace

InputError::InputError(std::string file, int line, std::string key, const std::string& fault)
    : std::runtime_error(sentence(file, line, key, fault)),
      file_(std::move(file)),
      line_(line),
      key_(std::move(key)) {}

}  // namespace sim
