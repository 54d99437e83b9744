#include "theca/structure/large_deflection.hpp"

#include <array>
#include <cmath>
#include <string>
#include <utility>

#include "plate_panel.hpp"
#include "stretch_equilibrium.hpp"
#include "stretched_field.hpp"
#include "theca/require.hpp"

namespace theca::structure {
namespace {

using namespace detail;
using Eigen::MatrixXd;
using Eigen::VectorXd;

constexpr int coarse_degree = 6;
constexpr int largest_degree = 16;

InPlane condition_of(const InPlaneEdges& edges, Side side) {
  if (side == Side::bottom) return edges.bottom;
  if (side == Side::left) return edges.left;
  return side == Side::right ? edges.right : edges.top;
}

StretchProblem problem_of(const Panel& panel, const PressureLoad& load, const InPlaneEdges& in_plane) {
  const double a = si(panel.width), b = si(panel.height);
  const double rigidity = si(flexural_rigidity(panel));
  StretchProblem problem;
  problem.ratio = b / a;
  problem.poisson_ratio = panel.material.poisson_ratio;
  for (const Side side : all_sides) {
    problem.spring[number(side)] = springs(panel, side, rigidity);
    problem.in_plane[number(side)] = condition_of(in_plane, side);
  }
  problem.uniform = std::isinf(si(load.water_depth));
  problem.wet_share = problem.uniform ? 1.0 : si(load.water_depth) / b;
  problem.symmetric_x = panel.left == panel.right && in_plane.left == in_plane.right;
  problem.symmetric_y = problem.uniform && panel.bottom == panel.top && in_plane.bottom == in_plane.top;
  problem.load_factor = si(load.at_bottom) * a * a * b * b / (16.0 * rigidity * si(panel.thickness));
  return problem;
}

void keep(std::vector<double>& out, const MatrixXd& shape) { out.assign(shape.data(), shape.data() + shape.size()); }

}  // namespace

InPlaneEdges supported_edges(const Panel& panel, InPlane condition) {
  const auto on = [condition](const Edge& edge) {
    return edge.translation.value() > 0.0 ? condition : InPlane::slides;
  };
  return {on(panel.bottom), on(panel.left), on(panel.right), on(panel.top)};
}

StretchedPanel bend_large(const Panel& panel, const PressureLoad& load, const InPlaneEdges& in_plane, int degree) {
  require::within("degree", degree, min_plate_degree, largest_degree);
  const BentPanel linear = bend(panel, load);  // refuses what is impossible
  for (const Side side : all_sides)
    if (edge_of(panel, side).beam != EdgeBeam{})
      throw InvalidInput(std::string(name(side)) + " edge beam", "a beam",
                         "none: the beam's own stretching is not part of the large-deflection solution");
  for (const Side side : all_sides)
    if (condition_of(in_plane, side) != InPlane::slides && !(edge_of(panel, side).translation.value() > 0.0))
      throw InvalidInput("in-plane condition of the " + std::string(name(side)) + " edge", "other than slides",
                         "slides, as nothing supports this edge");

  const StretchProblem problem = problem_of(panel, load, in_plane);
  StretchedPanel p;
  p.panel = panel;
  p.load = load;
  p.in_plane = in_plane;
  p.degree = degree;
  p.linear_deflection = linear.max_deflection;
  p.linear_tension = linear.max_tension;
  p.total_load = linear.total_load;
  if (problem.load_factor == 0.0) {
    const auto n = static_cast<std::size_t>((degree + 1) * (degree + 1));
    p.shape_w.assign(n, 0.0);
    p.shape_u.assign(n, 0.0);
    p.shape_v.assign(n, 0.0);
    find_peaks(p, problem.symmetric_x, problem.symmetric_y);
    return p;
  }

  const StretchEnergy fine(problem, degree);
  VectorXd start = VectorXd::Zero(fine.size());
  if (degree > coarse_degree) {
    const StretchEnergy coarse(problem, coarse_degree);
    const StretchEquilibrium s = minimise(coarse, problem.load_factor, VectorXd::Zero(coarse.size()));
    p.coarse_iterations = s.steps;
    start = fine.unknowns(coarse.shape_w(s.c));
  }
  const StretchEquilibrium s = minimise(fine, problem.load_factor, std::move(start));
  p.iterations = s.steps;
  p.residual = s.residual;
  const MatrixXd shape = fine.shape_w(s.c);
  keep(p.shape_w, shape);
  keep(p.shape_u, fine.shape_u(s.strain.in_plane));
  keep(p.shape_v, fine.shape_v(s.strain.in_plane));
  find_peaks(p, problem.symmetric_x, problem.symmetric_y);
  require::valid("large deflection (von Karman)", "slope of the bent panel", p.max_slope, 0.0, steepest_slope);
  require::valid("large deflection (von Karman)", "deflection / thickness", p.deflection_over_thickness, 0.0,
                 largest_deflection_over_thickness);
  const double unit = 4.0 * si(flexural_rigidity(panel)) * si(panel.thickness) / (si(panel.width) * si(panel.height));
  p.reactions = reactions(plate_basis(degree), fine.support_work(s.c, s.slope, s.strain), shape, problem.spring, unit);
  p.equilibrium_residual = equilibrium_residual(p.reactions, load, panel, {});
  if (si(p.linear_deflection) > 0.0) p.deflection_ratio = p.max_deflection / p.linear_deflection;
  if (si(p.linear_tension) > 0.0) p.tension_ratio = p.max_tension / p.linear_tension;
  return p;
}

StretchedLimits bend_large_limits(const Panel& panel, const PressureLoad& load, int degree) {
  return {bend_large(panel, load, InPlaneEdges(), degree),
          bend_large(panel, load, supported_edges(panel, InPlane::held), degree)};
}

}  // namespace theca::structure
