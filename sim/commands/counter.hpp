// Shows how many of a known number of things are done, how fast, and how long it will take, on a
// terminal only.
#pragma once

#include <chrono>
#include <string>

namespace sim {

class Counter {
  public:
    /// `things`: their plural, as in "starts".
    explicit Counter(std::string things);

    /// A smaller `done` than before begins anew. `remark` follows the things.
    void show(int done, int of, const std::string& remark = "");
    /// Wipes the line off the terminal.
    void clear();

  private:
    std::string things_;
    bool on_terminal_;
    bool shown_ = false;
    int last_done_ = 0;
    std::chrono::steady_clock::time_point begin_;
};

}  // namespace sim
