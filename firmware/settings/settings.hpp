// Everything about the controller that an installer or a bench may want to change.
//
// Plain integers; the unit ends each name. The defaults fit a residential cooling compressor of any
// make between 100 and 250 V and 50 or 60 Hz. None is worked out from a particular motor. Behind
// each stands its origin:
//   [practice]  common practice of the trade
//   [standard]  a published standard, as far as remembered
//   [published] numbers published about such machines
//   [judgement] engineering judgement, with the reason
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>

#include "firmware/learning/learning_law_kind.hpp"
#include "firmware/ramp_laws/ramp_law_kind.hpp"

namespace firmware {

/// One rung of the ladder.
struct StageSettings {
    /// Main-winding current aimed at, as a fraction of what the standing motor would draw at full
    /// conduction; also, nearly, the fraction of the line voltage that the main winding gets.
    std::int32_t target_permille = 0;
    /// How long to wait here for a sign of turning.
    std::int32_t dwell_ms = 0;
};

struct Settings {
    static constexpr std::size_t most_stages = 8;

    // ---- the line

    /// 85 % of a 100 V supply. [judgement] Below it a contactor coil of that supply no longer
    /// holds.
    std::int32_t line_voltage_min_V = 85;
    /// 250 V plus 10 %. [standard] IEC 60038 (memory).
    std::int32_t line_voltage_max_V = 275;
    /// On the motor's plate; 0: not told, and only the two limits above hold. With it a start also
    /// needs 70 to 119 % of it, and feeding ends above that. [judgement] Below 70 % a compressor
    /// hardly starts; 119 % is just inside what the plate's 110 % motor bears for a start.
    std::int32_t rated_voltage_V = 0;
    /// 50 and 60 Hz with the drift of a small generator: 45 to 65 Hz is what gate pulses are made
    /// for, and a set that is stalling loses 10 Hz/s and more while a cycle is measured; so a
    /// hertz is kept. [judgement]
    std::int32_t line_frequency_min_mHz = 46000;
    std::int32_t line_frequency_max_mHz = 64000;
    /// Of the voltage measured before the start; a motor fed with less is let go. [published] Such
    /// compressors stall at 0.60 of rated voltage (composite-load parameter sets); 0.65 lets go
    /// before that.
    std::int32_t sag_limit_permille = 650;
    /// How long a sag or another fault of the line is borne, in half cycles. [judgement] Three
    /// refreshes are more than one cycle: a sag that a motor rides through does not cost a start.
    std::int32_t line_fault_half_cycles = 3;

    // ---- contacts

    /// Until the unit's line contactor is surely in. [judgement] 12 ms travel and bounce of a
    /// relay-size contactor, with half as much again.
    std::int32_t contactor_settle_ms = 20;
    /// Until the start capacitor is surely in. [judgement] Travel and bounce; being early does no
    /// harm, the first stage only begins with less torque.
    std::int32_t start_capacitor_settle_ms = 15;
    /// From coil off until the start capacitor is surely out. [judgement] 8 ms travel, and an arc
    /// until the next current zero, at most 10 ms later at 50 Hz.
    std::int32_t start_capacitor_release_ms = 20;
    /// Until the bypass is surely in and may carry the current alone. [judgement] Twice the travel
    /// of 12 ms, then bounce; the gate costs nothing meanwhile.
    std::int32_t bypass_settle_ms = 30;

    // ---- gating

    /// Firing angle of full conduction. [judgement] Below the load angle of any running motor
    /// (power factor 0.97 is 14 degrees) and far enough from the zero for the tracked phase to err.
    std::int32_t full_conduction_angle_mdeg = 8000;
    /// End of the gate pulse. [judgement] Leaves 10 degrees, half a millisecond, before the zero at
    /// which a pulse would fire the wrong half cycle.
    std::int32_t gate_pulse_end_mdeg = 170000;

    // ---- probing

    /// Firing angle of the probing pulses. [judgement] The current there hardly depends on the
    /// motor's power factor (gating/conduction.hpp) and is 30 % of locked rotor: no strain.
    std::int32_t probe_angle_mdeg = 122000;
    /// Half cycles of probing. [judgement] Two full cycles: one to settle, one to measure.
    std::int32_t probe_half_cycles = 4;
    /// Smaller estimates of the locked-rotor current mean that no motor is there. [judgement] A
    /// third of the smallest motor (1/4 hp, 110 V: about 15 A).
    std::int32_t locked_rotor_min_mA = 5000;
    /// Larger ones mean a short. [published] A 5-ton compressor draws 141 A.
    std::int32_t locked_rotor_max_mA = 200000;

