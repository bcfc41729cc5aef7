#include "plant_models/plant_outputs.hpp"

#include <algorithm>
#include <cmath>

namespace plant_models {

double EnergyAudit::closure() const {
    const double error = source_J - loss_J() - load_J - stored_J;
    const double passed =
        std::max({std::abs(source_J), loss_J() + std::abs(load_J), std::abs(stored_J)});
    return passed > 0.0 ? std::abs(error) / passed : 0.0;
}

}  // namespace plant_models
