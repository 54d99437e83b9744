#include "stretched_field.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "peak.hpp"
#include "plate_panel.hpp"
#include "theca/require.hpp"

namespace theca::structure {
namespace detail {

using Eigen::MatrixXd;
using Eigen::VectorXd;

double StretchedValues::tension(double face) const {
  const double x = membrane_x + face * bending_x;
  const double y = membrane_y + face * bending_y;
  return 0.5 * (x + y) + std::hypot(0.5 * (x - y), membrane_xy + face * bending_xy);
}

double StretchedValues::tension() const { return std::max(tension(1.0), tension(-1.0)); }

StretchedField::StretchedField(const StretchedPanel& p)
    : degree_(p.degree),
      width_(si(p.panel.width)),
      height_(si(p.panel.height)),
      thickness_(si(p.panel.thickness)),
      poisson_ratio_(p.panel.material.poisson_ratio),
      modulus_(si(p.panel.material.youngs_modulus)),
      w_(p.shape_w.data(), p.degree + 1, p.degree + 1),
      u_(p.shape_u.data(), p.degree + 1, p.degree + 1),
      v_(p.shape_v.data(), p.degree + 1, p.degree + 1) {}

StretchedValues StretchedField::operator()(double xi, double eta) const {
  std::array<double, most> x0, x1, x2, y0, y1, y2;
  evaluate(degree_, xi, x0.data(), x1.data(), x2.data());
  evaluate(degree_, eta, y0.data(), y1.data(), y2.data());
  const Index n = degree_ + 1;
  double f = 0.0, fx = 0.0, fy = 0.0, fxx = 0.0, fyy = 0.0, fxy = 0.0, ux = 0.0, uy = 0.0, vx = 0.0, vy = 0.0;
  for (Index j = 0; j < n; ++j) {
    double w0 = 0.0, w1 = 0.0, w2 = 0.0, u0 = 0.0, u1 = 0.0, v0 = 0.0, v1 = 0.0;
    for (Index i = 0; i < n; ++i) {
      const auto k = static_cast<std::size_t>(i);
      w0 += w_(i, j) * x0[k];
      w1 += w_(i, j) * x1[k];
      w2 += w_(i, j) * x2[k];
      u0 += u_(i, j) * x0[k];
      u1 += u_(i, j) * x1[k];
      v0 += v_(i, j) * x0[k];
      v1 += v_(i, j) * x1[k];
    }
    const auto k = static_cast<std::size_t>(j);
    f += w0 * y0[k];
    fx += w1 * y0[k];
    fy += w0 * y1[k];
    fxx += w2 * y0[k];
    fyy += w0 * y2[k];
    fxy += w1 * y1[k];
    ux += u1 * y0[k];
    uy += u0 * y1[k];
    vx += v1 * y0[k];
    vy += v0 * y1[k];
  }
  const double t = thickness_, nu = poisson_ratio_;
  const double a = 2.0 * t / width_, b = 2.0 * t / height_;
  const double plane = modulus_ / (1.0 - nu * nu);
  const double ex = a * a * (ux + 0.5 * fx * fx);
  const double ey = b * b * (vy + 0.5 * fy * fy);
  const double g = a * b * (uy + vx + fx * fy);
  // Bending strain at the far face is -t/2 times the curvature.
  const double kx = -0.5 * a * a * fxx, ky = -0.5 * b * b * fyy, kxy = -0.5 * a * b * fxy;
  return {t * f,
          std::hypot(a * fx, b * fy),
          plane * (kx + nu * ky),
          plane * (ky + nu * kx),
          plane * (1.0 - nu) * kxy,
          plane * (ex + nu * ey),
          plane * (ey + nu * ex),
          plane * 0.5 * (1.0 - nu) * g};
}

void find_peaks(StretchedPanel& p, bool symmetric_x, bool symmetric_y) {
  const VectorXd& grid = plate_basis(p.degree).grid;
  const StretchedField field(p);
  const Index nx = symmetric_x ? grid.size() / 2 + 1 : grid.size();
  const Index ny = symmetric_y ? grid.size() / 2 + 1 : grid.size();
  MatrixXd deflection(nx, ny), tension(nx, ny);
  for (Index j = 0; j < ny; ++j)
    for (Index i = 0; i < nx; ++i) {
      const auto v = field(grid[i], grid[j]);
      deflection(i, j) = std::abs(v.deflection);
      tension(i, j) = v.tension();
      p.max_slope = std::max(p.max_slope, v.slope);
    }
  const auto place = [&p](const Peak& peak) {
    return PanelPlace{0.5 * (peak.x + 1.0) * p.panel.width, 0.5 * (peak.y + 1.0) * p.panel.height};
  };
  const auto largest = [&grid](const MatrixXd& on_grid, const auto& f) {
    return highest_from_grid(on_grid, grid, grid, [&f](const Peak& from, double step_x, double step_y) {
      return climb(f, from, step_x, step_y, 11);
    });
  };
  const Peak sag = largest(deflection, [&](double xi, double eta) { return std::abs(field(xi, eta).deflection); });
  p.max_deflection = from_si<Length>(sag.value);
  p.max_deflection_at = place(sag);
  p.deflection_over_thickness = sag.value / si(p.panel.thickness);
  const Peak pull = largest(tension, [&](double xi, double eta) { return field(xi, eta).tension(); });
  p.max_tension = from_si<Pressure>(pull.value);
  p.max_tension_at = place(pull);
  const auto there = field(pull.x, pull.y);
  p.max_tension_on_far_face = there.tension(1.0) >= there.tension(-1.0);
}

}  // namespace detail

namespace {

FaceStress face_stress(double x, double y, double xy) {
  const double mean = 0.5 * (x + y);
  const double radius = std::hypot(0.5 * (x - y), xy);
  return {from_si<Pressure>(x), from_si<Pressure>(y), from_si<Pressure>(xy), from_si<Pressure>(mean + radius),
          from_si<Pressure>(mean - radius)};
}

}  // namespace

StretchedState StretchedPanel::at(const Length& x, const Length& y) const {
  require::within("x", x, Length(), panel.width);
  require::within("y", y, Length(), panel.height);
  const auto v =
      detail::StretchedField(*this)(2.0 * si(x) / si(panel.width) - 1.0, 2.0 * si(y) / si(panel.height) - 1.0);
  const double t = si(panel.thickness);
  const double section = t * t / 6.0;
  return {from_si<Length>(v.deflection),
          from_si<MomentPerLength>(section * v.bending_x),
          from_si<MomentPerLength>(section * v.bending_y),
          from_si<MomentPerLength>(section * v.bending_xy),
          from_si<LineLoad>(t * v.membrane_x),
          from_si<LineLoad>(t * v.membrane_y),
          from_si<LineLoad>(t * v.membrane_xy),
          face_stress(v.membrane_x - v.bending_x, v.membrane_y - v.bending_y, v.membrane_xy - v.bending_xy),
          face_stress(v.membrane_x + v.bending_x, v.membrane_y + v.bending_y, v.membrane_xy + v.bending_xy)};
}

}  // namespace theca::structure
