#include "theca/seawater/light_loss.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>

#include "theca/require.hpp"

namespace theca::seawater {
namespace {
constexpr Length shortest = 380.0 * units::nanometre, longest = 700.0 * units::nanometre;
constexpr double step_nm = 10.0;
constexpr double table_per_m[] = {0.01137, 0.00851, 0.00663, 0.00473, 0.00454, 0.00495, 0.00635, 0.00922, 0.00979,
                                  0.0106,  0.0127,  0.0150,  0.0204,  0.0325,  0.0409,  0.0434,  0.0474,  0.0565,
                                  0.0619,  0.0695,  0.0896,  0.1351,  0.2224,  0.2644,  0.2755,  0.2916,  0.3108,
                                  0.340,   0.410,   0.439,   0.465,   0.516,   0.624};
}  // namespace

Attenuation absorption(const Length& wavelength) {
  require::valid("absorption of water, Pope & Fry 1997", "wavelength", wavelength, shortest, longest);
  const double place = in(wavelength - shortest, units::nanometre) / step_nm;
  const std::size_t i = std::min(static_cast<std::size_t>(place), std::size(table_per_m) - 2);
  const double share = place - static_cast<double>(i);
  return (table_per_m[i] + share * (table_per_m[i + 1] - table_per_m[i])) * units::per_metre;
}

Attenuation scattering(const Length& wavelength) {
  require::valid("scattering of sea water, Morel 1974", "wavelength", wavelength, shortest, longest);
  return 0.00193 * std::pow(in(wavelength, units::nanometre) / 550.0, -4.32) * units::per_metre;
}

}  // namespace theca::seawater
