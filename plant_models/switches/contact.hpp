// An electromechanical contact: the coil is commanded, the contact follows after its travel time
// and bounces when it closes.
//
//   coil on:  touches after `close`, bounces open twice, touches for good after `close + bounce`
//   coil off: parts after `open`
//
// The bounce pattern (touch, part at 30 %, touch at 50 %, part at 75 %, touch at 100 % of the
// bounce time) is engineering judgement; it is fixed so that runs repeat exactly. A command that
// comes while an earlier one is still travelling cancels what is left of that one. What an opening
// contact does to a current (it arcs until the next zero) is the circuit's matter.
//
// A damaged contact: `welds` no longer opens once it touches, and touches for good at its first
// touch; the other two have gone there by themselves at that instant. None of them heeds its coil.
// Made whole again, it follows its coil from then on, after the usual travel.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>

#include "plant_models/numeric/instant.hpp"

namespace plant_models {

enum class ContactCondition : std::uint8_t { whole, welds, stuck_closed, stuck_open };

struct ContactTiming {
    Instant close{0};
    Instant open{0};
    Instant bounce{0};

    static ContactTiming from_milliseconds(double close_ms, double open_ms, double bounce_ms);
};

class Contact {
  public:
    explicit Contact(const ContactTiming& timing) : timing_(timing) {}

    /// For a contact that is closed when the run begins.
    void begin_touching() { coil_on_ = touching_ = true; }
    /// Sets the coil. A repeated command changes nothing.
    void command(bool coil_on, Instant now);
    void set_condition(ContactCondition condition, Instant now);
    bool coil_on() const { return coil_on_; }
    bool touching() const { return touching_; }
    /// When the contact will next touch or part; `never` if it is at rest.
    Instant next_edge() const { return next_ < count_ ? edges_[next_] : never; }
    /// Carries out the next edge.
    void take_edge();

  private:
    void travel(Instant now);

    ContactTiming timing_;
    ContactCondition condition_ = ContactCondition::whole;
    std::array<Instant, 5> edges_{};
    std::size_t count_ = 0;
    std::size_t next_ = 0;
    bool coil_on_ = false;
    bool touching_ = false;
};

}  // namespace plant_models
