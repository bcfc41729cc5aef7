// Carries through power cuts what has been learned, and that a rest is owed: reads the store at
// power-up, and writes a new record when either has changed, while the motor is not fed.
#pragma once

#include "firmware/contract/store.hpp"
#include "firmware/learning/learned.hpp"
#include "firmware/learning/learned_payload.hpp"
#include "firmware/memory/journal.hpp"
#include "firmware/memory/rest_mark.hpp"

namespace firmware {

class Keeper {
  public:
    explicit Keeper(const StorePages& at_power_up)
        : journal_(at_power_up),
          rest_mark_(journal_.has_payload() ? rest_mark_of(journal_.payload()) : RestMark{}),
          is_usable_(journal_.has_payload() && read(without_rest_mark(journal_.payload()))),
          kept_(with_rest_mark(payload_of(learned_), rest_mark_)) {}

    /// How the memory was found; a record that is whole but makes no sense counts as none.
    Recovery recovery() const {
        return journal_.has_payload() && !is_usable_ ? Recovery::nothing_valid
                                                     : journal_.recovery();
    }
    /// As found at power-up; fresh without a usable record.
    const Learned& learned() const { return learned_; }
    /// As found at power-up; also of a record whose learning makes no sense.
    const RestMark& rest_mark() const { return rest_mark_; }

    /// True when the store holds that a rest is owed, or will before the next tick.
    bool holds_rest_owed() const { return !journal_.busy() && rest_mark_of(kept_).owed; }

    /// Once per tick: what the store is to do before the next one.
    StoreCommand step(const Learned& now, const RestMark& mark, bool motor_is_fed) {
        if (motor_is_fed) {
            return {};
        }
        if (!journal_.busy()) {
            const Payload payload = with_rest_mark(payload_of(now), mark);
            if (payload != kept_ && journal_.save(payload)) {
                kept_ = payload;
            }
        }
        return journal_.next();
    }

  private:
    friend class Watch;

    bool read(const Payload& payload) {
        // A controller that has learned nothing yet still keeps its mark.
        return payload == payload_of(Learned{}) || learned_from(payload, learned_);
    }

    Journal journal_;
    RestMark rest_mark_;
    Learned learned_;
    bool is_usable_;
    Payload kept_;
};

}  // namespace firmware
