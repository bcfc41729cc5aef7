#include "sim/lessons/lesson.hpp"

namespace sim {

const std::vector<Lesson>& lessons() {
    static const std::vector<Lesson> list = {
        {"small_inverter.html", "A small inverter", small_inverter_lesson},
        {"locked_rotor.html", "A locked rotor", locked_rotor_lesson},
        {"short_rest.html", "A short rest", short_rest_lesson},
        {"reverse_scroll.html", "A scroll that comes up backwards", reverse_scroll_lesson},
        {"weak_capacitor.html", "A weak capacitor", weak_capacitor_lesson},
        {"learning.html", "Learning from start to start", learning_lesson},
    };
    return list;
}

}  // namespace sim
