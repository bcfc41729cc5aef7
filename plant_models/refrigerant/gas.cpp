#include "plant_models/refrigerant/gas.hpp"

#include <algorithm>

namespace plant_models {

namespace {

// Every number was computed from the published equations of state (Helmholtz energy), the
// coefficients read in an open property library's fluid files:
//   R410A  Lemmon, Int. J. Thermophysics 24, 2003 (pseudo-pure)
//   R22    Kamei, Beyerlein, Jacobsen, Int. J. Thermophysics 16, 1995
//   R134a  Tillner-Roth, Baehr, J. Phys. Chem. Ref. Data 23, 1994
//   R290   Lemmon, McLinden, Wagner, J. Chem. Eng. Data 54, 2009
//   R32    Tillner-Roth, Yokozeki, J. Phys. Chem. Ref. Data 26, 1997
// Vapour pressure: a fit of our own to their saturation, within 0.02 % over the whole valid range
// (R410A: dew point). Exponent: ln(p2/p1) / ln(rho2/rho1) between the end points of an isentrope
// from 7.2 C saturation and 11.1 K superheat to 54.4 C saturation. It rises to 1.10 (R410A), 1.12
// (R22), 1.05 (R134a, R290) and 1.20 (R32) when evaporating at -23 C: at most 1.5 % more work.
const std::vector<Gas>& gases() {
    static const std::vector<Gas> list = {
        {"R410A",
         72.5854,
         344.494,
         4901.2,
         {-7.48949, 1.62297, -2.03282, -3.62195},
         1.068,
         0.3565,
         1228,
         1721,
         1140.4},
        {"R22",
         86.468,
         369.295,
         4990.0,
         {-7.03632, 1.43559, -1.7305, -3.04677},
         1.095,
         0.3140,
         779,
         1269,
         1256.6},
        {"R134a",
         102.032,
         374.21,
         4059.28,
         {-7.62865, 1.72635, -2.53639, -3.56034},
         1.013,
         0.3415,
         926,
         1436,
         1270.6},
        {"R290",
         44.0956,
         369.89,
         4251.2,
         {-6.73837, 1.46057, -1.40889, -2.49455},
         1.007,
         0.2915,
         1834,
         2747,
         518.7},
        {"R32",
         52.024,
         351.255,
         5782.0,
         {-7.45197, 1.69419, -1.91012, -2.79914},
         1.177,
         0.3680,
         1328,
         1954,
         1029.9},
    };
    return list;
}

}  // namespace

const std::vector<std::string_view>& gas_words() {
    static const std::vector<std::string_view> words = [] {
        std::vector<std::string_view> list;
        for (const Gas& gas : gases()) {
            list.push_back(gas.word);
        }
        return list;
    }();
    return words;
}

const Gas& gas_named(std::string_view word) {
    const auto& list = gases();
    const auto found =
        std::find_if(list.begin(), list.end(), [&](const Gas& gas) { return gas.word == word; });
    return found == list.end() ? list.front() : *found;
}

}  // namespace plant_models
