#include "plate_panel.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include "theca/require.hpp"

namespace theca::structure::detail {
namespace {

std::string described(const Edge& edge) {
  if (edge == free_edge()) return "free";
  if (edge == hinged()) return "hinged";
  if (edge == clamped()) return "clamped";
  if (edge == beam_edge(edge.beam.bending, edge.beam.torsion)) return "free with a beam";
  return "elastic (" + text(edge.translation) + " against translation, " + text(edge.rotation) + " against rotation)";
}

/// The part of a side that a load covers, on -1..1.
struct Span {
  double low, high;
};
Span span(const Length& centre, const Length& width, const Length& side) {
  const double mid = 2.0 * si(centre) / si(side) - 1.0;
  const double half = si(width) / si(side);
  return {std::max(mid - half, -1.0), std::min(mid + half, 1.0)};
}

void require_on_panel(const PatchLoad& patch, const Panel& panel) {
  require::within("patch load width", patch.width, Length(), panel.width);
  require::within("patch load height", patch.height, Length(), panel.height);
  // A patch flush with an edge may overhang it by the rounding of its centre.
  const Length half_width = 0.5 * (1.0 - 1e-9) * patch.width;
  const Length half_height = 0.5 * (1.0 - 1e-9) * patch.height;
  require::within("patch load x (centre)", patch.x, half_width, panel.width - half_width);
  require::within("patch load y (centre)", patch.y, half_height, panel.height - half_height);
  require::within("patch load force", patch.force, from_si<Force>(-1e9), from_si<Force>(1e9));
}

SmallVector along_edge(const Small& products, Side side) {
  if (horizontal(side)) return products.col(end_of(side));
  return products.row(end_of(side)).transpose();
}

Force pressure_force(const PressureLoad& pressure, const Panel& panel) {
  const double wet = std::min(si(pressure.water_depth), si(panel.height));
  const double mean = 1.0 - 0.5 * wet / si(pressure.water_depth);
  return from_si<Force>(si(pressure.at_bottom) * mean * wet * si(panel.width));
}

}  // namespace

const Edge& edge_of(const Panel& panel, Side side) {
  switch (side) {
    case Side::bottom:
      return panel.bottom;
    case Side::left:
      return panel.left;
    case Side::right:
      return panel.right;
    case Side::top:
      break;
  }
  return panel.top;
}

Springs springs(const Panel& panel, Side side, double rigidity) {
  const double along = horizontal(side) ? si(panel.width) : si(panel.height);
  const double across = horizontal(side) ? si(panel.height) : si(panel.width);
  const Edge& edge = edge_of(panel, side);
  return {si(edge.translation) * along * along * across / (8.0 * rigidity),
          si(edge.rotation) * along * along / (2.0 * across * rigidity),
          2.0 * si(edge.beam.bending) * across / (along * along * rigidity),
          2.0 * si(edge.beam.torsion) / (across * rigidity)};
}

void require_possible(const Panel& panel, const PressureLoad& load, int degree) {
  require::within("panel width", panel.width, from_si<Length>(1e-3), from_si<Length>(1e3));
  require::within("panel height", panel.height, from_si<Length>(1e-3), from_si<Length>(1e3));
  require::within("panel Young's modulus", panel.material.youngs_modulus, from_si<Pressure>(1.0),
                  from_si<Pressure>(1e15));
  for (const Side side : all_sides) {
    const Edge& edge = edge_of(panel, side);
    if (edge.translation.value() >= 0.0 && edge.rotation.value() >= 0.0 && edge.beam == EdgeBeam{}) continue;
    const std::string which(name(side));
    require::that(edge.translation.value() >= 0.0, which + " edge translation stiffness", edge.translation,
                  ">= 0, infinite when held");
    require::that(edge.rotation.value() >= 0.0, which + " edge rotation stiffness", edge.rotation,
                  ">= 0, infinite when clamped");
    require::not_negative(which + " edge beam bending stiffness", edge.beam.bending);
    require::not_negative(which + " edge beam torsional stiffness", edge.beam.torsion);
  }
  require::within("load at bottom", load.at_bottom, from_si<Pressure>(-1e9), from_si<Pressure>(1e9));
  require::that(load.water_depth.value() > 0.0, "water depth", load.water_depth, "> 0");
  require::that(std::isinf(load.water_depth.value()) || load.water_depth.value() <= panel.height.value(), "water depth",
                load.water_depth, "at most the panel height, " + text(panel.height));
  require::within("degree", degree, detail::min_plate_degree, detail::max_plate_degree);
  require::valid("plate polynomials", "panel width / height", si(panel.width) / si(panel.height), 0.05, 20.0);
}

void require_held(const Panel& panel, const std::array<Springs, 4>& spring) {
  Eigen::Matrix3d energy = Eigen::Matrix3d::Zero();
  for (const Side side : all_sides) {
    const double end = side == Side::bottom || side == Side::left ? -1.0 : 1.0;
    const int across = horizontal(side) ? 2 : 1;
    const int along = 3 - across;
    const double k = std::min(spring[number(side)].translation, 1.0);
    energy(0, 0) += 2.0 * k;
    energy(0, across) += 2.0 * k * end;
    energy(across, 0) += 2.0 * k * end;
    energy(across, across) += 2.0 * k + 2.0 * std::min(spring[number(side)].rotation, 1.0);
    energy(along, along) += 2.0 / 3.0 * k;
  }
  const Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d> modes(energy, Eigen::EigenvaluesOnly);
  if (modes.eigenvalues()[0] >= 1e-9) return;
  std::string edges;
  for (const Side side : all_sides)
    edges += (edges.empty() ? "" : ", ") + std::string(name(side)) + " " + described(edge_of(panel, side));
  throw InvalidInput("panel edges", edges, "edges that keep the panel from shifting and tilting as a rigid body");
}

Small load_work(const PlateBasis& basis, const Panel& panel, const PressureLoad& pressure,
                const std::vector<PatchLoad>& patches, double& reference) {
  const double area = si(panel.width) * si(panel.height);
  reference = patches.empty() ? si(pressure.at_bottom) : std::abs(si(pressure.at_bottom));
  for (const PatchLoad& patch : patches) {
    require_on_panel(patch, panel);
    reference = std::max(reference, std::abs(si(patch.force)) / area);
  }
  const SmallVector even = load_integrals(basis.degree, 1.0, 1.0, 1.0);
  const bool uniform_load = std::isinf(si(pressure.water_depth));
  const SmallVector over_height =
      uniform_load ? even
                   : SmallVector(load_integrals(basis.degree, si(pressure.water_depth) / si(panel.height), 1.0, 0.0));
  const double pressure_share = reference != 0.0 ? si(pressure.at_bottom) / reference : 0.0;
  Small work = even * (pressure_share * over_height).transpose();
  for (const PatchLoad& patch : patches) {
    if (reference == 0.0) break;  // no force anywhere
    const Span x = span(patch.x, patch.width, panel.width);
    const Span y = span(patch.y, patch.height, panel.height);
    const double share = 4.0 * si(patch.force) / (reference * area);
    work += mean_values(basis.degree, x.low, x.high) * (share * mean_values(basis.degree, y.low, y.high)).transpose();
  }
  return work;
}

EdgePart edge_part(const PlateBasis& basis, const SmallVector& work, const Small& shape, Side side,
                   double translation_spring, double unit) {
  if (std::isfinite(translation_spring)) {
    const SmallVector q = translation_spring * along_edge(shape, side);
    return {unit, work, q, basis.value.col(value_low).dot(q), basis.value.col(value_high).dot(q)};
  }
  EdgePart part{unit, work, work};
  part.reaction.head(first_bubble).setZero();
  // The integral of P_k'' h is [P_k' h] for a cubic h with no slope at the ends, and P_k'(1) = k (k + 1) / 2.
  for (Index i = first_bubble; i < basis.size; ++i) {
    const auto k = static_cast<double>(i - 2);
    const double term = part.reaction[i] * std::sqrt(k + 0.5) * 0.5 * k * (k + 1.0);
    part.low += i % 2 == 0 ? term : -term;
    part.high += term;
  }
  return part;
}

EdgeReactions reactions(const std::array<std::vector<EdgePart>, 4>& edges) {
  const auto of_edge = [](const std::vector<EdgePart>& parts) {
    double force = 0.0;
    for (std::size_t k = 0; k < parts.size(); ++k) {
      const EdgePart& p = parts[k];
      force += p.unit * ((k == 0 ? p.low : p.work[value_low]) + (k + 1 == parts.size() ? p.high : p.work[value_high]));
    }
    return from_si<Force>(force);
  };
  const auto& [bottom, left, right, top] = edges;
  const auto low_corner = [](const EdgePart& lying, double upright) {
    return from_si<Force>(lying.unit * (lying.work[value_low] - lying.low) - upright);
  };
  const auto high_corner = [](const EdgePart& lying, double upright) {
    return from_si<Force>(lying.unit * (lying.work[value_high] - lying.high) - upright);
  };
  EdgeReactions r;
  r.bottom = of_edge(bottom);
  r.left = of_edge(left);
  r.right = of_edge(right);
  r.top = of_edge(top);
  r.bottom_left = low_corner(bottom.front(), left.front().unit * left.front().low);
  r.bottom_right = high_corner(bottom.back(), right.front().unit * right.front().low);
  r.top_left = low_corner(top.front(), left.back().unit * left.back().high);
  r.top_right = high_corner(top.back(), right.back().unit * right.back().high);
  return r;
}

EdgeReactions reactions(const PlateBasis& basis, const Small& work, const Small& shape,
                        const std::array<Springs, 4>& spring, double unit) {
  std::array<std::vector<EdgePart>, 4> edges;
  for (const Side side : all_sides)
    edges[number(side)].push_back(
        edge_part(basis, along_edge(work, side), shape, side, spring[number(side)].translation, unit));
  return reactions(edges);
}

Force total_load(const PressureLoad& pressure, const Panel& panel, const std::vector<PatchLoad>& patches) {
  Force total = pressure_force(pressure, panel);
  for (const PatchLoad& patch : patches) total += patch.force;
  return total;
}

double equilibrium_residual(const EdgeReactions& r, const PressureLoad& pressure, const Panel& panel,
                            const std::vector<PatchLoad>& patches) {
  const Force sum = r.bottom + r.left + r.right + r.top + r.bottom_left + r.bottom_right + r.top_left + r.top_right;
  double size = std::abs(si(pressure_force(pressure, panel)));
  for (const PatchLoad& patch : patches) size += std::abs(si(patch.force));
  return size > 0.0 ? std::abs(si(sum - total_load(pressure, panel, patches))) / size : 0.0;
}

}  // namespace theca::structure::detail
