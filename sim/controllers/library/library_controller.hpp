// Somebody else's controller, as a shared library in a process of its own, in the place of ours.
//
// Every power-up is a new process, so nothing but the store survives a power cut; making one
// allocates. A library that fails is out for the rest of the run, with every output off.
//
// Its telemetry: state and reason if it says that it tells them in its status word; otherwise the
// state of ours in which the motor is treated the same way, and no reason. Everything else is
// blank.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "sim/controllers/controller_port.hpp"
#include "sim/controllers/library/library_process.hpp"

namespace sim {

class LibraryController final : public ControllerPort {
  public:
    LibraryController(const LibraryLimiter& limiter, const plant_models::MotorParameters& motor,
                      const FlashStore& store, const LibraryPatience& patience = {});
    ~LibraryController() override;
    LibraryController(const LibraryController&) = delete;
    LibraryController& operator=(const LibraryController&) = delete;

    std::vector<std::string> watchable() const override { return variable_names_; }
    std::int64_t watched(std::size_t variable) const override;
    bool tells_only_states() const override { return true; }
    std::optional<SeenDoing> seen() const override;
    std::string remark() const override;

    /// Of the process that the library runs in; 0 without power, or after a failure.
    pid_t process_number() const { return process_ != nullptr ? process_->number() : 0; }

  private:
    void begin(const firmware::StorePages& at_power_up) override;
    void end() override;
    firmware::ActuatorFrame answer(const firmware::SensorFrame& samples) override;
    void sleep(firmware::Ticks ticks) override;
    firmware::StoreCommand store_command() const override { return store_command_; }
    const firmware::Telemetry& told() const override { return told_; }

    void give_up(const ControllerFailure& failure);
    void note_printed();
    bool reply_is_done(HostRequest request, const char* function);
    std::string now() const;
    void tell(const firmware::ActuatorFrame& frame, bool call_for_cooling);

    LibraryLimiter limiter_;
    plant_models::MotorParameters motor_;
    LibraryPatience patience_;
    std::unique_ptr<LibraryProcess> process_;  ///< none without power, or after a failure
    std::uint64_t ticks_ = 0;                  ///< since power-up
    bool tells_states_ = false;
    SeenDoing doing_ = SeenDoing::off;
    firmware::StoreCommand store_command_;
    firmware::Telemetry told_;
    std::vector<std::string> variable_names_;
    LibraryProcess::Printed printed_;
};

std::unique_ptr<ControllerPort> make_library_controller(const LibraryLimiter& limiter,
                                                        const plant_models::MotorParameters& motor,
                                                        const FlashStore& store);

}  // namespace sim
