#include "reachable_states/exploration.hpp"

#include <algorithm>
#include <array>
#include <deque>
#include <random>
#include <unordered_map>

#include "firmware/controller.hpp"
#include "firmware/learning/keeper.hpp"
#include "reachable_states/always.hpp"
#include "reachable_states/input_class.hpp"

namespace reachable_states {

using namespace firmware;

namespace {

// Longer than every patience of the settings that are searched, by which something would change.
constexpr int longest_stretch = 4000;

// Controllers that look alike may differ inside: so many of each are searched from.
constexpr int kept_of_each = 2;

// In ticks; a state's time is told apart by how many of these it has passed.
using Classes = std::array<std::uint32_t, 5>;
constexpr std::uint32_t none = 0xFFFFFFFFU;
constexpr Classes classes_of_time(State state) {
    switch (state) {
        case State::probing:
            return {300, 800, none, none, none};
        case State::climbing:
            return {600, 1200, 2500, 4000, none};
        case State::handing_over:
            return {300, 600, 1500, none, none};
        case State::running:
            return {600, 1500, 10500, none, none};
        case State::backing_off:
            return {3500, 7000, 10500, none, none};
        case State::listening:
            return {1000, none, none, none, none};
        case State::resting:
        case State::locked_out:
            break;
    }
    return {none, none, none, none, none};
}

struct World {
    Controller controller;
    memory_test::Flash flash;
    Always always;
    std::uint32_t turn = 0;
    double line_Hz = 50.0;
    ActuatorFrame orders;
    std::size_t came_by = 0;  // index of the way here
};

struct Way {
    std::size_t from;
    std::size_t input;
};

class Explorer {
  public:
    Explorer(const Settings& settings, std::size_t most) : settings_(settings), most_(most) {}

    Found search(const std::vector<memory_test::Flash>& memories) {
        for (const memory_test::Flash& flash : memories) {
            ways_.push_back({ways_.size(), 0});
            keep({Controller(settings_, flash.pages()),
                  flash,
                  Always(settings_),
                  0,
                  50.0,
                  {},
                  ways_.size() - 1});
        }
        while (!open_.empty() && found_.broken.empty() && seen_.size() <= most_) {
            const World world = std::move(open_.front());
            open_.pop_front();
            const std::size_t inputs = feeds_motor(world.controller.telemetry().state)
                                           ? input_classes().size()
                                           : classes_while_not_fed();
            for (std::size_t input = 0; input < inputs && found_.broken.empty(); ++input) {
                World next = world;
                apply(next, input_classes()[input]);
                ways_.push_back({world.came_by, input});
                next.came_by = ways_.size() - 1;
                judge(next);
                keep(std::move(next));
            }
        }
        found_.complete = open_.empty();
        found_.controllers = seen_.size();
        return found_;
    }

  private:
    void keep(World world) {
        int& kept = seen_[seen(world)];
        if (kept < kept_of_each) {
            ++kept;
            open_.push_back(std::move(world));
        }
    }

    void judge(const World& world) {
        const std::string& rule =
            world.flash.broken_rule().empty() ? world.always.broken() : world.flash.broken_rule();
        if (rule.empty()) {
            return;
        }
        std::string way;
        for (std::size_t at = world.came_by; ways_[at].from != at; at = ways_[at].from) {
            way = "\n    " + input_classes()[ways_[at].input].name + way;
        }
        found_.broken = rule + ", after" + way;
    }

