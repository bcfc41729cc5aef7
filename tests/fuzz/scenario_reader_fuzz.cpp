// Fuzzing of the scenario reader: any text is either read, or refused with an InputError of one
// printable line; anything else ends the program.
#include <cstddef>
#include <cstdint>

#include "one_printable_line.hpp"
#include "sim/scenario/scenario_reader.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    try {
        sim::parse_scenario({reinterpret_cast<const char*>(data), size}, "fuzz.toml");
    } catch (const sim::InputError& error) {
        sim_fuzz::expect_one_printable_line(error);
    }
    return 0;
}
