// Shows how far a long run has come, on a terminal only, and passes the ticks on to the trace.
#pragma once

#include "sim/bench/start_run.hpp"

namespace sim {

class Progress final : public TickObserver {
  public:
    /// `next` may be null.
    Progress(double duration_s, TickObserver* next);

    void observe(const TickView& view) override;
    /// Wipes the line off the terminal.
    void clear();

  private:
    double duration_s_;
    TickObserver* next_;
    bool shown_ = false;
    bool on_terminal_;
};

}  // namespace sim
