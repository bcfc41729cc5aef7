#include "life_file.hpp"

#include <fmt/format.h>

#include <fstream>
#include <sstream>
#include <stdexcept>

namespace processor_tests {

namespace {

constexpr const char* columns =
    "rest_ticks,line_voltage_counts,output_current_counts,start_terminal_voltage_counts,"
    "heatsink_counts,call_for_cooling";

}  // namespace

void write_life(const Life& life, const std::string& path) {
    std::ofstream file(path);
    file << fmt::format("rated_voltage_V,{}\n", life.settings.rated_voltage_V);
    for (const auto& page : life.store.words) {
        file << "store";
        for (const std::uint32_t word : page) {
            file << fmt::format(",{}", word);
        }
        file << "\n";
    }
    file << columns << "\n";
    for (const Input& input : life.inputs) {
        file << fmt::format("{},{},{},{},{},{}\n", input.rest_ticks,
                            input.samples.line_voltage_counts, input.samples.output_current_counts,
                            input.samples.start_terminal_voltage_counts,
                            input.samples.heatsink_counts, input.samples.call_for_cooling);
    }
}

Life read_life(const std::string& path) {
    std::ifstream file(path);
    const auto expect = [&](bool there) {
        if (!there) {
            throw std::runtime_error(path + " is no recorded life");
        }
    };
    Life life;
    char comma = 0;
    std::string line;
    std::getline(file, line, ',');
    expect(line == "rated_voltage_V");
    file >> life.settings.rated_voltage_V;
    for (auto& page : life.store.words) {
        file >> line;
        std::istringstream words(line);
        std::getline(words, line, ',');
        expect(line == "store");
        for (std::uint32_t& word : page) {
            words >> word >> comma;
        }
    }
    file >> std::ws;
    std::getline(file, line);
    expect(line == columns);
    Input input;
    while (file >> input.rest_ticks >> comma >> input.samples.line_voltage_counts >> comma >>
           input.samples.output_current_counts >> comma >>
           input.samples.start_terminal_voltage_counts >> comma >> input.samples.heatsink_counts >>
           comma >> input.samples.call_for_cooling) {
        life.inputs.push_back(input);
    }
    expect(file.eof() && !life.inputs.empty());
    return life;
}

}  // namespace processor_tests
