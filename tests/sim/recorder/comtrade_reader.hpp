// Reads COMTRADE as the standard lays it out, and refuses everything else. Written from the
// standard's rules and not from our writer; no registry that is reached here has a reader.
//
// Source: IEEE C37.111-2013 / IEC 60255-24:2013 (recalled; the order of the fields, the four data
// types and the marks of time quality agree with descriptions of public readers). Clauses as far as
// remembered: 7.4 configuration, 8.4 ASCII data, 8.6 binary data, 10 single file.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace sim_test {

struct ComtradeAnalog {
    std::string name;
    std::string unit;
    double a = 0.0;
    double b = 0.0;
    std::int64_t least = 0;
    std::int64_t most = 0;
};

struct ComtradeRecord {
    std::string station;
    std::string device;
    std::vector<ComtradeAnalog> analogs;
    std::vector<std::string> digitals;
    double line_Hz = 0.0;
    double samples_per_s = 0.0;
    std::string first;
    std::string trigger;
    std::string type;
    double time_factor = 0.0;

    // Of every sample:
    std::vector<std::int64_t> times;
    std::vector<std::vector<double>> values;  ///< by analog channel, scaled
    std::vector<std::vector<bool>> flags;     ///< by digital channel
};

/// Throw std::runtime_error that names the rule which is broken.
ComtradeRecord read_comtrade(const std::string& configuration, const std::string& data);
ComtradeRecord read_single_file(const std::string& bytes);

}  // namespace sim_test
