#include "theca/hydraulics/tee.hpp"

#include <algorithm>
#include <cmath>

#include "tee_shape.hpp"
#include "theca/hydraulics/friction.hpp"
#include "theca/require.hpp"

namespace theca::hydraulics {

namespace detail {

TeeShape shape(const Tee& tee) {
  require::positive("run bore", tee.run_bore);
  require::positive("branch bore", tee.branch_bore);
  require::finite("angle", tee.angle);
  const double beta = si(tee.branch_bore) / si(tee.run_bore);
  const double slack = 1e-12;  // squares of bores and radians come rounded
  require::valid("tee", "branch area over run area", beta * beta, 0.01 - slack, 1.0 + slack);
  const double angle = in(tee.angle, units::degree);
  if (std::abs(angle - 90.0) < 1e-7) return {beta * beta, 0.0};
  if (!(angle >= 30.0 - 1e-10 && angle <= 60.0 + 1e-10))
    throw OutOfValidity("tee", "angle = " + number(angle) + " deg, known for 90 deg and from 30 to 60 deg");
  return {beta * beta, std::cos(si(tee.angle))};
}

}  // namespace detail

namespace {
TeeLoss with_uncertainty(const kernel::TeeLoss<double>& K) {
  const auto half_width = [](double k) { return 0.2 * std::max(1.0, std::abs(k)); };
  return {K.run_K, K.branch_K, half_width(K.run_K), half_width(K.branch_K)};
}

// Branch of a dividing tee of 90 degrees by Crane TP-410 (2009), table of G and H.
double crane_branch(double share, double area_ratio) {
  const double v = share / area_ratio;
  const bool narrow = area_ratio <= 4.0 / 9.0;  // bores to 2/3
  return narrow ? 1.0 + v * v : (1.0 + 0.3 * share * share) * (1.0 + 0.3 * v * v);
}

detail::TeeShape bullhead_shape(const Tee& tee) {
  const detail::TeeShape shape = detail::shape(tee);
  if (shape.cosine != 0.0)
    throw OutOfValidity("tee", "angle = " + number(in(tee.angle, units::degree)) +
                                   " deg, known for 90 deg where the branch carries the combined flow");
  return shape;
}

using Rule = TeeLoss (*)(const Tee&, double);

TeeHeadLoss head_loss(Rule rule, const Tee& tee, const VolumeFlow& run_flow, const VolumeFlow& branch_flow) {
  require::not_negative("run flow", run_flow);
  require::not_negative("branch flow", branch_flow);
  const double combined = si(run_flow) + si(branch_flow);
  const TeeLoss K = rule(tee, combined > 0.0 ? si(branch_flow) / combined : 0.0);
  const double velocity_head = kernel::velocity_head(combined, kernel::bore_area(si(tee.run_bore)));
  return {from_si<Length>(K.run_K * velocity_head), from_si<Length>(K.branch_K * velocity_head)};
}
}  // namespace

TeeLoss dividing_tee(const Tee& tee, double branch_share) {
  const auto [area_ratio, cosine] = detail::shape(tee);
  require::within("branch share", branch_share, 0.0, 1.0);
  TeeLoss K = with_uncertainty(kernel::dividing_tee(branch_share, area_ratio, cosine));
  if (cosine == 0.0)
    K.branch_uncertainty =
        std::max(K.branch_uncertainty, std::abs(crane_branch(branch_share, area_ratio) - K.branch_K));
  return K;
}

TeeLoss combining_tee(const Tee& tee, double branch_share) {
  const auto [area_ratio, cosine] = detail::shape(tee);
  require::within("branch share", branch_share, 0.0, 1.0);
  return with_uncertainty(kernel::combining_tee(branch_share, area_ratio, cosine));
}

double dividing_bullhead_K(const Tee& tee, double side_share) {
  const double area_ratio = bullhead_shape(tee).area_ratio;
  require::within("side share", side_share, 0.0, 1.0);
  return kernel::dividing_bullhead(side_share, area_ratio);
}

double combining_bullhead_K(const Tee& tee, double side_share) {
  const double area_ratio = bullhead_shape(tee).area_ratio;
  require::within("side share", side_share, 0.0, 1.0);
  return kernel::combining_bullhead(side_share, area_ratio);
}

TeeHeadLoss dividing_tee_head_loss(const Tee& tee, const VolumeFlow& run_flow, const VolumeFlow& branch_flow) {
  return head_loss(&dividing_tee, tee, run_flow, branch_flow);
}

TeeHeadLoss combining_tee_head_loss(const Tee& tee, const VolumeFlow& run_flow, const VolumeFlow& branch_flow) {
  return head_loss(&combining_tee, tee, run_flow, branch_flow);
}

}  // namespace theca::hydraulics
