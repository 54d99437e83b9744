// The ranges in which the light module's arithmetic neither overflows nor loses its digits.
#pragma once

#include "theca/require.hpp"
#include "theca/units.hpp"

namespace theca::light::limits {

inline constexpr Length lowest_height = 1.0 * units::micrometre;
inline constexpr Length highest_height = 1.0 * units::kilometre;
inline constexpr Length deepest = 1.0 * units::kilometre;
inline constexpr Length farthest = 100.0 * units::kilometre;
inline constexpr Length tank_span = 10.0 * units::kilometre;
inline constexpr PhotonIntensity brightest = from_si<PhotonIntensity>(1000.0);

inline void refractive_index(std::string_view argument, double n) { require::within(argument, n, 1.0, 2.0); }
inline void height(std::string_view argument, const Length& h) {
  require::within(argument, h, lowest_height, highest_height);
}
inline void depth(std::string_view argument, const Length& z) { require::within(argument, z, Length(), deepest); }
inline void tank_side(std::string_view argument, const Length& side) {
  require::that(si(side) > 0.0 && side <= tank_span, argument, side, "> 0 m and <= 10000 m");
}

}  // namespace theca::light::limits
