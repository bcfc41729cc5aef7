// Lets a long series be stopped by ctrl-C without losing what is finished.
#pragma once

namespace sim {

/// While it lives, the first SIGINT or SIGTERM is only remembered; a second one ends the process as
/// it would have done before. A signal that is being ignored stays ignored.
class InterruptLatch {
  public:
    InterruptLatch();
    ~InterruptLatch();
    InterruptLatch(const InterruptLatch&) = delete;
    InterruptLatch& operator=(const InterruptLatch&) = delete;

    static bool interrupted();
};

}  // namespace sim
