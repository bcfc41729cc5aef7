// Turns the sampled line voltage into two sinusoids a quarter turn apart, free of offset.
//
// A second-order generalised integrator (SOGI) with an added offset integrator. With the input v,
// in-phase output a, quadrature output b and offset d, all per tick:
//
//     e = v - a - d            w = angular frequency * tick length
//     a <- a + w (k e - b)     b <- b + w a (with the new a)     d <- d + w k_d e
//
// For v = V sin p: a = V sin p and b = -V cos p once settled, at the tuned frequency with no error
// in size or phase. Harmonic h passes into `a` with k h / |1 - h^2 + j k h| and into `b` with 1/h
// of that. The order of the two integrations (semi-implicit) makes the discrete resonance exact; it
// also puts b half a tick ahead, which `quadrature()` takes out.
//
// Source: the structure is common in published grid-converter work (M. Ciobotaru, R. Teodorescu,
// F. Blaabjerg, 2006; memory). Gains are engineering judgement, see the source file.
#pragma once

#include <cstdint>

#include "firmware/units/phase.hpp"

namespace firmware {

class QuadratureGenerator {
  public:
    static constexpr int fraction_bits = 12;  ///< outputs are counts * 2^12

    /// `a`: the estimate of the fundamental for the sample about to be given to `step`.
    std::int32_t in_phase() const { return in_phase_; }

    /// `b` for that same instant.
    std::int32_t quadrature() const { return quadrature_; }

    /// How far the sample lies from what was expected of it: e, in counts * 2^12.
    std::int32_t surprise(std::int32_t sample_counts) const {
        return sample_counts * (1 << fraction_bits) - in_phase_ - offset_;
    }

    /// Takes a sample by its surprise and moves on by one tick. Without surprise (0) it runs on by
    /// itself, undamped.
    void step(std::int32_t surprise, PhaseStep tuned_to);

  private:
    friend class Watch;

    std::int32_t in_phase_ = 0;
    std::int32_t quadrature_ahead_ = 0;
    std::int32_t quadrature_ = 0;
    std::int32_t offset_ = 0;
};

}  // namespace firmware
