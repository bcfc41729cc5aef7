// Fuzzing of the scenario reader with libFuzzer; not part of the usual build. From the top folder,
// with clang:
//
//   clang++ -std=c++17 -g -O1 -fsanitize=fuzzer,address,undefined -I. -DTOML_SHARED_LIB=1
//       -DTOML_HEADER_ONLY=0 tests/fuzz/scenario_reader_fuzz.cpp sim/scenario/*.cpp
//       sim/files/*.cpp firmware/settings/*.cpp plant_models/motor/motor_parameters.cpp
//       plant_models/loads/*.cpp plant_models/supplies/*.cpp
//       plant_models/switches/limiter_parameters.cpp -ltomlplusplus -lfmt -o scenario_reader_fuzz
//   ./scenario_reader_fuzz sim/scenarios
//
// Any text is either read or refused with an InputError of one printable line; anything else ends
// the program.
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "sim/scenario/scenario_reader.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    try {
        sim::parse_scenario({reinterpret_cast<const char*>(data), size}, "fuzz.toml");
    } catch (const sim::InputError& error) {
        for (const char letter : std::string_view(error.what())) {
            if (static_cast<unsigned char>(letter) < 0x20U || letter == 0x7f) {
                std::abort();
            }
        }
    }
    return 0;
}
