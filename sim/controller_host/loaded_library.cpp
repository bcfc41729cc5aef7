#include "sim/controller_host/loaded_library.hpp"

#include <dlfcn.h>

#include <cstring>

namespace sim {

namespace {

/// The other side of the contract has the same bytes; tests/sim/controllers holds that.
template <class To, class From>
To same_bytes(const From& from) {
    static_assert(sizeof(To) == sizeof(From), "frames are the same bytes in C and C++");
    To to;
    std::memcpy(static_cast<void*>(&to), &from, sizeof to);
    return to;
}

}  // namespace

template <class Function>
bool LoadedLibrary::find(const char* name, Function*& function) {
    function = reinterpret_cast<Function*>(::dlsym(library_, name));
    if (function == nullptr) {
        put_text(exchange_.words, name);
    }
    return function != nullptr;
}

HostReply LoadedLibrary::load() {
    library_ = ::dlopen(exchange_.path, RTLD_NOW | RTLD_LOCAL);
    if (library_ == nullptr) {
        const char* words = ::dlerror();
        put_text(exchange_.words, words != nullptr ? words : "");
        return HostReply::cannot_load;
    }
    if (!find("runup_abi_version", abi_version_)) {
        return HostReply::symbol_missing;
    }
    exchange_.version = abi_version_();
    if (exchange_.version != RUNUP_ABI_VERSION) {
        return HostReply::wrong_version;
    }
    if (!find("runup_create", create_) || !find("runup_tick", tick_) ||
        !find("runup_destroy", destroy_)) {
        return HostReply::symbol_missing;
    }
    find("runup_sleep", sleep_);
    exchange_.tells_states = find("runup_tells_states", tells_states_) ? tells_states_() : 0U;
    const bool has_names = find("runup_variable_name", variable_name_);
    if (has_names != find("runup_variable", variable_)) {
        put_text(exchange_.words, has_names ? "runup_variable" : "runup_variable_name");
        return HostReply::symbol_missing;
    }
    std::uint32_t count = 0;
    while (has_names && count < most_library_variables) {
        const char* name = variable_name_(count);
        if (name == nullptr) {
            break;
        }
        put_text(exchange_.variable_names[count], name);
        ++count;
    }
    exchange_.variable_count = count;
    return HostReply::done;
}

HostReply LoadedLibrary::create() {
    const auto store = same_bytes<runup_store_pages>(exchange_.store);
    const runup_power_up at = {&store, exchange_.options, exchange_.rated_voltage_V,
                               exchange_.run_capacitor_fitted};
    char refusal[RUNUP_REFUSAL_BYTES] = {};
    controller_ = create_(&at, refusal);
    if (controller_ == nullptr) {
        refusal[RUNUP_REFUSAL_BYTES - 1] = '\0';
        put_text(exchange_.words, refusal);
        return HostReply::refused;
    }
    take_variables();
    return HostReply::done;
}

void LoadedLibrary::take_variables() {
    const std::uint32_t count = exchange_.variable_count;
    for (std::uint32_t k = 0; k < count && k < most_library_variables; ++k) {
        exchange_.variables[k] = variable_(controller_, k);
    }
}

void LoadedLibrary::tick() {
    // On this side's own memory, so that nothing half written is ever in the exchange.
    const auto samples = same_bytes<runup_sensor_frame>(exchange_.samples);
    auto outputs = same_bytes<runup_actuator_frame>(firmware::ActuatorFrame{});
    runup_store_command store = {};
    tick_(controller_, &samples, &outputs, &store);
    exchange_.outputs = same_bytes<firmware::ActuatorFrame>(outputs);
    exchange_.store_command = same_bytes<firmware::StoreCommand>(store);
    take_variables();
}

HostReply LoadedLibrary::carry_out(HostRequest request) {
    switch (request) {
        case HostRequest::load:
            return load();
        case HostRequest::create:
            return create();
        case HostRequest::tick:
            tick();
            return HostReply::done;
        case HostRequest::sleep:
            if (sleep_ != nullptr) {
                sleep_(controller_, exchange_.sleep_ticks);
            }
            take_variables();
            return HostReply::done;
        case HostRequest::destroy:
            destroy_(controller_);
            return HostReply::done;
    }
    return HostReply::done;
}

}  // namespace sim
