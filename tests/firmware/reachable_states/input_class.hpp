// What the world can show the controller, in classes: each holds for a stretch of time.
//
// The classes know nothing of what the controller does. That is on purpose: a sensor may be broken,
// a wire off, another motor connected, so any of them may come at any time. A sound start is the
// one path on which they happen to answer the orders as a motor would.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "firmware/contract/frames.hpp"

namespace reachable_states {

struct InputClass {
    enum class Kind : std::uint8_t {
        frames,                ///< sensor frames, tick by tick
        sleep,                 ///< the controller sleeps, without a call
        power_cut,             ///< its power is cut; the store keeps what it held
        power_cut_and_damage,  ///< and the store holds garbage afterwards
    };
    Kind kind = Kind::frames;
    std::string name;

    bool call = true;
    bool frame_version_right = true;
    double line_V = 230.0;
    double line_Hz = 50.0;
    bool line_drifts =
        false;  ///< to that frequency, as a set does that stalls, else it jumps there
    bool line_turned_round = false;  ///< half a turn away from where it was
    double current_A = 0.0;          ///< RMS; of a motor, which lags, unless it leads
    bool current_leads = false;
    bool current_one_way = false;  ///< positive half waves only
    double current_offset_A = 0.0;
    double start_terminal = 0.0;          ///< voltage at S, of a line of 230 V
    bool start_terminal_on_line = false;  ///< S is the line: a shorted run capacitor
    std::uint32_t sleep_ticks = 0;
};

/// All classes. Those of a motor's currents and voltages come last: a controller that feeds nothing
/// is shown only those before (`classes_while_not_fed`).
const std::vector<InputClass>& input_classes();
std::size_t classes_while_not_fed();

/// The samples of one tick.
/// @param turn time since the beginning in units of the line's turn; full turn = 2^32
firmware::SensorFrame frame_of(const InputClass& input, std::uint32_t turn);

/// The line's frequency in the next tick.
double next_line_Hz(const InputClass& input, double line_Hz);

/// The line's advance per tick, full turn = 2^32.
std::uint32_t turn_per_tick(double line_Hz);

}  // namespace reachable_states
