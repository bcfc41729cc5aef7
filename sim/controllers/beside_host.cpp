#include "sim/controllers/beside_host.hpp"

#include <fmt/format.h>

#include "sim/controllers/answer_fields.hpp"

namespace sim {

using firmware::board::Answer;

ProcessorWitness::Objection BesideHost::powered_up(const firmware::Settings& settings,
                                                   const firmware::StorePages& store,
                                                   const Answer& answer) {
    host_.emplace(settings, store);
    ++power_ups_;
    ticks_ = 0;
    return compare({}, answer);
}

ProcessorWitness::Objection BesideHost::stepped(const firmware::SensorFrame& samples,
                                                const Answer& answer,
                                                std::int64_t /*instructions*/) {
    ++ticks_;
    return compare(host_->step(samples), answer);
}

ProcessorWitness::Objection BesideHost::rested(firmware::Ticks ticks, const Answer& answer) {
    ticks_ += ticks.count();
    host_->rest(ticks);
    return compare({}, answer);
}

ProcessorWitness::Objection BesideHost::compare(const firmware::ActuatorFrame& frame,
                                                const Answer& answer) {
    ++compared_;
    Answer ours;
    ours.frame = frame;
    ours.command = host_->store_command();
    ours.telemetry = host_->telemetry();
    const AnswerField* field = first_difference(ours, answer);
    if (field == nullptr) {
        return std::nullopt;
    }
    return ControllerFailure{
        "differs_from_host",
        fmt::format("In tick {} after power-up {}, {} of the processor's answer is {}, and this "
                    "build's controller has {}",
                    ticks_, power_ups_, field->name, field->value(answer), field->value(ours))};
}

}  // namespace sim
