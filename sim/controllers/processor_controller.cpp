#include "sim/controllers/processor_controller.hpp"

namespace sim {

ProcessorController::ProcessorController(const firmware::Settings& settings,
                                         const FlashStore& store, const ProcessorSetup& setup)
    : ControllerPort(store),
      settings_(settings),
      processor_(setup),
      witness_(setup.witness != nullptr ? setup.witness
                                        : (setup.beside_host ? &beside_host_ : nullptr)) {}

void ProcessorController::note(const ProcessorWitness::Objection& failure) {
    if (failure) {
        processor_.power_down();
        fail(*failure);
    }
}

void ProcessorController::begin(const firmware::StorePages& at_power_up) {
    note(processor_.power_up(settings_, at_power_up));
    if (!failure() && witness_ != nullptr) {
        note(witness_->powered_up(settings_, at_power_up, processor_.answer()));
    }
}

firmware::ActuatorFrame ProcessorController::answer(const firmware::SensorFrame& samples) {
    note(processor_.step(samples));
    if (!failure() && witness_ != nullptr) {
        note(witness_->stepped(samples, processor_.answer(), processor_.instructions()));
    }
    return processor_.answer().frame;
}

void ProcessorController::sleep(firmware::Ticks ticks) {
    note(processor_.rest(ticks));
    if (!failure() && witness_ != nullptr) {
        note(witness_->rested(ticks, processor_.answer()));
    }
}

}  // namespace sim
