// What the controller thinks, for traces and for a service port. Nothing acts on it.
//
// Plain fixed-width fields; the unit ends each name. RMS values are those of the last full cycle,
// refreshed every half cycle.
#pragma once

#include <cstdint>

#include "firmware/memory/journal.hpp"
#include "firmware/sequence/state.hpp"

namespace firmware {

struct Telemetry {
    State state = State::resting;
    Reason reason = Reason::none;  ///< why it is in this state
    std::uint8_t stage = 0;  ///< stage of the ramp, from 0; keeps its last value after the climb
    std::uint8_t tries_made = 0;   ///< starts since the last one that succeeded
    std::uint8_t line_locked = 0;  ///< 1 while the line tracker has lock
    std::int32_t line_frequency_mHz = 0;
    std::int32_t line_voltage_rms_mV = 0;
    std::int32_t output_current_rms_mA = 0;
    std::int32_t start_terminal_voltage_rms_mV = 0;
    std::uint32_t line_phase = 0;                ///< at the samples just taken; full turn = 2^32
    std::int32_t firing_angle_mdeg = 0;          ///< ordered; 0 while the gates are off
    std::int32_t locked_rotor_estimate_mA = 0;   ///< main winding, full voltage; 0 before probing
    std::int32_t learned_level_permille = 1000;  ///< next start's ladder; 1000: as set
    Recovery memory = Recovery::fresh;           ///< how it was found at power-up
    std::uint8_t learning_settled = 0;           ///< 1 once the search for it is over
    std::uint8_t start_capacitor_absent = 0;     ///< 1 when the last probing found no current of it
};

}  // namespace firmware
