// Where the last digit of the capacitor-start cross-check comes from (free_acceleration_test.cpp).
//
// The book (P. C. Krause, O. Wasynczuk, S. D. Sudhoff, "Analysis of Electric Machinery"; memory)
// gives the auxiliary side in ohms of its own winding, rounded: magnetizing 92.9, rotor 5.74 and
// 2.95, where the turns ratio 1.18 makes 93.01, 5.737 and 2.952. A model with a turns ratio cannot
// take both. So the textbook's equations are integrated here, with the rotor's auxiliary circuit
// referred to the auxiliary winding, without any of our plant. Certainty: computed.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

#include "printed_number.hpp"

namespace {

using namespace published;

constexpr double omega = 2.0 * 3.14159265358979323846 * 60.0;
constexpr double synchronous = omega / 2.0;
constexpr double ratio = 1.18;

/// Two coupled coils: leakages and magnetizing reactance in ohms; solves L di/dt = u.
struct CoupledCoils {
    double magnetizing, stator_leakage, rotor_leakage;

    double mutual_H() const { return magnetizing / omega; }
    double stator_H() const { return (magnetizing + stator_leakage) / omega; }
    double rotor_H() const { return (magnetizing + rotor_leakage) / omega; }
    double rotor_flux(double stator_A, double rotor_A) const {
        return rotor_H() * rotor_A + mutual_H() * stator_A;
    }
    std::array<double, 2> rates(double stator_V, double rotor_V) const {
        const double determinant = stator_H() * rotor_H() - mutual_H() * mutual_H();
        return {(rotor_H() * stator_V - mutual_H() * rotor_V) / determinant,
                (stator_H() * rotor_V - mutual_H() * stator_V) / determinant};
    }
};

struct AuxiliarySide {
    CoupledCoils coils;
    double rotor_resistance;
};

class TextbookMotor {
  public:
    /// main, rotor main, auxiliary, rotor auxiliary, capacitor voltage, shaft speed
    using State = std::array<double, 6>;

    explicit TextbookMotor(const AuxiliarySide& side) : side_(side) {}

    /// Runs up to 95 % of synchronous speed.
    void run_up() {
        constexpr double step_s = 20e-6;
        while (x_[5] < 0.95 * synchronous && time_s_ < 1.0) {
            const State before = x_;
            x_ = stepped(before, step_s);
            time_s_ += step_s;
            peak_A = std::max(peak_A, std::abs(x_[0] + x_[2]));
            if (closed_ && x_[5] > 0.75 * synchronous && before[2] * x_[2] <= 0.0) {
                closed_ = false;
                opened_s = time_s_;
                // What is left of the current moves into the rotor, whose flux stays.
                x_[3] += side_.coils.mutual_H() / side_.coils.rotor_H() * x_[2];
                x_[2] = 0.0;
            }
        }
        up_s = time_s_;
    }

    double peak_A = 0.0;
    double opened_s = 0.0;
    double up_s = 0.0;

  private:
    State rates(double time_s, const State& x) const {
        const double line_V = std::sqrt(2.0) * 110.0 * std::cos(omega * time_s);
        const double electrical_speed = 2.0 * x[5];
        const double main_flux = main_.rotor_flux(x[0], x[1]);
        const double aux_flux = side_.coils.rotor_flux(x[2], x[3]);
        const auto main =
            main_.rates(line_V - 2.02 * x[0], -4.12 * x[1] + electrical_speed * aux_flux / ratio);
        const double rotor_V =
            -side_.rotor_resistance * x[3] - ratio * electrical_speed * main_flux;
        const double impedance_ohm = 3.0 + 7.14;
        const auto aux = closed_ ? side_.coils.rates(line_V - x[4] - impedance_ohm * x[2], rotor_V)
                                 : std::array{0.0, rotor_V / side_.coils.rotor_H()};
        const double torque = 2.0 * ratio * main_.mutual_H() * (x[0] * x[3] - x[2] * x[1]);
        return {main[0],        main[1], aux[0], aux[1], closed_ ? omega * 14.5 * x[2] : 0.0,
                torque / 0.0146};
    }

    State stepped(const State& x, double h) const {
        const auto moved = [&x](const State& slope, double length) {
            State y = x;
            for (std::size_t k = 0; k < y.size(); ++k) {
                y[k] += length * slope[k];
            }
            return y;
        };
        const State k1 = rates(time_s_, x);
        const State k2 = rates(time_s_ + 0.5 * h, moved(k1, 0.5 * h));
        const State k3 = rates(time_s_ + 0.5 * h, moved(k2, 0.5 * h));
        const State k4 = rates(time_s_ + h, moved(k3, h));
        State y = x;
        for (std::size_t k = 0; k < y.size(); ++k) {
            y[k] += h / 6.0 * (k1[k] + 2.0 * (k2[k] + k3[k]) + k4[k]);
        }
        return y;
    }

    CoupledCoils main_{66.8, 2.79, 2.12};
    AuxiliarySide side_;
    State x_{};
    double time_s_ = 0.0;
    bool closed_ = true;
};

TEST(RoundedAuxiliary, GivesEveryDigitOfTheCrossCheck) {
    TextbookMotor motor({{92.9, 3.22, 2.95}, 5.74});
    motor.run_up();
    EXPECT_TRUE(rounds_to(motor.peak_A, 24.8, 1));
    EXPECT_TRUE(rounds_to(motor.opened_s, 0.463, 3));
    EXPECT_TRUE(rounds_to(motor.up_s, 0.741, 3));
}

// What our plant's run is compared with in free_acceleration_test.cpp, by the textbook's equations.
TEST(RoundedAuxiliary, UnroundedTakesSevenTenThousandthsLonger) {
    constexpr double square = ratio * ratio;
    TextbookMotor motor({{66.8 * square, 3.22, 2.12 * square}, 4.12 * square});
    motor.run_up();
    EXPECT_TRUE(rounds_to(motor.up_s, 0.7418, 4));
}

}  // namespace
