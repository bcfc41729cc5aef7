#include "sim/reporting/failure_drivers.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace sim {

namespace {

struct Value {
    double value;
    bool failed;
};

std::array<SuccessRate, 3> thirds_of(std::vector<Value> values) {
    std::stable_sort(values.begin(), values.end(),
                     [](const Value& a, const Value& b) { return a.value < b.value; });
    const std::size_t count = values.size();
    const double second_from = values[count / 3].value;
    const double third_from = values[count - count / 3].value;
    std::array<SuccessRate, 3> thirds;
    for (const Value& one : values) {
        // Equal values stay together.
        const std::size_t third = one.value < second_from ? 0U : (one.value < third_from ? 1U : 2U);
        ++thirds[third].trials;
        thirds[third].successes += one.failed ? 1 : 0;
    }
    return thirds;
}

std::optional<DrivingInput> judged(const std::string& name, const std::vector<Value>& values,
                                   double confidence) {
    std::vector<double> failed;
    std::vector<double> passed;
    for (const Value& one : values) {
        (one.failed ? failed : passed).push_back(one.value);
    }
    const auto separation = rank_separation(failed, passed, confidence);
    if (!separation) {
        return std::nullopt;
    }
    return DrivingInput{name, *separation, thirds_of(values)};
}

bool differ(const std::vector<Value>& values) {
    return std::any_of(values.begin(), values.end(), [&values](const Value& one) {
        return one.value < values.front().value || one.value > values.front().value;
    });
}

void judge_inputs(BlockDrivers& block, const std::map<std::string, std::vector<Value>>& inputs) {
    std::vector<const std::pair<const std::string, std::vector<Value>>*> drawn;
    for (const auto& one : inputs) {
        if (differ(one.second)) {
            drawn.push_back(&one);
        }
    }
    constexpr double error = 0.05;
    for (const auto* one : drawn) {
        const double confidence = 1.0 - error / static_cast<double>(drawn.size());
        if (auto driver = judged(one->first, one->second, confidence)) {
            block.inputs.push_back(std::move(*driver));
        }
    }
    constexpr double no_bearing = 0.5;
    std::stable_sort(block.inputs.begin(), block.inputs.end(),
                     [](const DrivingInput& a, const DrivingInput& b) {
                         return std::abs(a.failed_above_passed.probability - no_bearing) >
                                std::abs(b.failed_above_passed.probability - no_bearing);
                     });
}

std::string percent(const SuccessRate& rate) {
    constexpr double to_percent = 100.0;
    return fmt::format("{:.{}f} %", to_percent * rate.share(), rate.share() < 0.1 ? 1 : 0);
}

}  // namespace

bool DrivingInput::drives() const {
    return failed_above_passed.lowest > 0.5 || failed_above_passed.highest < 0.5;
}

std::vector<BlockDrivers> failure_drivers(const CampaignResults& results) {
    std::vector<BlockDrivers> blocks;
    std::vector<std::map<std::string, std::vector<Value>>> inputs;
    std::map<std::string, std::size_t> place;
    for (const CaseRecord& one : results.cases) {
        const auto [at, is_new] = place.try_emplace(one.place.block, blocks.size());
        if (is_new) {
            blocks.push_back({one.place.block, 0, 0, {}});
            inputs.emplace_back();
        }
        const bool failed = !one.passed();
        ++(failed ? blocks[at->second].failed : blocks[at->second].passed);
        for (const DrawnInput& input : one.inputs) {
            inputs[at->second][input.name].push_back({input.value, failed});
        }
    }
    for (std::size_t k = 0; k < blocks.size(); ++k) {
        if (!blocks[k].too_few()) {
            judge_inputs(blocks[k], inputs[k]);
        }
    }
    return blocks;
}

std::string driver_sentence(const DrivingInput& driver) {
    const bool high_fails = driver.failed_above_passed.probability > 0.5;
    return fmt::format(
        "{} {} drives failure: {} of cases fail in its lowest third, {} in the middle, {} in the "
        "highest; a failed case has the {} value of a pair with probability {:.2f} ({:.2f} to "
        "{:.2f})",
        high_fails ? "A high" : "A low", driver.input, percent(driver.failed_by_third[0]),
        percent(driver.failed_by_third[1]), percent(driver.failed_by_third[2]),
        high_fails ? "higher" : "lower",
        high_fails ? driver.failed_above_passed.probability
                   : 1.0 - driver.failed_above_passed.probability,
        high_fails ? driver.failed_above_passed.lowest : 1.0 - driver.failed_above_passed.highest,
        high_fails ? driver.failed_above_passed.highest : 1.0 - driver.failed_above_passed.lowest);
}

std::vector<std::string> driver_sentences(const BlockDrivers& block) {
    if (block.too_few()) {
        return {
            fmt::format("{} of {} cases fail: too few {} to tell what drives it (at least {} "
                        "are needed).",
                        block.failed, block.failed + block.passed,
                        block.failed < fewest_of_each ? "failures" : "that pass", fewest_of_each)};
    }
    std::vector<std::string> sentences;
    for (const DrivingInput& one : block.inputs) {
        if (one.drives()) {
            sentences.push_back(driver_sentence(one) + ".");
        }
    }
    if (block.inputs.empty()) {
        sentences.emplace_back("Nothing was drawn by chance in this block.");
    } else if (sentences.empty()) {
        sentences.push_back(
            fmt::format("{} of {} cases fail, and none of the {} drawn inputs shows a trend.",
                        block.failed, block.failed + block.passed, block.inputs.size()));
    }
    return sentences;
}

}  // namespace sim
