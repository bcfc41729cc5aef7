// The one error for bad input: a file, a line, a key, and one sentence that says what is wrong and
// what would be accepted. The command line turns it into exit code 2.
//
//   cellar.toml:12: motor.poles: 3 is not accepted; give an even whole number from 2 to 16
#pragma once

#include <stdexcept>
#include <string>

namespace sim {

class InputError : public std::runtime_error {
  public:
    /// `line` 0: the fault has no line (the file as a whole). `key` empty: it has no key.
    /// `fault` is the sentence's last part, without a full stop.
    InputError(std::string file, int line, std::string key, const std::string& fault);

    /// As the user named it; "standard input" for "-".
    const std::string& file() const { return file_; }
    /// Counted from 1; 0 if the fault has none. For a missing key, the line of its table.
    int line() const { return line_; }
    /// Table and key, as in `motor.poles`; a table alone where the table is at fault.
    const std::string& key() const { return key_; }

  private:
    std::string file_;
    int line_;
    std::string key_;
};

}  // namespace sim
