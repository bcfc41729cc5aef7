// The controller as a program of its own: it answers one request after the other.
#include <cstdint>
#include <new>

#include "firmware/board/board.hpp"
#include "firmware/board/wire.hpp"
#include "firmware/controller.hpp"

namespace {

using namespace firmware;
using namespace firmware::board;

// Not a static object of its own: those would ask for a destructor at an exit that never comes.
alignas(Controller) unsigned char room_for_controller[sizeof(Controller)];
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
    Controller& controller =
        *new (room_for_controller) Controller(installed_settings, installed_store);
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
