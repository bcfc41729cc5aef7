#include "sim/controllers/library/library_controller.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>
#include <utility>

#include "sim/controllers/library/frame_check.hpp"
#include "sim/controllers/library/library_loading.hpp"
#include "sim/files/quoting.hpp"

namespace sim {

namespace {

std::vector<std::string> names_in(const Exchange& exchange) {
    std::vector<std::string> names;
    const std::size_t count =
        std::min<std::size_t>(exchange.variable_count, most_library_variables);
    for (std::size_t k = 0; k < count; ++k) {
        const std::string_view all(exchange.variable_names[k], library_variable_name_bytes);
        names.push_back(escaped(all.substr(0, all.find('\0'))));
    }
    return names;
}

}  // namespace

LibraryController::LibraryController(const LibraryLimiter& limiter,
                                     const plant_models::MotorParameters& motor,
                                     const FlashStore& store, const LibraryPatience& patience)
    : ControllerPort(store), limiter_(limiter), motor_(motor), patience_(patience) {}

/// A library may have something to close.
LibraryController::~LibraryController() {
    LibraryController::end();
}

std::int64_t LibraryController::watched(std::size_t variable) const {
    return process_ != nullptr && variable < most_library_variables
               ? process_->exchange().variables[variable]
               : 0;
}

std::optional<SeenDoing> LibraryController::seen() const {
    return tells_states_ ? std::nullopt : std::optional<SeenDoing>(doing_);
}

std::string LibraryController::remark() const {
    LibraryProcess::Printed printed = process_ != nullptr ? process_->printed() : printed_;
    if (printed.bytes == 0) {
        printed = printed_;
    }
    return printed.bytes == 0
               ? std::string()
               : fmt::format(
                     "{} printed to its standard output, which on a board leads nowhere; "
                     "it begins \"{}\"",
                     library_name(limiter_), escaped(printed.beginning));
}

void LibraryController::begin(const firmware::StorePages& at_power_up) {
    ticks_ = 0;
    store_command_ = {};
    told_ = {};
    doing_ = SeenDoing::off;
    process_ = std::make_unique<LibraryProcess>(patience_);
    const auto failure = power_up_library(*process_, limiter_, motor_, at_power_up);
    if (failure) {
        give_up(*failure);
        return;
    }
    tells_states_ = process_->exchange().tells_states == 1;
    if (variable_names_.empty()) {
        variable_names_ = names_in(process_->exchange());
    }
}

void LibraryController::end() {
    if (process_ == nullptr) {
        return;
    }
    reply_is_done(HostRequest::destroy, "in runup_destroy");
    note_printed();
    process_.reset();
    told_ = {};
    doing_ = SeenDoing::off;
}

void LibraryController::note_printed() {
    if (process_ != nullptr && printed_.bytes == 0) {
        printed_ = process_->printed();
    }
}

void LibraryController::give_up(const ControllerFailure& failure) {
    note_printed();
    process_.reset();
    store_command_ = {};
    told_ = {};
    doing_ = SeenDoing::off;
    fail(failure);
}

std::string LibraryController::now() const {
    return fmt::format("at tick {}, {:.4f} s after power-up", ticks_,
                       static_cast<double>(ticks_) / firmware::ticks_per_second);
}

bool LibraryController::reply_is_done(HostRequest request, const char* function) {
    const auto during = [&] { return fmt::format("{}, {}", function, now()); };
    auto failure = process_->ask(request, during);
    if (!failure && process_->exchange().reply != HostReply::done) {
        failure = failure_of_reply(process_->exchange(), during());
    }
    if (failure) {
        failure->words = library_name(limiter_) + " " + failure->words;
        give_up(*failure);
    }
    return !failure;
}

firmware::ActuatorFrame LibraryController::answer(const firmware::SensorFrame& samples) {
    ++ticks_;
    process_->exchange().samples = samples;
    if (!reply_is_done(HostRequest::tick, "in runup_tick")) {
        return {};
    }
    // A copy: the library might still be writing.
    const firmware::ActuatorFrame frame = process_->exchange().outputs;
    const std::string problem = broken_contract(frame, tells_states_);
    if (!problem.empty()) {
        give_up({"nonsense", fmt::format("{} answered with a frame with {}, {}",
                                         library_name(limiter_), problem, now())});
        return {};
    }
    store_command_ = process_->exchange().store_command;
    tell(frame, samples.call_for_cooling != 0);
    return frame;
}

void LibraryController::tell(const firmware::ActuatorFrame& frame, bool call_for_cooling) {
    doing_ = seen_doing(doing_, frame, call_for_cooling);
    if (tells_states_) {
        told_.state = static_cast<firmware::State>(frame.status & 0xFF);
        told_.reason = static_cast<firmware::Reason>(frame.status >> 8);
    } else {
        told_.state = nearest_state(doing_);
    }
}

void LibraryController::sleep(firmware::Ticks ticks) {
    ticks_ += ticks.count();
    store_command_ = {};
    process_->exchange().sleep_ticks = ticks.count();
    if (reply_is_done(HostRequest::sleep, "in runup_sleep")) {
        doing_ = SeenDoing::off;
        told_.state = tells_states_ ? told_.state : nearest_state(doing_);
    }
}

std::unique_ptr<ControllerPort> make_library_controller(const LibraryLimiter& limiter,
                                                        const plant_models::MotorParameters& motor,
                                                        const FlashStore& store) {
    return std::make_unique<LibraryController>(limiter, motor, store);
}

}  // namespace sim
