#include "firmware/measurement/quadrature_generator.hpp"

namespace firmware {

namespace {

// Damping gain k: 1.25 settles within a cycle and a half and still cuts the third harmonic to 0.42.
constexpr std::int64_t damping_q8 = 320;

// Offset gain k_d: a converter offset is gone within two cycles; larger starts to pull the phase.
constexpr std::int64_t offset_q8 = 64;

// 2 pi * 2^24 / 2^32 in Q20: a phase step times this, shifted by 20, is w in Q24.
constexpr std::uint64_t two_pi_over_256_q20 = 25736;
constexpr int w_bits = 24;

// Nothing real comes near this (four times full scale); it bounds the arithmetic against garbage.
constexpr std::int32_t largest_state = 8192 * (1 << QuadratureGenerator::fraction_bits);

constexpr std::int32_t bounded(std::int64_t value) {
    if (value > largest_state) {
        return largest_state;
    }
    if (value < -largest_state) {
        return -largest_state;
    }
    return static_cast<std::int32_t>(value);
}

}  // namespace

void QuadratureGenerator::step(std::int32_t surprise, PhaseStep tuned_to) {
    const auto w = static_cast<std::int64_t>((tuned_to.count() * two_pi_over_256_q20) >> 20);
    const auto error = static_cast<std::int64_t>(surprise);

    const std::int64_t drive = ((damping_q8 * error) >> 8) - quadrature_ahead_;
    in_phase_ = bounded(in_phase_ + ((w * drive) >> w_bits));
    const std::int64_t turn = (w * in_phase_) >> w_bits;
    // The full step lands half a tick ahead of `in_phase_`; half a step lands on the same instant.
    quadrature_ = bounded(quadrature_ahead_ + (turn >> 1));
    quadrature_ahead_ = bounded(quadrature_ahead_ + turn);
    offset_ = bounded(offset_ + ((w * ((offset_q8 * error) >> 8)) >> w_bits));
}

}  // namespace firmware
