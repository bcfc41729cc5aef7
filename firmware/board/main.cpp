// The controller as a program of its own: it answers one request after the other.
#include <cstdint>
#include <type_traits>

#include "firmware/board/board.hpp"
#include "firmware/board/wire.hpp"
#include "firmware/controller.hpp"

namespace {

using namespace firmware;
using namespace firmware::board;

Request request;
Answer answer;

void step(Controller& controller) {
    const std::uint32_t before = timer_counts();
    answer.frame = controller.step(request.samples);
    answer.cost = (before - timer_counts()) & timer_mask;
}

void rest(Controller& controller) {
    const std::uint32_t before = timer_counts();
    controller.rest(Ticks{request.rest_ticks});
    answer.cost = (before - timer_counts()) & timer_mask;
    answer.frame = ActuatorFrame{};
}

void tell_stack_use() {
    const StackUse use{stack_reserved_bytes(), stack_used_bytes()};
    send(&use, sizeof use);
}

void tell(const Controller& controller) {
    answer.command = controller.store_command();
    answer.telemetry = controller.telemetry();
    send(&answer, sizeof answer);
}

}  // namespace

extern "C" [[noreturn]] void run_controller() {
    open_wire();
    const Hello hello;
    send(&hello, sizeof hello);
    install(&installed_settings, sizeof installed_settings);
    install(&installed_store, sizeof installed_store);
    start_timer();
    // Made here, once its pages are filled; never unmade, for its destructor does nothing.
    static_assert(std::is_trivially_destructible_v<Controller>);
    static Controller controller(installed_settings, installed_store);
    tell(controller);
    for (;;) {
        receive(&request, sizeof request);
        switch (request.kind) {
            case RequestKind::step:
                step(controller);
                tell(controller);
                break;
            case RequestKind::rest:
                rest(controller);
                tell(controller);
                break;
            case RequestKind::stack_use:
                tell_stack_use();
                break;
            default:
                stop(Stop::fault);
        }
    }
}
