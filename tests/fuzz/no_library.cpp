// While fuzzing, nobody's library is loaded, whatever path the input names.
#include "sim/controllers/library/library_loading.hpp"

namespace sim {

LibraryAnswer try_library(const LibraryLimiter& /*limiter*/,
                          const plant_models::MotorParameters& /*motor*/) {
    return {LibraryAnswer::Problem{"path", "while fuzzing no library is loaded"}, false};
}

}  // namespace sim
