#include "theca/structure/leg_load.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

#include "theca/require.hpp"

namespace theca::structure {

LegForces leg_forces(const std::vector<Leg>& legs, const Force& weight, const Length& x, const Length& y,
                     const LineLoad& stiffness) {
  const std::size_t n = legs.size();
  require::within("number of legs", static_cast<double>(n), 3.0, 100.0);
  require::positive("weight", weight);
  require::finite("x of the weight", x);
  require::finite("y of the weight", y);
  require::positive("leg stiffness", stiffness);
  double span = 0.0;
  for (const Leg& leg : legs) {
    require::finite("x of a leg", leg.x);
    require::finite("y of a leg", leg.y);
    require::not_negative("leg gap", leg.gap);
    span = std::max({span, std::abs(si(leg.x - legs[0].x)), std::abs(si(leg.y - legs[0].y))});
  }
  require::positive("spread of the legs", span);
  Eigen::Matrix3d spread = Eigen::Matrix3d::Zero();
  const auto at = [&](const Leg& leg) {
    return Eigen::Vector3d(1.0, si(leg.x - legs[0].x) / span, si(leg.y - legs[0].y) / span);
  };
  for (const Leg& leg : legs) spread += at(leg) * at(leg).transpose();
  require::that(spread.determinant() > 1e-9, "legs", static_cast<double>(n), "not all in one line");
  // Outside the hull of the legs no set of pushing forces balances the weight. Any line through two legs with all legs
  // on one side must have the weight on that side too.
  const Eigen::Vector3d load(1.0, si(x - legs[0].x) / span, si(y - legs[0].y) / span);
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = 0; j < n; ++j) {
      const Eigen::Vector3d p = at(legs[i]), d = at(legs[j]) - p;
      if (d.norm() < 1e-12) continue;
      const auto left = [&](const Eigen::Vector3d& q) { return d(1) * (q(2) - p(2)) - d(2) * (q(1) - p(1)); };
      const bool edge = std::all_of(legs.begin(), legs.end(), [&](const Leg& leg) { return left(at(leg)) >= -1e-12; });
      require::that(!edge || left(load) >= -1e-9, "x of the weight", x,
                    "within the legs: outside them the stand tips over");
    }
  // Newton's method on the energy of springs that push only; it is convex, so halving the step where needed ends.
  const double k = si(stiffness), w = si(weight);
  const auto energy = [&](const Eigen::Vector3d& u) {
    double sum = -w * load.dot(u);
    for (const Leg& leg : legs) sum += 0.5 * k * std::pow(std::max(0.0, at(leg).dot(u) - si(leg.gap)), 2);
    return sum;
  };
  double widest = 0.0;
  for (const Leg& leg : legs) widest = std::max(widest, si(leg.gap));
  Eigen::Vector3d u(widest + w / k, 0.0, 0.0), rest;
  constexpr int most = 200;
  int step = 0;
  for (;; ++step) {
    Eigen::Matrix3d stiff = 1e-12 * k * Eigen::Matrix3d::Identity();
    rest = w * load;
    for (const Leg& leg : legs) {
      const double pressed = at(leg).dot(u) - si(leg.gap);
      if (pressed <= 0.0) continue;
      rest -= k * pressed * at(leg);
      stiff += k * at(leg) * at(leg).transpose();
    }
    if (rest.norm() <= 1e-9 * w) break;
    if (step == most) throw NotConverged("legs that push only", rest.norm() / w, step);
    const Eigen::Vector3d move = stiff.ldlt().solve(rest);
    double share = 1.0;
    while (share > 1e-6 && energy(u + share * move) > energy(u) - 1e-4 * share * rest.dot(move)) share *= 0.5;
    u += share * move;
  }
  LegForces out{};
  double largest = 0.0;
  for (const Leg& leg : legs) {
    const double f = k * std::max(0.0, at(leg).dot(u) - si(leg.gap));
    largest = std::max(largest, f);
    if (f > 1e-9 * w) ++out.standing;
    out.force.push_back(from_si<Force>(f));
  }
  out.largest = from_si<Force>(largest);
  out.tilt = from_si<Angle>(std::atan(std::hypot(u(1), u(2)) / span));
  return out;
}

std::vector<Leg> rectangle_of_legs(const Length& length, const Length& width, int count) {
  require::positive("length", length);
  require::positive("width", width);
  require::that(count == 4 || count == 6 || count == 8, "number of legs", count, "4, 6 or 8");
  std::vector<Leg> legs;
  const int row = count / 2;
  for (const double side : {-0.5, 0.5})
    for (int i = 0; i < row; ++i)
      legs.push_back({(static_cast<double>(i) / (row - 1) - 0.5) * length, side * width, Length()});
  return legs;
}

PlacedMass centre_of_mass(const std::vector<PlacedMass>& masses) {
  double m = 0.0, x = 0.0, y = 0.0, z = 0.0;
  for (const PlacedMass& p : masses) {
    require::not_negative("mass", p.mass);
    require::finite("x of a mass", p.x);
    require::finite("y of a mass", p.y);
    require::finite("z of a mass", p.z);
    m += si(p.mass);
    x += si(p.mass) * si(p.x);
    y += si(p.mass) * si(p.y);
    z += si(p.mass) * si(p.z);
  }
  require::positive("total mass", from_si<Mass>(m));
  return {from_si<Mass>(m), from_si<Length>(x / m), from_si<Length>(y / m), from_si<Length>(z / m)};
}

}  // namespace theca::structure
