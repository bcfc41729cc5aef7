// Our own controller behind the interface for anyone's: what comes out must be what comes out
// without it.
#include <cstring>
#include <optional>

#include "firmware/contract/controller_abi.h"
#include "firmware/controller.hpp"

struct runup_controller {
    std::optional<firmware::Controller> own;
};

namespace {

runup_controller the_controller;

template <class To, class From>
To same_bytes(const From& from) {
    To to;
    static_assert(sizeof to == sizeof from, "the same bytes");
    std::memcpy(static_cast<void*>(&to), &from, sizeof to);
    return to;
}

}  // namespace

extern "C" {

uint32_t runup_abi_version(void) {
    return RUNUP_ABI_VERSION;
}

runup_controller* runup_create(const runup_power_up* at, char* /*refusal*/) {
    firmware::Settings settings;
    settings.rated_voltage_V = at->rated_voltage_V;
    settings.run_capacitor_fitted = at->run_capacitor_fitted;
    the_controller.own.emplace(settings, same_bytes<firmware::StorePages>(*at->store));
    return &the_controller;
}

void runup_tick(runup_controller* self, const runup_sensor_frame* samples,
                runup_actuator_frame* outputs, runup_store_command* store) {
    *outputs = same_bytes<runup_actuator_frame>(
        self->own->step(same_bytes<firmware::SensorFrame>(*samples)));
    *store = same_bytes<runup_store_command>(self->own->store_command());
}

void runup_destroy(runup_controller* self) {
    self->own.reset();
}

void runup_sleep(runup_controller* self, uint32_t ticks) {
    self->own->rest(firmware::Ticks{ticks});
}

uint32_t runup_tells_states(void) {
    return 1U;
}

const char* runup_variable_name(uint32_t variable) {
    return variable == 0 ? "line_frequency_mHz" : variable == 1 ? "stage" : nullptr;
}

int64_t runup_variable(const runup_controller* self, uint32_t variable) {
    const firmware::Telemetry& told = self->own->telemetry();
    return variable == 0 ? told.line_frequency_mHz : told.stage;
}
}
