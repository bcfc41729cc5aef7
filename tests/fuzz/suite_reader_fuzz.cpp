// Fuzzing of the suite reader and of making cases: any text is either a suite, whose first, middle
// and last case can be made or are refused and whose own text is the same suite again; or it is
// refused with an InputError of one printable line. Anything else ends the program.
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>

#include "one_printable_line.hpp"
#include "sim/suites/suite_reading.hpp"

namespace {

/// Of a block: a suite with more takes longer than an input may.
constexpr std::int64_t most_cells = 30;

void make_case(const sim::Suite& suite, std::int64_t id) {
    try {
        const sim::SuiteCase one = suite.case_at(id);
        if (one.id != id || one.accepted.empty()) {
            std::abort();
        }
    } catch (const sim::InputError& error) {
        sim_fuzz::expect_one_printable_line(error);
    }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    try {
        const std::string text(reinterpret_cast<const char*>(data), size);
        const auto suite = sim::suite_from_text(text, "fuzz.toml", most_cells);
        const std::int64_t count = suite->case_count();
        for (const std::int64_t id : {std::int64_t{0}, count / 2, count - 1, count}) {
            make_case(*suite, id);
        }
        const auto again = sim::suite_from_text(suite->text(), "fuzz.toml", most_cells);
        if (again->case_count() != count || again->text() != suite->text()) {
            std::abort();
        }
    } catch (const sim::InputError& error) {
        sim_fuzz::expect_one_printable_line(error);
    }
    return 0;
}
