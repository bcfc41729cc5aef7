// The bits of everything that can be read off a run, boiled down to one number (FNV-1a).
#pragma once

#include <cstdint>
#include <cstring>

#include "sim/bench/start_run.hpp"

namespace sim_test {

class Digest {
  public:
    void add(double value) {
        std::uint64_t bits = 0;
        std::memcpy(&bits, &value, sizeof bits);
        add_bits(bits);
    }
    void add_bits(std::uint64_t bits) {
        for (int k = 0; k < 8; ++k) {
            hash_ = (hash_ ^ ((bits >> (8 * k)) & 0xffU)) * 1099511628211ULL;
        }
    }
    void add(const plant_models::PlantOutputs& o) {
        for (const double value :
             {o.time_s, o.line_voltage_V, o.line_current_A, o.line_current_rate_A_per_s,
              o.main_current_A, o.aux_current_A, o.start_capacitor_current_A,
              o.start_terminal_voltage_V, o.run_capacitor_voltage_V, o.start_capacitor_voltage_V,
              o.blocking_voltage_V, o.torque_Nm, o.load_torque_Nm, o.speed_rad_per_s,
              o.acceleration_rad_per_s2}) {
            add(value);
        }
        for (const double value : o.model_channels) {
            add(value);
        }
    }
    std::uint64_t value() const { return hash_; }

  private:
    std::uint64_t hash_ = 14695981039346656037ULL;
};

/// Takes in every tick of a start: the plant, the commands, the samples.
class DigestObserver final : public sim::TickObserver {
  public:
    void observe(const sim::TickView& view) override {
        digest_.add(view.plant);
        digest_.add_bits(static_cast<std::uint64_t>(view.commands.gate_on.count()));
        digest_.add_bits(static_cast<std::uint64_t>(view.commands.gate_off.count()));
        if (view.samples != nullptr) {
            digest_.add_bits(view.samples->line_voltage_counts);
            digest_.add_bits(view.samples->output_current_counts);
            digest_.add_bits(view.samples->start_terminal_voltage_counts);
        }
        ++ticks_;
    }
    std::uint64_t value() const { return digest_.value(); }
    long ticks() const { return ticks_; }

  private:
    Digest digest_;
    long ticks_ = 0;
};

}  // namespace sim_test