    // ---- looking for faults of the hardware (LETTING_GO.md)

    /// 1: the motor has a run capacitor between L1 and S. 0: it has none, and a dead S terminal at
    /// standstill is no fault. [practice] Compressors of this size have one.
    std::int32_t run_capacitor_fitted = 1;
    /// Offset of a sensor from its zero that no sound one has, of its range. [judgement] Offsets
    /// of such channels stay within 1 %; a stuck sensor lies anywhere.
    std::int32_t sensor_offset_permille = 30;
    /// Output current with everything off that somebody else lets through. [judgement] Seven
    /// counts of the converter; the smallest start capacitor (20 uF at 100 V) passes 0.7 A.
    std::int32_t unasked_current_mA = 500;
    /// Voltage at S, of the line, below which there is none. [judgement] The run capacitor alone
    /// brings 5 to 13 % to a standing motor, computed for the library's compressors; converter
    /// noise is a tenth of this limit at 100 V.
    std::int32_t start_terminal_dead_permille = 20;
    /// Voltage across the run capacitor, of the line, below which it is shorted. [judgement]
    /// Computed for the same motors: 1.03 to 1.1 when sound, 0 when shorted.
    std::int32_t run_capacitor_shorted_permille = 300;
    /// Current that the start capacitor's contact must bring, of the locked-rotor estimate.
    /// [judgement] Computed for the same motors with usual capacitors: 10 to 43 %.
    std::int32_t start_capacitor_current_permille = 25;
    /// Half cycles for which the start capacitor alone is looked at. [judgement] One cycle, begun
    /// when its contact has closed; a small generator's voltage rises under so much leading
    /// current, so no longer than that.
    std::int32_t inspection_half_cycles = 2;
    /// Impedance of the winding at S, of the one at R, below which they are swapped. [judgement]
    /// Computed for the same motors, as the controller sees it with a start capacitor of three
    /// times the run capacitor: 1.4 to 3.5, swapped 0.37 to 0.95.
    std::int32_t swapped_impedance_permille = 1000;
    /// Difference between the two half waves' shares of the output current that is a fault.
    /// [judgement] Healthy climbs stay below 3.5 % for five half cycles, seen on 121 pairs.
    std::int32_t half_wave_difference_permille = 200;
    /// Output current above the ordered one, of the locked-rotor estimate, that is a fault.
    /// [judgement] Healthy climbs stay below 18 %, seen on the same pairs: the start capacitor's
    /// share at resonance. A welded bypass adds 45 to 60 % in the first three stages.
    std::int32_t beyond_order_permille = 350;
    /// For how long these faults, or a dead sensor, are borne while climbing and handing over.
    /// [judgement] Three cycles: a gust of the supply or one torque pulsation is over by then.
    std::int32_t fault_half_cycles = 6;
    /// Voltage at S, of the line, above which the start capacitor is still in though its coil is
    /// off. [judgement] On the same pairs: out 1.14 to 1.65, in 1.74 to 2.45.
    std::int32_t start_capacitor_in_permille = 1700;

    // ---- climbing

    RampLawKind ramp_law = RampLawKind::stage_ladder;
    /// Four steps. [practice]
    std::int32_t stage_count = 4;
    /// [practice] Limited starts draw 25 to 40 % of the direct start's line current. With the start
    /// capacitor's leading current the line sees about two thirds of the main winding's, so 40 to
    /// 55 % there span that band. [judgement] The last stage is for the few motors that need
    /// more than that: nearly the direct start's current, but only while the rotor does turn, or
    /// for its dwell.
    std::array<StageSettings, most_stages> stages = {
        {{400, 250}, {470, 250}, {550, 300}, {850, 400}}};
    /// Whole climb. [judgement] An unloaded compressor is up in 0.2 to 0.8 s; one that is not up
    /// after twice that will not come, and its windings heat at 10 K/s or more.
    std::int32_t climb_limit_ms = 1600;
    /// Start capacitor in, travel included. [judgement] Such capacitors are built for about 3 s per
    /// start; this keeps a third in hand.
    std::int32_t start_capacitor_limit_ms = 2000;

    // ---- learning from start to start

    LearningLawKind learning_law = LearningLawKind::easing;
    /// A climb that takes longer was too weak, though it succeeded. [judgement] With the 0.15 s of
    /// probing before it, the rotor is then up within a second of the call.
    std::int32_t learning_in_time_ms = 800;

    // ---- recognising that the rotor is up

