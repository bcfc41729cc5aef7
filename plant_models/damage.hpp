// What is broken on a plant at one instant. A whole plant is `Damage{}`; the plant takes every
// change of it as an event from outside, as it takes a contact's or a gate's.
//
//   supply      the EMF is multiplied by a share, as if an ideal transformer of that ratio stood
//               between it and its own impedance: the supply carries share x current, so that
//               whatever kind it is no energy appears or vanishes; its frequency is multiplied,
//               without a jump of phase (a generator's governor is set so, and its engine follows);
//               a break on the unit's side of the supply, which arcs to the next current zero
//   motor       all three of its wires are off: what flowed breaks down at once, and the field's
//               energy goes into the break; S then hangs on the capacitors alone
//   capacitor   open: it keeps its charge until it is in again. Shorted: its charge, and that of
//               a start capacitor beside it, is lost in the short, which keeps `shorted_ohm`
//   rotor       seized: it stands from that instant, its energy gone into friction; or something
//               drags on it (booked as work on the load) and holds it at rest
//   thyristor   shorted: conducts without a gate as soon as it blocks forwards, to the current's
//               zero. A device that has lost both directions is both of them shorted.
//               Dead: takes no gate; what it carries it carries to the current's zero
//   contacts    switches/contact.hpp
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>

#include "plant_models/switches/contact.hpp"

namespace plant_models {

enum class CapacitorCondition : std::uint8_t { whole, open, shorted };

/// What is left of a capacitor that has broken down: its foils and leads; engineering judgement.
inline constexpr double shorted_ohm = 0.05;

/// Of the pair: the thyristor that carries positive current, from L1 to R, and the other.
enum ThyristorOfPair : std::size_t { positive_thyristor, negative_thyristor };

struct Damage {
    double supply_voltage_share = 1.0;  ///< above 0
    double supply_frequency_share = 1.0;
    bool supply_interrupted = false;
    bool motor_disconnected = false;
    CapacitorCondition run_capacitor = CapacitorCondition::whole;
    bool rotor_seized = false;
    double extra_load_Nm = 0.0;
    std::array<bool, 2> thyristor_shorted{};
    std::array<bool, 2> thyristor_dead{};
    ContactCondition bypass_contact = ContactCondition::whole;
    ContactCondition start_contact = ContactCondition::whole;
};

}  // namespace plant_models
