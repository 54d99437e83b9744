// What tests of pipe networks are put together from.
#pragma once

#include "theca/hydraulics/pipe.hpp"

namespace theca::hydraulics::test {

inline constexpr auto m = units::metre;
inline constexpr auto m3_s = units::cubic_metre_per_second;
inline const KinematicViscosity seawater_nu = 1.05e-6 * units::square_metre_per_second;

/// Of drawn plastic.
inline Pipe pipe_of(double bore_m, double length_m, double K = 0.0) {
  return {.bore = bore_m * m, .length = length_m * m, .roughness = 1.5 * units::micrometre, .minor_loss_K = K};
}

}  // namespace theca::hydraulics::test
