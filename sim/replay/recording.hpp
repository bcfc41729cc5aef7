// Everything that decided what a controller answered, tick by tick, and what it answered: enough to
// ask another build the same again without a plant.
//
// A recording is one text file that needs nothing beside it:
//
//   {"schema": "runup.recording/1", …}      one line: the settings as keys of [limiter] (null if
//                                           the controller was not ours), the store at power-up as
//                                           hexadecimal words, how long a page takes to erase
//   line_voltage_counts,…,status            names of the columns
//   2048,2048,2048,1300,0,0,0,0,0,0,0       a tick: the sensor frame, the frame that answered it
//   power_lost,in_part,0                    what was on its way to the store is torn so; a seed
//   power_came                              a new controller, on what the store holds
//   rest,35990000                           so many ticks asleep
//   end,50000                               ticks in all; without it the file is cut short
//
// The store is not recorded: it follows from what the controller writes, and while a page is erased
// the controller is not asked, then as now.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "firmware/contract/frames.hpp"
#include "firmware/contract/store.hpp"
#include "firmware/settings/settings.hpp"
#include "sim/controllers/controller_port.hpp"
#include "sim/controllers/port_listener.hpp"
#include "sim/files/atomic_output.hpp"
#include "sim/scenario/scenario.hpp"

namespace sim {

/// How a controller was when it got power for the first time.
struct RecordedBeginning {
    std::string scenario;
    double frequency_Hz = 0.0;                   ///< nominal, of the supply; 0: not told
    std::optional<firmware::Settings> settings;  ///< as installed; none: not our controller
    firmware::StorePages store = firmware::erased_store();
    firmware::Ticks page_erase = usual_page_erase;
};

struct RecordedEvent {
    enum class Kind : std::uint8_t { step, rest, power_lost, power_came };

    Kind kind = Kind::step;
    firmware::SensorFrame samples;   ///< of a step
    firmware::ActuatorFrame answer;  ///< of a step
    firmware::Ticks ticks{0U};       ///< of a rest
    Torn torn = Torn::in_part;       ///< of a loss of power, as the next
    std::uint32_t seed = 0;
};

struct Recording {
    RecordedBeginning beginning;
    std::vector<RecordedEvent> events;
};

/// Writes one while it happens.
class RecordingWriter final : public PortListener {
  public:
    /// `output` must outlive it; the caller commits it, after finish(). Throws OutputError.
    RecordingWriter(AtomicOutput& output, const RecordedBeginning& beginning);

    void stepped(const firmware::SensorFrame& samples,
                 const firmware::ActuatorFrame& answer) override;
    void rested(firmware::Ticks ticks) override;
    void power_lost(Torn torn, std::uint32_t seed) override;
    void power_came() override;
    void finish();

  private:
    AtomicOutput& output_;
    std::int64_t steps_ = 0;
};

/// Of the controller that make_controller() gives for the scenario.
RecordedBeginning recorded_beginning(const Scenario& scenario);

/// Throws InputError. `path` may be "-".
Recording read_recording(const std::string& path);

}  // namespace sim
