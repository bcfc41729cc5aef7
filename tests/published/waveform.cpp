#include "waveform.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <stdexcept>

namespace published {

namespace {
constexpr double pi = 3.14159265358979323846;
constexpr int samples_per_interval = 4096;
}  // namespace

double Waveform::at(double instant_s) const {
    const auto after = std::upper_bound(time_s.begin(), time_s.end(), instant_s);
    if (after == time_s.begin()) {
        return value.front();
    }
    if (after == time_s.end()) {
        return value.back();
    }
    const auto k = static_cast<std::size_t>(after - time_s.begin());
    const double share = (instant_s - time_s[k - 1]) / (time_s[k] - time_s[k - 1]);
    return value[k - 1] + share * (value[k] - value[k - 1]);
}

Peak largest_magnitude(const Waveform& waveform) {
    Peak peak;
    for (std::size_t k = 0; k < waveform.value.size(); ++k) {
        if (std::abs(waveform.value[k]) > std::abs(peak.value)) {
            peak = {waveform.time_s[k], waveform.value[k]};
        }
    }
    return peak;
}

double first_rise_through(const Waveform& waveform, double level) {
    const auto& value = waveform.value;
    for (std::size_t k = 1; k < value.size(); ++k) {
        if (value[k - 1] < level && value[k] >= level) {
            const double share = (level - value[k - 1]) / (value[k] - value[k - 1]);
            return waveform.time_s[k - 1] + share * (waveform.time_s[k] - waveform.time_s[k - 1]);
        }
    }
    throw std::runtime_error("waveform: the level is never reached from below");
}

double relative_rms_difference(const Waveform& a, const Waveform& b, double from_s, double to_s,
                               double step_s) {
    const auto samples = static_cast<int>((to_s - from_s) / step_s);
    double difference = 0.0;
    double size = 0.0;
    for (int k = 0; k < samples; ++k) {
        const double instant = from_s + (k + 0.5) * step_s;
        const double reference = b.at(instant);
        const double error = a.at(instant) - reference;
        difference += error * error;
        size += reference * reference;
    }
    return std::sqrt(difference / size);
}

double mean(const Waveform& waveform, double from_s, double to_s) {
    double sum = 0.0;
    for (int k = 0; k < samples_per_interval; ++k) {
        sum += waveform.at(from_s + (k + 0.5) * (to_s - from_s) / samples_per_interval);
    }
    return sum / samples_per_interval;
}

std::complex<double> fundamental(const Waveform& waveform, double frequency_Hz, double from_s) {
    std::complex<double> sum = 0.0;
    for (int k = 0; k < samples_per_interval; ++k) {
        const double instant = from_s + (k + 0.5) / (frequency_Hz * samples_per_interval);
        const double angle = 2.0 * pi * frequency_Hz * instant;
        sum += waveform.at(instant) * std::polar(1.0, -angle);
    }
    // sqrt(2) X sin(wt + phi) gives X e^{j phi} / (j sqrt(2)) on average.
    return sum * std::complex<double>(0.0, std::sqrt(2.0)) /
           static_cast<double>(samples_per_interval);
}

}  // namespace published
