// How the compressor's oil thickens in the cold.
//
//   lg lg (nu + 0.7) = A - B lg T                                      (ASTM D341, Walther)
//   drag factor = (1 + c) q / (1 + c q),  q = nu(T) / nu(60 C),  c = 1 / (limit - 1)
//
//   symbol | meaning                                                         | unit
//   nu     | kinematic viscosity                                             | mm2/s
//   T      | absolute temperature of the oil                                 | K
//   A, B   | from nu at 40 C and at 100 C                                    | -
//   limit  | what the factor comes to in the extreme cold: 12                | -
//
// The factor is 1 at 60 C, the oil of a warm sump, and rises with every kelvin below. Why it is
// limited: oil that rests with refrigerant dissolves the more of it the colder it is, and that
// thins it. Pure VG 32 oil comes to 22 times its warm viscosity at 0 C and 150 times at -20 C; a
// charged sump is far from that. The limit and the way to it are engineering judgement.
//
// The equation as quoted by several secondary sources (seen; the standard itself not). Valid: nu
// above 2 mm2/s (below, D341 has further terms); temperatures beyond -60 to 150 C are held at the
// bound. The two viscosities of each grade: at 40 C the grade's own number (ISO 3448); at 100 C
// typical of a mineral or polyol ester oil, secondary for VG 32 (5.4) and VG 68 (8.8), engineering
// judgement for the other two. A given bottle differs by some ten percent.
#pragma once

#include <array>
#include <cstddef>

namespace plant_models {

class OilViscosity {
  public:
    struct Figures {
        double at_40_C_mm2_per_s;
        double at_100_C_mm2_per_s;
    };
    static constexpr double warm_C = 60.0;
    static constexpr double largest_drag_factor = 12.0;

    /// Both above 0.3, the first the larger.
    explicit OilViscosity(const Figures& figures);

    double kinematic_mm2_per_s(double temperature_C) const;
    /// Drag now / drag of warm oil: what LoadMotion::oil_drag_factor asks for. Cheap: it is read
    /// from a table of one entry per kelvin, within 0.1 % of the equation.
    double drag_factor(double temperature_C) const;

  private:
    static constexpr double coldest_C = -60.0;
    static constexpr std::size_t hottest_entry = 210;

    double intercept_ = 0.0;  ///< A
    double slope_ = 0.0;      ///< B
    std::array<double, hottest_entry + 1> drag_{};
};

inline constexpr OilViscosity::Figures oil_vg_22{22.0, 4.3};
inline constexpr OilViscosity::Figures oil_vg_32{32.0, 5.4};
inline constexpr OilViscosity::Figures oil_vg_46{46.0, 6.8};
inline constexpr OilViscosity::Figures oil_vg_68{68.0, 8.8};

/// Of VG 32 oil, which fills most small hermetic compressors.
double oil_drag_factor(double temperature_C);

}  // namespace plant_models
