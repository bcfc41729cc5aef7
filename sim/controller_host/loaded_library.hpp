// A controller library in this process: loaded, asked for its version, and called.
#pragma once

#include "firmware/contract/controller_abi.h"
#include "sim/controllers/library/exchange.hpp"

namespace sim {

class LoadedLibrary {
  public:
    explicit LoadedLibrary(Exchange& exchange) : exchange_(exchange) {}

    /// Carries out what the exchange asks and leaves there what came of it. Whatever the library
    /// throws comes out of here.
    HostReply carry_out(HostRequest request);

  private:
    HostReply load();
    HostReply create();
    void tick();
    void take_variables();
    template <class Function>
    bool find(const char* name, Function*& function);

    Exchange& exchange_;
    void* library_ = nullptr;
    runup_controller* controller_ = nullptr;
    decltype(runup_abi_version)* abi_version_ = nullptr;
    decltype(runup_create)* create_ = nullptr;
    decltype(runup_tick)* tick_ = nullptr;
    decltype(runup_destroy)* destroy_ = nullptr;
    decltype(runup_sleep)* sleep_ = nullptr;                  ///< null if it lacks it
    decltype(runup_tells_states)* tells_states_ = nullptr;    ///< null if it lacks it
    decltype(runup_variable_name)* variable_name_ = nullptr;  ///< null if it lacks it
    decltype(runup_variable)* variable_ = nullptr;            ///< null if it lacks it
};

/// Copies as much of the text as fits, and ends it.
template <std::size_t size>
void put_text(char (&place)[size], const char* text) {
    std::size_t length = 0;
    for (; length + 1 < size && text[length] != '\0'; ++length) {
        place[length] = text[length];
    }
    place[length] = '\0';
}

}  // namespace sim
