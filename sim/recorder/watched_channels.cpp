#include "sim/recorder/watched_channels.hpp"

#include <algorithm>
#include <optional>
#include <sstream>
#include <string_view>

#include "sim/files/input_error.hpp"
#include "sim/files/quoting.hpp"
#include "sim/scenario/closest_word.hpp"

namespace sim {

namespace {

[[noreturn]] void refuse(const std::string& name, const std::vector<std::string>& watchable) {
    if (watchable.empty()) {
        throw InputError("--watch", 0, shortened(name, 60),
                         "this limiter's controller offers nothing to watch; leave --watch out");
    }
    std::vector<std::string_view> known(watchable.begin(), watchable.end());
    for (const std::string& one : watchable) {
        const std::string_view part = std::string_view(one).substr(0, one.find('.'));
        if (std::find(known.begin(), known.end(), part) == known.end()) {
            known.push_back(part);
        }
    }
    const auto meant = closest_word(name, known);
    throw InputError("--watch", 0, shortened(name, 60),
                     "the controller has no such variable; " +
                         (meant ? "did you mean " + std::string(*meant) + "?"
                                : std::string("--watch list prints those that it has")));
}

}  // namespace

std::vector<WatchedChannel> choose_watched(const std::string& list,
                                           const std::vector<std::string>& watchable) {
    std::vector<WatchedChannel> chosen;
    std::istringstream stream(list);
    for (std::string name; std::getline(stream, name, ',');) {
        bool is_known = false;
        for (std::size_t k = 0; k < watchable.size(); ++k) {
            const std::string& one = watchable[k];
            if (one != name && one.rfind(name + ".", 0) != 0) {
                continue;
            }
            is_known = true;
            const bool is_new =
                std::none_of(chosen.begin(), chosen.end(),
                             [k](const WatchedChannel& before) { return before.index == k; });
            if (is_new) {
                chosen.push_back({one, k});
            }
        }
        if (!is_known) {
            refuse(name, watchable);
        }
    }
    return chosen;
}

}  // namespace sim