    // What can be told apart, as a number.
    std::uint64_t seen(const World& world) const {
        const Telemetry& told = world.controller.telemetry();
        std::uint64_t key = 0;
        const auto add = [&key](std::uint64_t value, std::uint64_t of) { key = key * of + value; };
        const auto passed = [](std::uint32_t ticks, const auto& limits) {
            return static_cast<std::uint64_t>(
                std::count_if(limits.begin(), limits.end(),
                              [ticks](std::uint32_t limit) { return ticks >= limit; }));
        };
        const auto seconds = [](std::int32_t s) { return static_cast<std::uint32_t>(s) * 10000U; };
        add(static_cast<std::uint64_t>(told.state), state_count);
        add(static_cast<std::uint64_t>(told.reason), reason_count);
        add(told.state == State::climbing ? told.stage : 0U, Settings::most_stages);
        add(told.tries_made, 32);
        add(told.line_locked, 2);
        add(world.orders.start_capacitor_contact, 2);
        add(world.orders.bypass_contact, 2);
        add(told.firing_angle_mdeg == 0                                      ? 0U
            : told.firing_angle_mdeg == settings_.full_conduction_angle_mdeg ? 1U
                                                                             : 2U,
            3);
        const bool fed = feeds_motor(told.state);
        add(fed ? told.start_capacitor_absent : 0U, 2);
        add((!fed && told.state != State::listening) || told.line_frequency_mHz >= 48500 ? 0U
            : told.line_frequency_mHz >= settings_.line_frequency_min_mHz                ? 1U
                                                                                         : 2U,
            3);
        const std::array<std::int32_t, 3> motors = {1, 20000, 100000};
        add(fed ? static_cast<std::uint64_t>(std::count_if(
                      motors.begin(), motors.end(),
                      [&](std::int32_t limit) { return told.locked_rotor_estimate_mA >= limit; }))
                : 0U,
            4);
        add(told.learned_level_permille < 1000   ? 0U
            : told.learned_level_permille > 1000 ? 2U
                                                 : 1U,
            3);
        add(passed(world.always.ticks_in_state(), classes_of_time(told.state)), 6);
        // What tells of the rotor while it comes up.
        const std::int64_t at_s = std::int64_t{told.start_terminal_voltage_rms_mV} * 100;
        const auto of_line = [&](std::int64_t percent) {
            return at_s >= percent * told.line_voltage_rms_mV;
        };
        add(told.state != State::climbing ? 0U
            : of_line(60)                 ? 3U
            : of_line(36)                 ? 2U
            : of_line(5)                  ? 1U
                                          : 0U,
            4);
        const bool rested = world.always.ticks_since_fed() >= world.always.rest_ticks();
        add(rested || fed ? 1U : 0U, 2);
        const std::uint32_t clear = seconds(settings_.lockout_clear_s);
        add(world.always.ticks_without_call() == 0      ? 0U
            : world.always.ticks_without_call() < clear ? 1U
                                                        : 2U,
            3);
        add(passed(world.always.ticks_of_start_capacitor(), Classes{1, 1000, 3000, none, none}), 6);
        return key;
    }

    void apply(World& world, const InputClass& input) {
        const Telemetry before = world.controller.telemetry();
        switch (input.kind) {
            case InputClass::Kind::frames:
                hold(world, input);
                return;
            case InputClass::Kind::sleep:
                world.controller.rest(Ticks{input.sleep_ticks});
                world.always.slept(input.sleep_ticks, world.controller.telemetry());
                break;
            case InputClass::Kind::power_cut:
                world.controller = Controller(settings_, world.flash.pages());
                world.always.lost_power(false, world.controller.telemetry());
                break;
            case InputClass::Kind::power_cut_and_damage: {
                std::mt19937 random(7);
                world.flash = memory_test::Flash(memory_test::random_pages(random));
                world.controller = Controller(settings_, world.flash.pages());
                world.always.lost_power(true, world.controller.telemetry());
                break;
            }
        }
        world.orders = ActuatorFrame{};
        if (input.kind == InputClass::Kind::sleep) {
            note(before, world.controller.telemetry());
        }
    }

    void hold(World& world, const InputClass& input) {
        const std::uint64_t at_first = seen(world);
        for (int tick = 0; tick < longest_stretch; ++tick) {
            const Telemetry before = world.controller.telemetry();
            const SensorFrame frame = frame_of(input, world.turn);
            world.line_Hz = next_line_Hz(input, world.line_Hz);
            world.turn += turn_per_tick(world.line_Hz);
            world.orders = world.controller.step(frame);
            ++found_.ticks;
            const Telemetry& told = world.controller.telemetry();
            const StoreCommand& command = world.controller.store_command();
            if (command.kind != StoreCommandKind::none) {
                world.flash.carry_out(command);
            }
            world.always.look(frame, world.orders, told, command,
                              [&world] { return Keeper(world.flash.pages()).rest_mark().owed; });
            note(before, told);
            if (!world.always.broken().empty() || seen(world) != at_first) {
                return;
            }
        }
    }

    void note(const Telemetry& before, const Telemetry& after) {
        if (before.state != after.state || before.reason != after.reason) {
            found_.transitions.insert({before.state, after.state, after.reason});
        }
    }

    const Settings& settings_;
    std::size_t most_;
    Found found_;
    std::deque<World> open_;
    std::unordered_map<std::uint64_t, int> seen_;
    std::vector<Way> ways_;
};

}  // namespace

Found explore(const Settings& settings, const std::vector<memory_test::Flash>& memories,
              std::size_t most_controllers) {
    return Explorer(settings, most_controllers).search(memories);
}

}  // namespace reachable_states
