#include "sim/fitting/fit_file.hpp"

#include "sim/fitting/nameplate_reader.hpp"

namespace sim {

namespace {

/// As the reader's last check, because only the reader knows the line of each key.
NameplateCheck fit_into(NameplateFit& fit) {
    return [&fit](const Nameplate& plate) {
        try {
            fit = fit_nameplate(plate);
        } catch (const NoSuchMotor& fault) {
            return std::string(fault.what());
        }
        return std::string();
    };
}

}  // namespace

NameplateFit fit_file(const std::string& path) {
    NameplateFit fit;
    read_nameplate(path, fit_into(fit));
    return fit;
}

NameplateFit fit_nameplate_text(std::string_view text, const std::string& file) {
    NameplateFit fit;
    parse_nameplate(text, file, fit_into(fit));
    return fit;
}

}  // namespace sim
