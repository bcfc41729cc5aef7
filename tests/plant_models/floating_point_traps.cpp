// Every test of this part runs with the traps on that the host program runs with: a division by
// zero, an overflow or an invalid operation stops it at once.
#include <gtest/gtest.h>

#include <cfenv>

namespace {

class FloatingPointTraps : public testing::Environment {
  public:
    void SetUp() override { feenableexcept(FE_DIVBYZERO | FE_INVALID | FE_OVERFLOW); }
};

const testing::Environment* const traps = testing::AddGlobalTestEnvironment(new FloatingPointTraps);

}  // namespace
