#include "local_contact.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <utility>

namespace theca::structure::detail {
namespace {

/// Coefficients by powers of s of the force inside a radius r of a point force less its spread, 1 less the integral of
/// (1 - s) (6 - 12 s) from 0 to s = (r / R)^2: a polynomial in s, zero from s = 1 on with all that follows from it.
constexpr std::array<double, 4> force_left = {1.0, -6.0, 9.0, -4.0};

struct Radial {
  double laplacian;   ///< integral of force_left / s from s to 1, which begins as -ln s
  double anisotropy;  ///< integral of force_left from 0 to s, over s, which begins as 1
  double share;       ///< force_left, which begins as 1
  double deflection;  ///< integral from s to 1 of laplacian + anisotropy
};
Radial radial(double s) {
  if (s >= 1.0) return {0.0, 0.0, 0.0, 0.0};
  double laplacian = s > 0.0 ? -std::log(s) : 0.0;
  double anisotropy = 0.0, share = 0.0, deflection = 0.0, power = 1.0;
  for (std::size_t j = 0; j < force_left.size(); ++j) {
    const auto n = static_cast<double>(j);
    if (j > 0) laplacian += force_left[j] * (1.0 - power) / n;
    share += force_left[j] * power;
    anisotropy += force_left[j] * power / (n + 1.0);
    power *= s;
    deflection += force_left[j] * (1.0 - power) / ((n + 1.0) * (n + 1.0));
  }
  deflection -= s * (laplacian + anisotropy);
  return {laplacian, anisotropy, share, deflection};
}

/// Means over a patch: of the radial functions, of those times the direction's (x^2 - y^2) / r^2 and x y / r^2, and of
/// the share of force times x / r^2 and y / r^2.
struct Means {
  double laplacian = 0.0, difference = 0.0, product = 0.0, shear_x = 0.0, shear_y = 0.0, deflection = 0.0;
};

double squared_angle(double x, double y) { return x == 0.0 ? 0.0 : x * x * std::atan(y / x); }
double angle(double x, double y) { return x == 0.0 ? 0.0 : x * std::atan(y / x); }

/// The point force's -ln s, (x^2 - y^2) / r^2, x y / r^2, x / r^2 and y / r^2 integrated over a rectangle that reaches
/// from the place by x0..x1 and y0..y1, over its area.
Means point_over_rectangle(double x0, double x1, double y0, double y1, double reach) {
  Means m;
  const auto corner = [&](double x, double y, double sign) {
    const double r2 = x * x + y * y;
    const double log = r2 > 0.0 ? std::log(r2 / (reach * reach)) : 0.0;
    m.laplacian -= sign * (x * y * (log - 3.0) + squared_angle(x, y) + squared_angle(y, x));
    m.difference += sign * (squared_angle(x, y) - squared_angle(y, x));
    m.product += sign * 0.25 * r2 * log;
    m.shear_x += sign * (0.5 * y * log + angle(x, y));
    m.shear_y += sign * (0.5 * x * log + angle(y, x));
  };
  corner(x1, y1, 1.0);
  corner(x0, y1, -1.0);
  corner(x1, y0, -1.0);
  corner(x0, y0, 1.0);
  const double area = (x1 - x0) * (y1 - y0);
  return {m.laplacian / area, m.difference / area, m.product / area, m.shear_x / area, m.shear_y / area, 0.0};
}

constexpr int kernel_points = 64;  // of the midpoint rule, each way

/// Means of the basis functions over low..high, continued beyond -1 and 1 as odd about these ends.
SmallVector odd_mean_values(int degree, double low, double high) {
  if (low >= -1.0 && high <= 1.0) return mean_values(degree, low, high);
  SmallVector sum = SmallVector::Zero(degree + 1);
  const auto add = [&](double from, double to, double sign) {
    if (from < to) sum += sign * (to - from) / (high - low) * mean_values(degree, from, to);
  };
  add(std::max(low, -1.0), std::min(high, 1.0), 1.0);
  add(std::max(-2.0 - high, -1.0), -2.0 - low, -1.0);
  add(2.0 - high, std::min(2.0 - low, 1.0), -1.0);
  return sum;
}

std::vector<LocalContact> split_patches(const Panel& panel, const std::vector<PatchLoad>& patches, bool beyond_hinged) {
  const double a = si(panel.width), b = si(panel.height);
  const auto room = [beyond_hinged](const Edge& edge, double distance, double side) {
    return beyond_hinged && edge == hinged() ? side : distance;
  };
  std::vector<LocalContact> contacts;
  for (const PatchLoad& patch : patches) {
    const double least = 0.5 * narrowest_contact(panel);
    const double x = si(patch.x), y = si(patch.y);
    const double half_width = std::max(0.5 * si(patch.width), least);
    const double half_height = std::max(0.5 * si(patch.height), least);
    const double reach = std::min(std::min(room(panel.left, x, a), room(panel.right, a - x, a)) - half_width,
                                  std::min(room(panel.bottom, y, b), room(panel.top, b - y, b)) - half_height);
    if (reach >= std::max(half_width, half_height)) contacts.push_back({patch, x, y, half_width, half_height, reach});
  }
  return contacts;
}

/// Work of a spread unit force and its images, less that of the patch as given, on all products of functions.
Small spread_less_patch(int degree, const LocalContact& c, const Panel& panel) {
  const auto means = [degree](double centre, double half, double side) {
    const double low = 2.0 * (centre - half) / side - 1.0, high = 2.0 * (centre + half) / side - 1.0;
    return odd_mean_values(degree, low, high);
  };
  const double a = si(panel.width), b = si(panel.height);
  Eigen::MatrixXd x(degree + 1, kernel_points), y(degree + 1, kernel_points);
  Eigen::MatrixXd kernel(kernel_points, kernel_points);
  const auto at = [](Index i) { return (2.0 * static_cast<double>(i) + 1.0) / kernel_points - 1.0; };
  const auto squared = [&at](Index i, Index j) { return at(i) * at(i) + at(j) * at(j); };
  // The rule's own sums of (1 - s) s^n make of 6 - 12 s the factor with which force and second moment are met exactly.
  double sum0 = 0.0, sum1 = 0.0, sum2 = 0.0;
  for (Index i = 0; i < kernel_points; ++i) {
    x.col(i) = means(c.x + c.reach * at(i), c.half_width, a);
    y.col(i) = means(c.y + c.reach * at(i), c.half_height, b);
    for (Index j = 0; j < kernel_points; ++j) {
      const double s = squared(i, j);
      const double t = std::max(1.0 - s, 0.0);
      sum0 += t;
      sum1 += t * s;
      sum2 += t * s * s;
    }
  }
  const double determinant = sum0 * sum2 - sum1 * sum1;
  for (Index i = 0; i < kernel_points; ++i)
    for (Index j = 0; j < kernel_points; ++j) {
      const double s = squared(i, j);
      kernel(i, j) = std::max(1.0 - s, 0.0) * (sum2 - sum1 * s) / determinant;
    }
  return x * kernel * y.transpose() -
         means(c.x, 0.5 * si(c.patch.width), a) * means(c.y, 0.5 * si(c.patch.height), b).transpose();
}

}  // namespace

double narrowest_contact(const Panel& panel) {
  return si(contact_patch({0.5 * panel.width, 0.5 * panel.height, Force(), Length()}, panel).width);
}

std::vector<LocalContact> local_contacts(const Panel& panel, const std::vector<PatchLoad>& patches) {
  return split_patches(panel, patches, true);
}

std::vector<LocalContact> local_contacts_within(const Panel& panel, const std::vector<PatchLoad>& patches) {
  return split_patches(panel, patches, false);
}

std::vector<LocalContact> mirror_images(const LocalContact& c, const Panel& panel) {
  const double a = si(panel.width), b = si(panel.height);
  const std::array<double, 3> places_x = {c.x, -c.x, 2.0 * a - c.x}, places_y = {c.y, -c.y, 2.0 * b - c.y};
  const auto reaches = [&c](double place, double half, double side) {
    const double beyond = std::max({0.0, -place, place - side});
    return beyond < half + c.reach * (1.0 - 1e-9);
  };
  std::vector<LocalContact> images;
  for (std::size_t i = 0; i < 3; ++i)
    for (std::size_t j = 0; j < 3; ++j) {
      if ((i == 0 && j == 0) || !reaches(places_x[i], c.half_width, a) || !reaches(places_y[j], c.half_height, b))
        continue;
      LocalContact image = c;
      image.x = places_x[i];
      image.y = places_y[j];
      if ((i == 0) != (j == 0)) image.patch.force = -c.patch.force;
      images.push_back(image);
    }
  return images;
}

bool any_mirrored(const std::vector<LocalContact>& contacts, const Panel& panel) {
  return std::any_of(contacts.begin(), contacts.end(),
                     [&](const LocalContact& c) { return !mirror_images(c, panel).empty(); });
}

Small spread(Small work, const std::vector<LocalContact>& contacts, const Panel& panel, double reference) {
  const auto degree = static_cast<int>(work.rows()) - 1;
  for (const LocalContact& contact : contacts)
    work += 4.0 * si(contact.patch.force) / (reference * si(panel.width) * si(panel.height)) *
            spread_less_patch(degree, contact, panel);
  return work;
}

LocalBending& LocalBending::operator+=(const LocalBending& other) {
  deflection += other.deflection;
  moment_x += other.moment_x;
  moment_y += other.moment_y;
  moment_xy += other.moment_xy;
  shear_x += other.shear_x;
  shear_y += other.shear_y;
  return *this;
}

LocalBending local_bending(const LocalContact& c, double rigidity, double poisson_ratio, double x, double y) {
  const double dx = x - c.x, dy = y - c.y;
  if (std::hypot(std::max(std::abs(dx) - c.half_width, 0.0), std::max(std::abs(dy) - c.half_height, 0.0)) >= c.reach)
    return {};
  // Far from the patch the closed form loses digits to its differences, and the quadrature needs none of it.
  const double longer = std::max(c.half_width, c.half_height);
  const bool near = std::max(std::abs(dx), std::abs(dy)) < 6.0 * longer;
  Means m;
  if (near)
    m = point_over_rectangle(dx - c.half_width, dx + c.half_width, dy - c.half_height, dy + c.half_height, c.reach);
  static const GaussRule fine = gauss_rule(8), coarse = gauss_rule(3);
  const GaussRule& rule = near ? fine : coarse;
  const double reach2 = c.reach * c.reach;
  for (Index i = 0; i < rule.point.size(); ++i)
    for (Index j = 0; j < rule.point.size(); ++j) {
      const double px = dx - c.half_width * rule.point[i], py = dy - c.half_height * rule.point[j];
      const double r2 = px * px + py * py;
      const double weight = 0.25 * rule.weight[i] * rule.weight[j];
      const Radial f = radial(r2 / reach2);
      m.deflection += weight * f.deflection;
      if (r2 == 0.0) {  // the smooth rest is all there is: its ratios vanish, its laplacian is that without logarithm
        m.laplacian += weight * f.laplacian;
        continue;
      }
      const double point = near ? 1.0 : 0.0;
      m.laplacian += weight * (f.laplacian + point * std::log(r2 / reach2));
      m.difference += weight * (f.anisotropy - point) * (px * px - py * py) / r2;
      m.product += weight * (f.anisotropy - point) * px * py / r2;
      m.shear_x += weight * (f.share - point) * px / r2;
      m.shear_y += weight * (f.share - point) * py / r2;
    }
  const double force = si(c.patch.force) / (4.0 * std::numbers::pi);
  const double sum = 0.5 * (1.0 + poisson_ratio) * force * m.laplacian;
  const double difference = -0.5 * (1.0 - poisson_ratio) * force * m.difference;
  return {0.25 * force * reach2 / rigidity * m.deflection, sum + difference,         sum - difference,
          -(1.0 - poisson_ratio) * force * m.product,      -2.0 * force * m.shear_x, -2.0 * force * m.shear_y};
}

ContactField::ContactField(const Panel& panel, std::vector<LocalContact> all)
    : contacts(std::move(all)),
      width(si(panel.width)),
      height(si(panel.height)),
      rigidity(si(flexural_rigidity(panel))),
      poisson_ratio(panel.material.poisson_ratio) {
  for (const LocalContact& contact : contacts) {
    const std::vector<LocalContact> mirrored = mirror_images(contact, panel);
    images.insert(images.end(), mirrored.begin(), mirrored.end());
  }
}

LocalBending ContactField::at(double x, double y) const {
  LocalBending sum;
  for (const LocalContact& contact : contacts) sum += local_bending(contact, rigidity, poisson_ratio, x, y);
  for (const LocalContact& image : images) sum += local_bending(image, rigidity, poisson_ratio, x, y);
  return sum;
}

LocalBending ContactField::on_square(double xi, double eta) const {
  return contacts.empty() ? LocalBending{} : at(0.5 * (xi + 1.0) * width, 0.5 * (eta + 1.0) * height);
}

}  // namespace theca::structure::detail
