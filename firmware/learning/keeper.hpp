// Carries what has been learned through power cuts: reads the store at power-up, and writes a new
// record after each start that taught something, while the motor is not fed.
#pragma once

#include "firmware/contract/store.hpp"
#include "firmware/learning/learned.hpp"
#include "firmware/learning/learned_payload.hpp"
#include "firmware/memory/journal.hpp"

namespace firmware {

class Keeper {
  public:
    explicit Keeper(const StorePages& at_power_up)
        : journal_(at_power_up),
          is_usable_(journal_.has_payload() && learned_from(journal_.payload(), learned_)),
          kept_(payload_of(learned_)) {}

    /// How the memory was found; a record that is whole but makes no sense counts as none.
    Recovery recovery() const {
        return journal_.has_payload() && !is_usable_ ? Recovery::nothing_valid
                                                     : journal_.recovery();
    }
    /// As found at power-up; fresh without a usable record.
    const Learned& learned() const { return learned_; }

    /// Once per tick: what the store is to do before the next one.
    StoreCommand step(const Learned& now, bool motor_is_fed) {
        if (motor_is_fed) {
            return {};
        }
        if (!journal_.busy()) {
            const Payload payload = payload_of(now);
            if (payload != kept_ && journal_.save(payload)) {
                kept_ = payload;
            }
        }
        return journal_.next();
    }

  private:
    Journal journal_;
    Learned learned_;
    bool is_usable_;
    Payload kept_;
};

}  // namespace firmware
