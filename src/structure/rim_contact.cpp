#include "rim_contact.hpp"

#include <algorithm>
#include <cmath>
#include <memory>
#include <vector>

#include "bent_field.hpp"
#include "panel_pieces.hpp"

namespace theca::structure::detail {
namespace {

/// By position, along the wall's own x and y.
std::array<double, 3> curvature(const BentPanel& bent, double x, double y) {
  const Field field =
      field_of(bent, between(bent.lines_x, from_si<Length>(x)), between(bent.lines_y, from_si<Length>(y)));
  const Field::Jet w = field.jet(field.xi(x), field.eta(y));
  const double gx = 2.0 / field.width, gy = 2.0 / field.height, k = field.deflection_scale;
  return {k * gx * gx * w[2][0], k * gy * gy * w[0][2], k * gx * gy * w[1][1]};
}

}  // namespace

std::function<std::array<double, 3>(double x, double y)> sharp_curvature(const FoldedPlate& wall,
                                                                         const Edge& foot_and_ends) {
  Panel panel{.width = from_si<Length>(wall.length_x),
              .height = from_si<Length>(wall.length_y),
              .thickness = from_si<Length>(wall.thickness),
              .material = {},
              .bottom = foot_and_ends,
              .left = foot_and_ends,
              .right = foot_and_ends,
              .top = free_edge()};
  panel.material.youngs_modulus = from_si<Pressure>(wall.youngs_modulus);
  panel.material.poisson_ratio = wall.poisson_ratio;
  std::vector<PatchLoad> pushes;
  double largest = 0.0;
  for (const FoldedPlate::Patch& p : wall.patches) {
    const double force = p.force[static_cast<std::size_t>(wall.normal)];
    if (force == 0.0) continue;
    pushes.push_back({from_si<Length>(0.5 * (p.x0 + p.x1)), from_si<Length>(0.5 * (p.y0 + p.y1)),
                      from_si<Length>(p.x1 - p.x0), from_si<Length>(p.y1 - p.y0), from_si<Force>(force)});
    largest = std::max(largest, std::abs(force));
  }
  if (pushes.empty()) return {};
  const double reference = largest / (wall.length_x * wall.length_y);
  const auto bent = [&](const PanelPieces& pieces) {
    auto b = std::make_shared<BentPanel>();
    b->panel = panel;
    b->reference_pressure = from_si<Pressure>(reference);
    keep_shape(*b, pieces);
    return b;
  };
  const auto sharp = bent(bend_in_pieces(panel, uniform(Pressure()), pushes, reference));
  const auto seen = bent(bend_in_one_piece(panel, pushes, reference, wall.degree_x, wall.degree_y));
  return [sharp, seen](double x, double y) {
    std::array<double, 3> k = curvature(*sharp, x, y);
    const std::array<double, 3> known = curvature(*seen, x, y);
    for (std::size_t i = 0; i < 3; ++i) k[i] -= known[i];
    return k;
  };
}

}  // namespace theca::structure::detail
