// Loading a controller library into a process, and asking beforehand whether that would work.
#pragma once

#include <optional>
#include <string>

#include "plant_models/motor/motor_parameters.hpp"
#include "sim/controllers/controller_failure.hpp"
#include "sim/controllers/flash_store.hpp"
#include "sim/controllers/library/library_process.hpp"
#include "sim/scenario/limiter_choice.hpp"

namespace sim {

/// How messages call it: the file's name without its folder.
std::string library_name(const LibraryLimiter& limiter);

/// Loads the library and makes a controller that finds `store`. Causes: "not_loaded",
/// "symbol_missing", "wrong_version", "refused", "threw", and those of LibraryProcess. The words
/// are a whole sentence.
std::optional<ControllerFailure> power_up_library(LibraryProcess& process,
                                                  const LibraryLimiter& limiter,
                                                  const plant_models::MotorParameters& motor,
                                                  const firmware::StorePages& store);

/// What a reply says, unless it is done; the words begin behind the library's name. `during`: what
/// it was asked for.
std::optional<ControllerFailure> failure_of_reply(const Exchange& exchange,
                                                  const std::string& during);

/// What is known of a library before a run.
struct LibraryAnswer {
    struct Problem {
        std::string key;  ///< of [limiter]
        std::string words;
    };
    std::optional<Problem> problem;  ///< none if a run can be tried
    bool tells_states = false;
};

/// Tries it on this motor. A library that fails otherwise than by refusing (a crash while it is
/// created) has no problem here: it fails in the run, too, and has its outcome there.
LibraryAnswer try_library(const LibraryLimiter& limiter,
                          const plant_models::MotorParameters& motor);

}  // namespace sim
