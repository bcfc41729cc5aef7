#include "firmware/sequence/hand_over.hpp"

#include "firmware/recognition/start_terminal_level.hpp"

namespace firmware {

namespace {

// Change from one refresh to the next that still counts as steady. A rotor that accelerates through
// 85 % speed on the full line changes the current by a fifth per half cycle.
constexpr std::int32_t steady_current_permille = 100;
constexpr std::int32_t steady_voltage_permille = 40;

// A few counts of the converter: below this no change is told from noise.
constexpr std::int32_t current_noise_mA = 300;

constexpr bool steady(std::int32_t now, std::int32_t before, std::int32_t permille,
                      std::int32_t noise) {
    const std::int64_t change = now > before ? now - before : before - now;
    return change * 1000 <=
           static_cast<std::int64_t>(before) * permille + static_cast<std::int64_t>(noise) * 1000;
}

}  // namespace

HandOver::HandOver(const Settings& settings)
    : sweep_delay_(ticks_from_ms(settings.sweep_delay_ms)),
      release_(ticks_from_ms(settings.start_capacitor_release_ms)),
      confirm_limit_(ticks_from_ms(settings.confirm_limit_ms)),
      bypass_settle_(ticks_from_ms(settings.bypass_settle_ms)),
      sweep_half_cycles_(settings.sweep_half_cycles),
      confirm_half_cycles_(settings.confirm_half_cycles),
      up_to_speed_(settings.up_to_speed_current_permille),
      up_to_speed_level_(settings.up_to_speed_voltage_permille * 10),
      full_conduction_(settings.full_conduction_angle_mdeg) {}

void HandOver::begin(MilliAmperes locked_rotor, Orders& orders) {
    orders.start_capacitor = false;
    step_ = Step::start_capacitor_opens;
    clock_.restart();
    since_coil_off_.restart();
    swept_from_ = orders.firing_angle;
    half_cycles_ = 0;
    current_limit_ = portion(locked_rotor, up_to_speed_);
}

Progress HandOver::step(const Observation& seen, Orders& orders) {
    clock_.tick();
    since_coil_off_.tick();
    switch (step_) {
        case Step::start_capacitor_opens:
            if (clock_.reached(sweep_delay_)) {
                step_ = Step::sweeping;
            }
            return Progress::going();
        case Step::sweeping:
            if (seen.half_cycle_began) {
                sweep(orders);
            }
            return Progress::going();
        case Step::confirming:
            return confirm(seen, orders);
        case Step::bypass_closes:
            if (!clock_.reached(bypass_settle_)) {
                return Progress::going();
            }
            orders.stop_firing();
            return Progress::finished();
    }
    return Progress::going();
}

void HandOver::sweep(Orders& orders) {
    ++half_cycles_;
    const std::int32_t whole = full_conduction_.count() - swept_from_.count();
    orders.fire_at(MilliDegrees{swept_from_.count() + whole / sweep_half_cycles_ * half_cycles_});
    if (half_cycles_ >= sweep_half_cycles_) {
        orders.fire_at(full_conduction_);
        step_ = Step::confirming;
        clock_.restart();
        half_cycles_ = 0;
        last_ = Readings{};
    }
}

bool HandOver::looks_up(const Observation& seen) const {
    const Readings& now = seen.readings;
    return now.output_current_rms < current_limit_ &&
           steady(now.output_current_rms.count(), last_.output_current_rms.count(),
                  steady_current_permille, current_noise_mA) &&
           start_terminal_level(now) >= up_to_speed_level_ &&
           steady(now.start_terminal_voltage_rms.count(), last_.start_terminal_voltage_rms.count(),
                  steady_voltage_permille, 0);
}

Progress HandOver::confirm(const Observation& seen, Orders& orders) {
    if (seen.half_cycle_began) {
        half_cycles_ = looks_up(seen) ? half_cycles_ + 1 : 0;
        last_ = seen.readings;
        // The two contacts never meet: the start capacitor's must have had its time to open.
        if (half_cycles_ >= confirm_half_cycles_ && since_coil_off_.reached(release_)) {
            orders.bypass = true;
            step_ = Step::bypass_closes;
            clock_.restart();
            return Progress::going();
        }
    }
    return clock_.reached(confirm_limit_) ? Progress::failed(Reason::not_up_on_full_line)
                                          : Progress::going();
}

}  // namespace firmware
