// Comparing waveforms that were computed at different, uneven time points.
#pragma once

#include <complex>
#include <vector>

namespace published {

/// A borrowed view of one signal: time points that never fall, and a value at each.
struct Waveform {
    const std::vector<double>& time_s;
    const std::vector<double>& value;

    /// Linear between the points, constant outside them.
    double at(double instant_s) const;
};

/// The value furthest from zero, and when.
struct Peak {
    double time_s = 0.0;
    double value = 0.0;
};
Peak largest_magnitude(const Waveform& waveform);

/// First instant at which the waveform reaches `level` from below.
/// @throws std::runtime_error if it never does.
double first_rise_through(const Waveform& waveform, double level);

/// RMS of a - b over an interval, divided by the RMS of b. Both are sampled every `step_s`.
double relative_rms_difference(const Waveform& a, const Waveform& b, double from_s, double to_s,
                               double step_s);

/// Mean over an interval, from evenly spaced samples.
double mean(const Waveform& waveform, double from_s, double to_s);

/// RMS phasor of the fundamental over one period that begins at `from_s`. The angle is counted from
/// a sine that rises through zero at t = 0.
std::complex<double> fundamental(const Waveform& waveform, double frequency_Hz, double from_s);

}  // namespace published
