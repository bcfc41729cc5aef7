#include "firmware/gating/conduction.hpp"

#include <array>
#include <cstddef>

namespace firmware {

namespace {

constexpr std::int32_t first_angle_mdeg = 53000;
constexpr std::int32_t angle_step_mdeg = 5000;

// Every 5 degrees from 53, the load angle, to 173.
constexpr std::array<std::int32_t, 25> table = {
    10000, 9605, 9168, 8703, 8213, 7701, 7171, 6629, 6077, 5522, 4968, 4420, 3883,
    3362,  2864, 2392, 1951, 1547, 1184, 865,  594,  374,  207,  91,   25};
constexpr std::int32_t last_angle_mdeg =
    first_angle_mdeg + angle_step_mdeg * static_cast<std::int32_t>(table.size() - 1);

}  // namespace

std::int32_t conducted_per_ten_thousand(MilliDegrees firing) {
    if (firing.count() <= first_angle_mdeg) {
        return table.front();
    }
    if (firing.count() >= last_angle_mdeg) {
        return table.back();
    }
    const std::int32_t beyond = firing.count() - first_angle_mdeg;
    const auto index = static_cast<std::size_t>(beyond / angle_step_mdeg);
    const std::int32_t rest = beyond % angle_step_mdeg;
    return table[index] - (table[index] - table[index + 1]) * rest / angle_step_mdeg;
}

MilliDegrees firing_angle_for(Permille conducted) {
    if (conducted.count() >= 1000) {
        return MilliDegrees{first_angle_mdeg};
    }
    if (conducted.count() <= 0) {
        return MilliDegrees{last_angle_mdeg};
    }
    const std::int32_t wanted = conducted.count() * 10;
    // The table falls: the first value not above the wanted one closes the bracket.
    for (std::size_t i = 1; i < table.size(); ++i) {
        if (table[i] <= wanted) {
            const std::int32_t above = table[i - 1];
            const std::int32_t angle =
                first_angle_mdeg + angle_step_mdeg * static_cast<std::int32_t>(i - 1);
            return MilliDegrees{angle + angle_step_mdeg * (above - wanted) / (above - table[i])};
        }
    }
    return MilliDegrees{last_angle_mdeg};
}

}  // namespace firmware
