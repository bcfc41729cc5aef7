// Notices invalid operations, overflows and divisions by zero: the processor remembers them in
// flags, so that watching a whole run costs nothing. A run in which one happened has failed, even
// if its numbers still look like numbers.
#pragma once

namespace sim {

class ArithmeticWatch {
  public:
    /// Clears the flags and begins to watch.
    ArithmeticWatch();
    /// Throws NumericFailure if something happened since.
    void check() const;
};

}  // namespace sim