    /// Voltage at S over its standstill value at which a rotor that gains no more speed is up. With
    /// the start capacitor in it is flat up to half speed and then rises two to two and a half
    /// times; with a start capacitor large for its motor it rises later and less. [judgement] In
    /// phasor solutions of five motors the rotor is then past 70 % of synchronous speed.
    std::int32_t run_up_rise_permille = 1600;
    /// The rise at which it is up even though it still gains speed. [judgement] 85 to 90 % of
    /// synchronous speed; waiting longer would drive the voltage at S, which resonance then lifts
    /// to twice the line's, and would bring nothing.
    std::int32_t sure_rise_permille = 2000;
    /// How far ahead the rise is judged, at its present growth. [judgement] Readings are a half
    /// cycle old, and the start capacitor's contact needs one or two more to open; a light rotor
    /// gains a tenth of its speed in that time.
    std::int32_t look_ahead_half_cycles = 4;
    /// Above this rise it surely turns. [judgement] Noise and sag stay below a tenth.
    std::int32_t turning_rise_permille = 1150;
    /// Growth of the S voltage over `growth_half_cycles` that means "still accelerating".
    /// [judgement] Below it the rotor gains less than a percent of speed in that time.
    std::int32_t accelerating_growth_permille = 30;
    std::int32_t growth_half_cycles = 4;
    /// Fall of the output current over the same half cycles, within one stage, that means so, too.
    std::int32_t accelerating_fall_permille = 20;
    /// Fall of the output current since the stage's beginning that is a sign of turning, too.
    /// [judgement] Below half speed the current is the first to show it.
    std::int32_t turning_current_fall_permille = 80;

    // ---- handing over to the bypass

    /// From the start capacitor's coil off to the sweep's beginning. [judgement] Its opening
    /// travel; waiting longer would let a loaded rotor slow down on the run capacitor alone.
    std::int32_t sweep_delay_ms = 8;
    /// Sweep from the last stage to full conduction. [judgement] Three cycles: no current step, and
    /// little time at reduced torque. The rise is judged ahead, so the sweep begins below speed:
    /// with two cycles the design case drew over 30 A when switched on near the voltage's crest,
    /// with three at most 29.8 A; the bundled compressors draw the same with either (computed).
    std::int32_t sweep_half_cycles = 6;
    /// Output current at full conduction, of the locked-rotor estimate, below which the rotor is
    /// up. [published] Rated current is 17 to 22 % of locked rotor. [judgement] 42 % or more at 85
    /// % speed, computed for five motors (sequence/hand_over.hpp).
    std::int32_t up_to_speed_current_permille = 350;
    /// Voltage at S, of the line, above which the rotor is up. [judgement] Below 89 % at 85 %
    /// speed, computed for the same motors; any auxiliary winding reaches the line voltage at rated
    /// speed.
    std::int32_t up_to_speed_voltage_permille = 900;
    /// For this long without a break. [judgement] Three cycles, longer than a pass through
    /// resonance.
    std::int32_t confirm_half_cycles = 6;
    /// No half cycle that looks up within this: stalled. [judgement] From 80 % speed a motor on the
    /// full line needs 20 to 150 ms.
    std::int32_t confirm_limit_ms = 300;
    /// Up, but still swinging about its speed after this: let go. [judgement] The swing of a light
    /// rotor dies out within half a second; the thyristors carry running current that long.
    std::int32_t swing_limit_ms = 1000;

    // ---- running

    /// Output current, of the locked-rotor estimate, that means a stall. [judgement] Between rated
    /// (22 %, and 28 % on a line of 80 %) and the 52 % that a small hermetic motor draws where an
    /// overload holds it at 85 % of synchronous speed (computed).
    std::int32_t stall_current_permille = 450;
    std::int32_t stall_patience_ms = 300;
    /// Output current, of the locked-rotor estimate, below which the motor is no longer fed: its
    /// protector or a wire has opened. Let go, lest it comes back with a direct start. [judgement]
    /// A light motor whose run capacitor is large idles at 1 % at a sag to 70 % (computed).
    std::int32_t lost_current_permille = 5;
    /// Voltage at S, of the line, below which a running motor has lost its speed, and for how long.
    /// [judgement] Healthy ones show 1.1 and more, 0.8 at 85 % speed (sequence/hand_over.hpp). A
    /// rotor that gas turns round while the line is away stays below for 80 to 120 ms.
    std::int32_t slow_voltage_permille = 750;
    std::int32_t slow_patience_ms = 60;

    // ---- rest, tries, lock-out

