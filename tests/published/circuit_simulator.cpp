#include "circuit_simulator.hpp"

#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <sstream>
#include <stdexcept>

namespace published {

namespace {

namespace fs = std::filesystem;

class TemporaryFolder {
  public:
    TemporaryFolder() {
        std::string name = (fs::temp_directory_path() /
                            ("published_tests." + std::to_string(getpid()) + ".XXXXXX"))
                               .string();
        if (mkdtemp(name.data()) == nullptr) {
            throw std::runtime_error("circuit simulator: cannot make a folder like " + name);
        }
        folder_ = name;
    }
    ~TemporaryFolder() {
        std::error_code ignored;
        fs::remove_all(folder_, ignored);
    }
    TemporaryFolder(const TemporaryFolder&) = delete;
    TemporaryFolder& operator=(const TemporaryFolder&) = delete;

    fs::path operator/(const char* file) const { return folder_ / file; }
    std::string name() const { return folder_.string(); }

  private:
    fs::path folder_;
};

std::string contents(const fs::path& file) {
    std::ifstream stream(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(stream), {}};
}

[[noreturn]] void fail(const std::string& what, const fs::path& log) {
    throw std::runtime_error("circuit simulator: " + what + "; it says:\n" + contents(log));
}

std::string deck(const std::string& elements, const std::vector<std::string>& signals,
                 const TransientSettings& settings) {
    std::ostringstream text;
    text.precision(17);
    text << "written by a test\n" << elements << ".save";
    for (const std::string& signal : signals) {
        text << ' ' << signal;
    }
    text << "\n.options method=" << settings.integration
         << " reltol=" << settings.relative_tolerance << " abstol=1e-6 vntol=1e-6 itl4=100\n"
         << ".tran " << settings.largest_step_s << ' ' << settings.duration_s << " 0 "
         << settings.largest_step_s << " uic\n.end\n";
    return text.str();
}

std::size_t header_number(const std::string& raw, const std::string& key) {
    const std::size_t at = raw.find(key);
    return at == std::string::npos ? 0 : std::stoul(raw.substr(at + key.size(), 20));
}

/// Binary result file: a text header, "Binary:", then per time point the time and each signal.
CircuitWaveforms waveforms(const std::string& raw, const std::vector<std::string>& signals,
                           const fs::path& log) {
    static const std::string marker = "Binary:\n";
    const std::size_t header = raw.find(marker);
    if (header == std::string::npos) {
        fail("no result", log);
    }
    const std::size_t columns = header_number(raw, "No. Variables:");
    const std::size_t points = header_number(raw, "No. Points:");
    const std::size_t start = header + marker.size();
    if (columns != signals.size() + 1 || raw.size() < start + points * columns * sizeof(double)) {
        fail("the result does not hold the requested signals", log);
    }
    // The simulator lists signals in its own order; each header row is "number name kind".
    std::vector<std::size_t> column_of(signals.size(), 0);
    std::istringstream rows(raw.substr(raw.find("\nVariables:") + 11, header));
    for (std::size_t column = 0; column < columns; ++column) {
        std::string number, name, kind;
        rows >> number >> name >> kind;
        for (std::size_t k = 0; k < signals.size(); ++k) {
            if (name == signals[k]) {
                column_of[k] = column;
            }
        }
    }
    const auto value = [&](std::size_t point, std::size_t column) {
        double number = 0.0;
        raw.copy(reinterpret_cast<char*>(&number), sizeof number,
                 start + (point * columns + column) * sizeof number);
        return number;
    };
    CircuitWaveforms result;
    for (std::size_t k = 0; k < signals.size(); ++k) {
        if (column_of[k] == 0) {
            fail("the result lacks " + signals[k], log);
        }
    }
    result.signals.resize(signals.size());
    for (std::size_t point = 0; point < points; ++point) {
        result.time_s.push_back(value(point, 0));
        for (std::size_t k = 0; k < signals.size(); ++k) {
            result.signals[k].push_back(value(point, column_of[k]));
        }
    }
    return result;
}

}  // namespace

CircuitWaveforms run_circuit(const std::string& elements, const std::vector<std::string>& signals,
                             const TransientSettings& settings) {
    const TemporaryFolder folder;
    std::ofstream(folder / "circuit.cir") << deck(elements, signals, settings);
    const std::string command =
        "cd '" + folder.name() + "' && exec ngspice -n -b -r result.raw circuit.cir >log 2>&1";
    const int status = std::system(command.c_str());
    if (WIFEXITED(status) && WEXITSTATUS(status) == 127) {
        fail("not installed (Debian package ngspice)", folder / "log");
    }
    if (status != 0) {
        fail("it failed", folder / "log");
    }
    CircuitWaveforms result = waveforms(contents(folder / "result.raw"), signals, folder / "log");
    if (result.time_s.empty() || result.time_s.back() < settings.duration_s * (1.0 - 1e-9)) {
        fail("it stopped before the end", folder / "log");
    }
    return result;
}

}  // namespace published
