#include "panel_peaks.hpp"

#include <Eigen/Dense>
#include <array>
#include <cmath>

#include "bent_field.hpp"
#include "local_contact.hpp"
#include "peak.hpp"
#include "plate_basis.hpp"

namespace theca::structure::detail {
namespace {

using Eigen::MatrixXd;

/// A value on the square with its first and second derivatives.
struct Local {
  double value, x, y, xx, xy, yy;
};

Local deflection_at(const Field& field, double xi, double eta) {
  const auto w = field.jet(xi, eta);
  const double k = w[0][0] * field.deflection_scale >= 0.0 ? field.deflection_scale : -field.deflection_scale;
  return {k * w[0][0], k * w[1][0], k * w[0][1], k * w[2][0], k * w[1][1], k * w[0][2]};
}

/// The opening moment, smooth but where its two principal moments meet; there the derivatives are left at zero.
Local opening_moment_at(const Field& field, double xi, double eta) {
  const auto w = field.jet(xi, eta);
  const auto derived = [&](std::size_t p, std::size_t q) {
    const auto v = field.from(w[p][q], w[p + 2][q], w[p][q + 2], w[p + 1][q + 1]);
    return std::array<double, 3>{0.5 * (v.moment_x + v.moment_y), 0.5 * (v.moment_x - v.moment_y), v.moment_xy};
  };
  const auto f = derived(0, 0);
  const double sign = f[0] >= 0.0 ? 1.0 : -1.0;
  const double r = std::hypot(f[1], f[2]);
  Local local{sign * f[0] + r, 0.0, 0.0, 0.0, 0.0, 0.0};
  if (r <= 1e-9 * local.value) return local;
  const auto fx = derived(1, 0), fy = derived(0, 1), fxx = derived(2, 0), fxy = derived(1, 1), fyy = derived(0, 2);
  const auto dot = [](const std::array<double, 3>& a, const std::array<double, 3>& b) {
    return a[1] * b[1] + a[2] * b[2];
  };
  const double rx = dot(f, fx) / r;
  const double ry = dot(f, fy) / r;
  local.x = sign * fx[0] + rx;
  local.y = sign * fy[0] + ry;
  local.xx = sign * fxx[0] + (dot(fx, fx) + dot(f, fxx) - rx * rx) / r;
  local.xy = sign * fxy[0] + (dot(fx, fy) + dot(f, fxy) - rx * ry) / r;
  local.yy = sign * fyy[0] + (dot(fy, fy) + dot(f, fyy) - ry * ry) / r;
  return local;
}

constexpr int halvings = 20;  // of the compass search's steps

/// Climbs from a grid point by Newton's method inside the square, sliding along its edges; steps are held to the
/// grid's.
template <class F>
Peak refine(const F& f, Peak peak, double step_x, double step_y) {
  Local here = f(peak.x, peak.y);
  peak.value = here.value;
  double shrink = 1.0;
  for (int step = 0; step < 30; ++step) {
    const bool fixed_x = (peak.x >= 1.0 && here.x >= 0.0) || (peak.x <= -1.0 && here.x <= 0.0);
    const bool fixed_y = (peak.y >= 1.0 && here.y >= 0.0) || (peak.y <= -1.0 && here.y <= 0.0);
    double dx = 0.0, dy = 0.0;
    if (!fixed_x && !fixed_y) {
      // Newton's step with the curvatures made negative: upward also from a saddle.
      const double mean = 0.5 * (here.xx + here.yy);
      const double radius = std::hypot(0.5 * (here.xx - here.yy), here.xy);
      const double angle = 0.5 * std::atan2(here.xy, 0.5 * (here.xx - here.yy));
      const double cosine = std::cos(angle), sine = std::sin(angle);
      const double least = 1e-6 * std::max(here.value, std::abs(mean) + radius);
      const double along = (cosine * here.x + sine * here.y) / std::max(std::abs(mean + radius), least);
      const double across = (cosine * here.y - sine * here.x) / std::max(std::abs(mean - radius), least);
      dx = cosine * along - sine * across;
      dy = sine * along + cosine * across;
      if (least == 0.0) return peak;
    } else {
      if (!fixed_x) dx = here.xx < 0.0 ? -here.x / here.xx : std::copysign(step_x, here.x);
      if (!fixed_y) dy = here.yy < 0.0 ? -here.y / here.yy : std::copysign(step_y, here.y);
    }
    const double too_long = std::max({1.0, std::abs(dx) / step_x, std::abs(dy) / step_y});
    const double xi = std::clamp(peak.x + shrink * dx / too_long, -1.0, 1.0);
    const double eta = std::clamp(peak.y + shrink * dy / too_long, -1.0, 1.0);
    const double moved = std::max(std::abs(xi - peak.x), std::abs(eta - peak.y));
    const bool stationary = (here.xx < 0.0 || fixed_x) && (here.yy < 0.0 || fixed_y);
    if (moved < 1e-9 && stationary && shrink == 1.0) return peak;
    // What is left to gain is less than the rounding of the value: flat, as in the middle of a long panel.
    const double gain = std::abs(here.x * (xi - peak.x)) + std::abs(here.y * (eta - peak.y));
    if (stationary && shrink == 1.0 && gain < 1e-13 * here.value) return peak;
    const Local there = f(xi, eta);
    if (there.value > here.value) {
      const bool arrived = moved < 1e-4 && stationary && shrink == 1.0;  // the next step would be its square
      here = there;
      peak = {there.value, xi, eta};
      shrink = 1.0;
      if (arrived) return peak;
    } else {
      if (moved < 1e-6 && stationary) return peak;  // the rounding of the value
      shrink *= 0.25;
      if (shrink < 1e-3) break;
    }
  }
  return climb([&f](double xi, double eta) { return f(xi, eta).value; }, peak, 0.25 * step_x, 0.25 * step_y, halvings);
}

/// The largest of one quantity found so far, on the square of its rectangle.
struct Found {
  Peak peak{-1.0, 0.0, 0.0};
  Field field{};

