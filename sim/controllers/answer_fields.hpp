// Every field of an answer by name, so that two can be compared and a difference named.
#pragma once

#include <array>
#include <cstdint>
#include <string_view>

#include "firmware/board/wire.hpp"

namespace sim {

struct AnswerField {
    std::string_view name;
    std::int64_t (*value)(const firmware::board::Answer&);
};

/// All but what the answer has cost.
const std::array<AnswerField, 28>& answer_fields();

/// The first field, in their order, in which the two differ.
const AnswerField* first_difference(const firmware::board::Answer& one,
                                    const firmware::board::Answer& other);

}  // namespace sim
