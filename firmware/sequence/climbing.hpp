// Second part of a start: the ramp law raises the main winding's current until the rotor is up.
//
// The law's targets are fractions of the locked-rotor current; here they become firing angles. The
// climb as a whole is limited in time, whatever the law wants.
#pragma once

#include <cstdint>

#include "firmware/ramp_laws/ramp_law_list.hpp"
#include "firmware/recognition/run_up.hpp"
#include "firmware/sequence/observation.hpp"
#include "firmware/sequence/orders.hpp"
#include "firmware/sequence/progress.hpp"
#include "firmware/settings/settings.hpp"
#include "firmware/units/stopwatch.hpp"

namespace firmware {

class Climbing {
  public:
    explicit Climbing(const Settings& settings);

    /// The ladder of the climbs to come.
    void use(const Ladder& ladder) { law_.use(ladder); }

    void begin(Orders& orders);
    Progress step(const Observation& seen, Orders& orders);

    std::uint8_t stage() const { return stage_; }
    /// How long the climb has lasted, or lasted.
    Ticks elapsed() const { return clock_.elapsed(); }

  private:
    friend class Watch;

    void follow(const RampOrder& order, Orders& orders);

    RampLaws law_;
    RunUp run_up_;
    Ticks limit_;
    Stopwatch clock_;
    Stopwatch stage_clock_;
    std::uint8_t stage_ = 0;
};

}  // namespace firmware