  void keep_larger(const Peak& other, const Field& on) {
    if (other.value > peak.value) *this = {other, on};
  }
};

struct Largest {
  Found deflection, moment;
};

/// Looks through one rectangle; quantities that stay under nine tenths of what was found before are passed over.
void search(const Field& field, bool symmetric, Largest& found) {
  const PlateBasis& basis = plate_basis(field.degree);
  const Eigen::Map<const MatrixXd> shape(field.shape, basis.size, basis.size);
  // A symmetric panel is searched in its left half and the middle.
  const Index nx = symmetric ? basis.grid.size() / 2 + 1 : basis.grid.size();
  const Index ny = basis.grid.size();
  const MatrixXd value = basis.grid_value.topRows(nx) * shape;
  const MatrixXd slope = basis.grid_slope.topRows(nx) * shape;
  const MatrixXd curvature = basis.grid_curvature.topRows(nx) * shape;
  const MatrixXd w = value * basis.grid_value.transpose();
  const MatrixXd w_yy = value * basis.grid_curvature.transpose();
  const MatrixXd w_xx = curvature * basis.grid_value.transpose();
  const MatrixXd w_xy = slope * basis.grid_slope.transpose();
  MatrixXd deflection(nx, ny);
  MatrixXd moment(nx, ny);
  for (Index j = 0; j < ny; ++j)
    for (Index i = 0; i < nx; ++i) {
      const Bending here = field.from(w(i, j), w_xx(i, j), w_yy(i, j), w_xy(i, j));
      deflection(i, j) = std::abs(here.deflection);
      moment(i, j) = here.opening_moment();
    }
  const auto keep_largest = [&](const MatrixXd& on_grid, const auto& f, Found& so_far) {
    if (on_grid.maxCoeff() < 0.9 * so_far.peak.value) return;
    const auto ascend = [&f](const Peak& from, double step_x, double step_y) {
      return refine(f, from, step_x, step_y);
    };
    so_far.keep_larger(highest_from_grid(on_grid, basis.grid, basis.grid, ascend), field);
  };
  const auto sag = [&](double xi, double eta) { return deflection_at(field, xi, eta); };
  const auto bending = [&](double xi, double eta) { return opening_moment_at(field, xi, eta); };
  keep_largest(deflection, sag, found.deflection);
  keep_largest(moment, bending, found.moment);
}

}  // namespace

void find_peaks(BentPanel& bent, bool symmetric) {
  const std::size_t nx = bent.lines_x.size() - 1, ny = bent.lines_y.size() - 1;
  Largest found;
  for (std::size_t j = 0; j < ny; ++j)
    for (std::size_t i = 0; i < nx; ++i) search(field_of(bent, i, j), symmetric && nx == 1, found);
  const auto place = [](const Found& f) { return f.field.place(f.peak.x, f.peak.y); };
  const double sag = found.deflection.peak.value, t = si(bent.panel.thickness);
  bent.max_deflection = from_si<Length>(sag);
  bent.max_deflection_at = place(found.deflection);
  bent.deflection_over_thickness = sag / t;
  const auto& [tension, field] = found.moment;
  bent.max_tension = from_si<Pressure>(6.0 * tension.value / (t * t));
  bent.max_tension_at = place(found.moment);
  const Bending there = field.from(field.jet(tension.x, tension.y));
  bent.max_tension_on_far_face = there.moment_x + there.moment_y >= 0.0;
}

}  // namespace theca::structure::detail
