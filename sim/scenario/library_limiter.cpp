#include "sim/scenario/library_limiter.hpp"

#include <filesystem>
#include <variant>

#include "sim/controllers/library/library_loading.hpp"
#include "sim/files/input_error.hpp"

namespace sim {

void complete_library_limiter(Scenario& scenario, const KeyLocator& where) {
    auto* limiter = std::get_if<LibraryLimiter>(&scenario.limiter);
    if (limiter == nullptr) {
        return;
    }
    const std::filesystem::path folder =
        std::filesystem::path(where("limiter", "path").file).parent_path();
    limiter->path = (folder / limiter->path).string();
    const LibraryAnswer answer = try_library(*limiter, scenario.motor);
    if (answer.problem) {
        const TablePlace place = where("limiter", answer.problem->key);
        throw InputError(place.file, place.line, "limiter." + answer.problem->key,
                         answer.problem->words);
    }
    for (const Fault& fault : scenario.faults) {
        if (fault.timing.waits_for_state() && !answer.tells_states) {
            throw InputError(where("fault", "").file, fault.line, "fault.when",
                             "this library does not tell which state its controller is in; give "
                             "at_s");
        }
    }
}

}  // namespace sim
