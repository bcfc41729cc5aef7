/* Anyone's controller: what a shared library offers so that the bench can run it in the place of
 * ours. C11 and C++, no header but <stdint.h>.
 *
 * The bench samples at the start of a tick (100 us) and calls runup_tick() once; what it answers
 * is in force during the tick after that. Between two ticks no time passes for the motor, however
 * long the library computes. The frames are the same bytes as those of frames.hpp and store.hpp
 * beside this file; a test holds them together.
 *
 * The library must export, with C linkage:
 *   runup_abi_version, runup_create, runup_tick, runup_destroy
 * and may export:
 *   runup_sleep, runup_tells_states, runup_variable_name, runup_variable
 *
 * It runs in a process of its own. Loss of power ends that process, so nothing survives a power cut
 * but what is in the store; what it prints goes nowhere near a result.
 */
#ifndef RUNUP_CONTROLLER_ABI_H
#define RUNUP_CONTROLLER_ABI_H

#include <stdint.h> /* NOLINT(modernize-deprecated-headers): it is C, too */

#ifdef __cplusplus
extern "C" {
#endif

/** Of this header; runup_abi_version() returns the one that the library was built with. */
#define RUNUP_ABI_VERSION 1U

#define RUNUP_FRAME_VERSION 1U
#define RUNUP_TICK_US 100
#define RUNUP_TICKS_PER_SECOND 10000

/* 12-bit converter counts to physical units. The bipolar channels read the midpoint at zero. */
#define RUNUP_ADC_MIDPOINT 2048
#define RUNUP_LINE_VOLTAGE_MV_PER_COUNT 300
#define RUNUP_START_TERMINAL_VOLTAGE_MV_PER_COUNT 500
#define RUNUP_OUTPUT_CURRENT_MA_PER_COUNT 150
#define RUNUP_HEATSINK_OFFSET_MC (-40000)
#define RUNUP_HEATSINK_MC_PER_COUNT 50

/** Samples taken at the start of a tick, in raw converter counts. Terminals: R (run), S (start),
 * C (common); L1 is the incoming line. A voltage is positive when its first-named terminal is above
 * C, the current when it flows from L1 into the motor. */
struct runup_sensor_frame {
    uint16_t version;
    uint16_t line_voltage_counts;           /**< L1 to C */
    uint16_t output_current_counts;         /**< main winding plus start capacitor */
    uint16_t start_terminal_voltage_counts; /**< S to C */
    uint16_t heatsink_counts;
    uint16_t call_for_cooling; /**< 1 while the thermostat calls, else 0 */
};

/** What the outputs do during one tick. It comes filled in: this version, everything off. */
struct runup_actuator_frame {
    uint16_t version;
    /** The gate is driven from on to off, us after the start of the tick; 0 <= on <= off <= 100,
     * equal means no pulse. One that lasts to 100 and goes on from 0 in the next frame is one
     * unbroken pulse. A thyristor that has fired conducts until its current's next zero. */
    uint16_t gate_on_us;
    uint16_t gate_off_us;
    uint8_t start_capacitor_contact; /**< coil of the start-capacitor contact; 0 or 1 */
    uint8_t bypass_contact;          /**< coil of the bypass contact; 0 or 1 */
    uint8_t contactor_permit;        /**< 1 lets the call reach the unit's line contactor; 0 or 1 */
    uint8_t reserved;                /**< always 0 */
    uint16_t status;                 /**< the library's own; see runup_tells_states() */
};

#define RUNUP_STORE_PAGES 2
#define RUNUP_STORE_PAGE_WORDS 64
#define RUNUP_ERASED_WORD 0xFFFFFFFFU

/** Two erase pages of flash, as they were found at power-up. Rules: a word is written once between
 * two erases of its page (bits only go from 1 to 0), and never while an output is on. While an
 * erase lasts (30 ms) there are no ticks: the processor stalls. Power may vanish in between. */
struct runup_store_pages {
    uint32_t words[RUNUP_STORE_PAGES][RUNUP_STORE_PAGE_WORDS];
};

#define RUNUP_STORE_NONE 0
#define RUNUP_STORE_WRITE_WORD 1
#define RUNUP_STORE_ERASE_PAGE 2

/** At most one per tick; comes as RUNUP_STORE_NONE. */
struct runup_store_command {
    uint8_t kind;
    uint8_t page;
    uint16_t index; /**< of the word in its page */
    uint32_t word;
};

/** What is known when power comes. All of it is valid during runup_create() only. */
struct runup_power_up {
    const struct runup_store_pages* store; /**< a new unit's holds our own controller's record */
    const char* options;                   /**< the scenario's, "" if it gives none */
    /* What an installer reads off the plate. */
    int32_t rated_voltage_V;
    int32_t run_capacitor_fitted; /**< 1 or 0 */
};

/** The library's own; the bench never looks inside. */
struct runup_controller;

#if defined(__GNUC__)
#define RUNUP_EXPORT __attribute__((visibility("default")))
#else
#define RUNUP_EXPORT
#endif

/** Always the first call; nothing else is called if it is not the version of the bench. */
RUNUP_EXPORT uint32_t runup_abi_version(void);

#define RUNUP_REFUSAL_BYTES 160

/** Power has come. Null refuses, for instance options that cannot be read; what is then written to
 * `refusal` (a sentence without a full stop, ended by a zero byte) is shown to the user. */
RUNUP_EXPORT struct runup_controller* runup_create(const struct runup_power_up* at,
                                                   char refusal[RUNUP_REFUSAL_BYTES]);

/** One tick. */
RUNUP_EXPORT void runup_tick(struct runup_controller* controller,
                             const struct runup_sensor_frame* samples,
                             struct runup_actuator_frame* outputs,
                             struct runup_store_command* store);

/** The bench is done, or power is gone. Not a place to store anything. */
RUNUP_EXPORT void runup_destroy(struct runup_controller* controller);

/** May be missing. So many ticks pass without a call, at rest, with everything off. Without it they
 * pass unseen: a rest then seems shorter than it was. */
RUNUP_EXPORT void runup_sleep(struct runup_controller* controller, uint32_t ticks);

/** May be missing, which means 0. 1: the status word holds a state (low byte) and a reason (high
 * byte) with the numbers of firmware/sequence/state.hpp, and the bench tells them by name. 0: the
 * bench tells what the outputs do. */
RUNUP_EXPORT uint32_t runup_tells_states(void);

/** Both or none. Variables that can be watched: their names (unit at the end) for 0, 1, 2, ...,
 * null behind the last (64 at most, 63 letters each), and their values after the last tick. */
RUNUP_EXPORT const char* runup_variable_name(uint32_t variable);
RUNUP_EXPORT int64_t runup_variable(const struct runup_controller* controller, uint32_t variable);

#ifdef __cplusplus
}
#endif

#endif