    /// After any feeding of the motor. [practice] 3 to 5 minutes until the pressures are equal.
    std::int32_t rest_before_retry_s = 240;
    /// Starts in a row that may fail before the controller locks out. [practice]
    std::int32_t tries = 3;
    /// A motor that has run this long has started well: its tries are forgotten. [judgement]
    std::int32_t run_clears_tries_s = 10;
    /// How long the call must stay away to end a lock-out or to forget failed tries. [judgement]
    /// Longer than any thermostat's swing, so that only a person's intervention does it.
    std::int32_t lockout_clear_s = 600;
};

/// What is wrong with a set of settings: the first offending field, in their order.
enum class SettingsProblem : std::uint8_t {
    none,
    line_voltage_min_V,                ///< 50 to 300, below the maximum
    line_voltage_max_V,                ///< up to 300
    rated_voltage_V,                   ///< 0 (not told) to 300
    line_frequency_min_mHz,            ///< 43,000 to 67,000, below the maximum
    line_frequency_max_mHz,            ///< up to 67,000
    sag_limit_permille,                ///< 300 to 950
    line_fault_half_cycles,            ///< 1 to 20
    contactor_settle_ms,               ///< 5 to 200
    start_capacitor_settle_ms,         ///< 5 to 200
    start_capacitor_release_ms,        ///< 10 to 200
    bypass_settle_ms,                  ///< 15 to 500
    full_conduction_angle_mdeg,        ///< 3,000 to 45,000
    gate_pulse_end_mdeg,               ///< 150,000 to 175,000
    probe_angle_mdeg,                  ///< 90,000 to 145,000
    probe_half_cycles,                 ///< 3 to 40
    locked_rotor_min_mA,               ///< 1,000 up to the maximum
    locked_rotor_max_mA,               ///< up to 217,000, what the current channel can show
    run_capacitor_fitted,              ///< 0 or 1
    sensor_offset_permille,            ///< 10 to 500
    unasked_current_mA,                ///< 300 to 5,000
    start_terminal_dead_permille,      ///< 5 to 50
    run_capacitor_shorted_permille,    ///< 50 to 800
    start_capacitor_current_permille,  ///< 5 to 100
    inspection_half_cycles,            ///< 2 to 10
    swapped_impedance_permille,        ///< 0 (never) to 1,200
    half_wave_difference_permille,     ///< 50 to 800
    beyond_order_permille,             ///< 200 to 1,000
    fault_half_cycles,                 ///< 3 to 20
    start_capacitor_in_permille,       ///< 1,300 to 2,500
    ramp_law,                          ///< one of the list
    stage_count,                       ///< 1 to 8
    stage_target_permille,             ///< 100 to 1,000, each above the one before
    stage_dwell_ms,                    ///< 50 to 2,000
    climb_limit_ms,                    ///< 200 to 2,500
    start_capacitor_limit_ms,          ///< 200 to 3,000
    learning_law,                      ///< one of the list
    learning_in_time_ms,               ///< 100 to 2,500
    run_up_rise_permille,              ///< 1,200 to 3,000
    sure_rise_permille,                ///< the run-up rise up to 5,000
    look_ahead_half_cycles,            ///< 0 to 6
    turning_rise_permille,             ///< 1,050 up to the run-up rise
    accelerating_growth_permille,      ///< 5 to 200
    growth_half_cycles,                ///< 2 to 14
    accelerating_fall_permille,        ///< 5 to 1,000
    turning_current_fall_permille,     ///< 20 to 500
    sweep_delay_ms,                    ///< 0 to 50
    sweep_half_cycles,                 ///< 1 to 20
    up_to_speed_current_permille,      ///< 100 to 400
    up_to_speed_voltage_permille,      ///< 700 to 1,200
    confirm_half_cycles,               ///< 4 to 50
    confirm_limit_ms,                  ///< 100 to 1,000
    swing_limit_ms,                    ///< 200 to 3,000
    stall_current_permille,            ///< above the up-to-speed current, up to 900
    stall_patience_ms,                 ///< 50 to 2,000
    lost_current_permille,             ///< 1 to 50
    slow_voltage_permille,             ///< 100 to 900
    slow_patience_ms,                  ///< 20 to 1,000
    rest_before_retry_s,               ///< 1 to 3,600
    tries,                             ///< 1 to 20
    run_clears_tries_s,                ///< 1 to 3,600
    lockout_clear_s,                   ///< 1 to 86,400
};

/// `SettingsProblem::none` when every field is inside its bounds. A controller made with anything
/// else never feeds the motor.
SettingsProblem check(const Settings& settings);

/// The settings themselves when check() finds nothing, else the defaults: a controller that refuses
/// its settings still makes its parts, and numbers outside their bounds would leave their types.
const Settings& usable(const Settings& settings);

/// The field's name as it is spelled above; for `none` the empty text.
const char* name_of(SettingsProblem problem);

}  // namespace firmware
