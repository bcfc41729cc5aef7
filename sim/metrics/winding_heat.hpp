// How hot the hotter of the two stator windings is, in every run.
//
// With [heat] of kind "four_nodes" it is the plant's own temperature. Otherwise the same network
// (plant_models/unit/heat_network.hpp) is followed on the side with its default parameters: copper
// after 30 A/mm2 with the rotor locked, temperatures after a long run and the rest of [conditions].
// Within the seconds of a start this is the adiabatic rise of the copper, less what flows into the
// shell; a locked rotor warms it by about 5 K/s at full current. Its resistances warm, those of the
// plant then do not. What iron, cage and friction bring into the shell is left out: after minutes
// it reads too cool, and who watches that long gives [heat].
#pragma once

#include <algorithm>
#include <array>

#include "plant_models/conditions.hpp"
#include "plant_models/motor/motor_parameters.hpp"
#include "plant_models/plant_outputs.hpp"
#include "plant_models/unit/heat_network.hpp"

namespace sim {

class WindingHeat {
  public:
    /// `motor`: as it is wired; `heat`: with the copper of its windings filled in.
    WindingHeat(const plant_models::HeatParameters& heat,
                const plant_models::MotorParameters& motor,
                const plant_models::Conditions& conditions);

    /// Once per tick.
    void observe(const plant_models::PlantOutputs& plant);
    void rest(double duration_s);
    double hottest_C() const { return hottest_C_; }

  private:
    void step();

    plant_models::HeatNetwork network_;
    plant_models::MotorParameters motor_;
    std::array<double, plant_models::HeatNetwork::state_count> temperatures_C_;
    // Since the last step of the network.
    double main_A2_ = 0.0;
    double aux_A2_ = 0.0;
    double speed_rad_per_s_ = 0.0;
    int ticks_ = 0;
    double hottest_C_ = 0.0;
};

}  // namespace sim
