#include "theca/hydraulics/tee.hpp"

#include <algorithm>
#include <cmath>

#include "theca/require.hpp"

namespace theca::hydraulics {

namespace {
constexpr double degree = 0.017453292519943295769;

struct Shape {
  double area_ratio;
  double cosine;
};

Shape shape(const Tee& tee) {
  require::positive("run bore", tee.run_bore);
  require::positive("branch bore", tee.branch_bore);
  require::finite("angle", tee.angle);
  const double beta = si(tee.branch_bore) / si(tee.run_bore);
  require::valid("tee", "branch area over run area", beta * beta, 0.1, 1.0 + 1e-12);
  const double angle = si(tee.angle);
  if (std::abs(angle - 90.0 * degree) < 1e-9) return {beta * beta, 0.0};
  const double slack = 1e-12;  // 30 and 60 degrees come as rounded radians
  if (!(angle >= 30.0 * degree - slack && angle <= 60.0 * degree + slack))
    throw OutOfValidity("tee", "angle " + text(tee.angle) + ", known for 90 degrees and from 30 to 60 degrees");
  return {beta * beta, std::cos(angle)};
}

TeeLoss with_uncertainty(const kernel::TeeLoss<double>& K) {
  const auto half_width = [](double k) { return 0.2 * std::max(1.0, std::abs(k)); };
  return {K.run_K, K.branch_K, half_width(K.run_K), half_width(K.branch_K)};
}

using Rule = TeeLoss (*)(const Tee&, double);

TeeHeadLoss head_loss(Rule rule, const Tee& tee, const VolumeFlow& run_flow, const VolumeFlow& branch_flow) {
  require::not_negative("run flow", run_flow);
  require::not_negative("branch flow", branch_flow);
  const double combined = si(run_flow) + si(branch_flow);
  const TeeLoss K = rule(tee, combined > 0.0 ? si(branch_flow) / combined : 0.0);
  const double v = combined / (0.78539816339744830962 * si(tee.run_bore) * si(tee.run_bore));
  const double velocity_head = v * v / (2.0 * units::detail::standard_gravity);
  return {from_si<Length>(K.run_K * velocity_head), from_si<Length>(K.branch_K * velocity_head)};
}
}  // namespace

TeeLoss dividing_tee(const Tee& tee, double branch_share) {
  const auto [area_ratio, cosine] = shape(tee);
  require::within("branch share", branch_share, 0.0, 1.0);
  return with_uncertainty(kernel::dividing_tee(branch_share, area_ratio, cosine));
}

TeeLoss combining_tee(const Tee& tee, double branch_share) {
  const auto [area_ratio, cosine] = shape(tee);
  require::within("branch share", branch_share, 0.0, 1.0);
  return with_uncertainty(kernel::combining_tee(branch_share, area_ratio, cosine));
}

TeeHeadLoss dividing_tee_head_loss(const Tee& tee, const VolumeFlow& run_flow, const VolumeFlow& branch_flow) {
  return head_loss(&dividing_tee, tee, run_flow, branch_flow);
}

TeeHeadLoss combining_tee_head_loss(const Tee& tee, const VolumeFlow& run_flow, const VolumeFlow& branch_flow) {
  return head_loss(&combining_tee, tee, run_flow, branch_flow);
}

}  // namespace theca::hydraulics
