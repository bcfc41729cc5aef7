// Shows how many of a known number of things are done, on a terminal only.
#pragma once

#include <string>

namespace sim {

class Counter {
  public:
    /// `things`: their plural, as in "starts".
    explicit Counter(std::string things);

    void show(int done, int of);
    /// Wipes the line off the terminal.
    void clear();

  private:
    std::string things_;
    bool on_terminal_;
    bool shown_ = false;
};

}  // namespace sim
