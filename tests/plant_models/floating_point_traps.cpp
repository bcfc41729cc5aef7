// Every test of this part runs with traps on: a division by zero, an overflow or an invalid
// operation stops it where it happens.
#include <gtest/gtest.h>

#include <cfenv>

namespace {

class FloatingPointTraps : public testing::Environment {
  public:
    void SetUp() override { feenableexcept(FE_DIVBYZERO | FE_INVALID | FE_OVERFLOW); }
};

const testing::Environment* const traps = testing::AddGlobalTestEnvironment(new FloatingPointTraps);

}  // namespace
