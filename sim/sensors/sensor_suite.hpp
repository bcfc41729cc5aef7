// Everything the controller can see, sampled from the plant's truth into one frame.
//
// The heatsink stands at 25 degC: within the seconds of a start its temperature hardly moves.
#pragma once

#include "firmware/contract/frames.hpp"
#include "plant_models/plant_outputs.hpp"

namespace sim {

firmware::SensorFrame sample_sensors(const plant_models::PlantOutputs& plant,
                                     bool call_for_cooling);

}  // namespace sim
