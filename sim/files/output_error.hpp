// The one error for output that could not be written: the file, the reason, and what would do. The
// command line turns it into exit code 2.
//
//   /dev/full: the disk is full; free some space or name a file on another disk
#pragma once

#include <stdexcept>
#include <string>

namespace sim {

class OutputError : public std::runtime_error {
  public:
    /// `fault` is the sentence after the file's name, without a full stop.
    OutputError(std::string file, const std::string& fault);

    /// As the user named it; "standard output" for "-".
    const std::string& file() const { return file_; }

  private:
    std::string file_;
};

}  // namespace sim
