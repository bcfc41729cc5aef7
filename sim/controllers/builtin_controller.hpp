// The controller that is compiled into this program: the firmware's own code, with a store beside
// it that keeps its words while the controller has no power.
#pragma once

#include <algorithm>

#include "firmware/controller.hpp"
#include "sim/controllers/controller_port.hpp"

namespace sim {

class BuiltinController final : public ControllerPort {
  public:
    explicit BuiltinController(const firmware::Settings& settings)
        : settings_(settings), controller_(settings, store_) {}

    firmware::ActuatorFrame step(const firmware::SensorFrame& samples) override {
        const firmware::ActuatorFrame frame = controller_.step(samples);
        carry_out(controller_.store_command());
        return frame;
    }
    void rest(firmware::Ticks ticks) override { controller_.rest(ticks); }
    void lose_power() override { controller_ = firmware::Controller(settings_, store_); }
    const firmware::Telemetry& telemetry() const override { return controller_.telemetry(); }

  private:
    void carry_out(const firmware::StoreCommand& command) {
        std::uint32_t* page = store_.words[command.page];
        switch (command.kind) {
            case firmware::StoreCommandKind::none:
                break;
            case firmware::StoreCommandKind::write_word:
                // Flash clears bits and never sets one.
                page[command.index] &= command.word;
                break;
            case firmware::StoreCommandKind::erase_page:
                std::fill_n(page, firmware::store_page_words, firmware::erased_word);
                break;
        }
    }

    firmware::Settings settings_;
    firmware::StorePages store_ = firmware::erased_store();
    firmware::Controller controller_;
};

}  // namespace sim
