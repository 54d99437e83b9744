// The return of an invented farm: its pump and its manifold, used by several tests.
#pragma once

#include "theca/hydraulics/manifold.hpp"

namespace theca::test {

inline hydraulics::PumpCurve demo_pump(hydraulics::Interpolation between = hydraulics::Interpolation::linear) {
  hydraulics::PumpCurve curve{.points = {}, .interpolation = between};
  const double table[][2] = {{0, 30},      {2000, 29.4},  {4000, 28},   {6000, 25.6},
                             {8000, 22.2}, {10000, 17.2}, {12000, 9.2}, {13500, 1.5}};
  for (const auto& [gph, ft] : table) curve.points.push_back({gph * units::gph, ft * units::foot});
  return curve;
}

inline hydraulics::Manifold demo_manifold(const Length& main_bore, const Length& header_bore) {
  const Length smooth = 1.5e-6 * units::metre;
  const auto pipe = [&](const Length& bore, double length_ft, double K) {
    return hydraulics::Pipe{.bore = bore, .length = length_ft * units::foot, .roughness = smooth, .minor_loss_K = K};
  };
  const auto header = [&](double first_ft, int branches) {
    return hydraulics::Header{.to_first_branch = pipe(header_bore, first_ft, 0.3 + 3 * 0.57),
                              .segment = pipe(header_bore, 8.5, 0.3),
                              .branches = branches,
                              .branch = pipe(1.049 * units::inch, 5.0, 1.38 + 0.07 + 2 * 0.69 + 1.0)};
  };
  return {.main = pipe(main_bore, 49.0, 0.5 + 5 * 0.54 + 1.8 + 0.05 + 1.08),
          .headers = {header(18.0, 5), header(28.0, 5), header(24.0, 4)},
          .static_head = Length()};
}

}  // namespace theca::test
