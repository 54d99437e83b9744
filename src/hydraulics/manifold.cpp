#include "theca/hydraulics/manifold.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <string>

#include "pump_curve.hpp"
#include "theca/require.hpp"

namespace theca::hydraulics {

namespace {
using Vector = Eigen::VectorXd;
using Index = Eigen::Index;

constexpr int most_branches = 1000;  // the Jacobian is dense
constexpr int most_newton_steps = 100;

// Energy balances of all branches in SI numbers: losses on the way plus static head, less the pump's head.
class Balance {
 public:
  Balance(const Manifold& manifold, const PumpCurve& pump, double viscosity)
      : manifold_(manifold), pump_(pump), viscosity_(viscosity) {
    for (const Header& h : manifold.headers) branches_ += h.branches;
  }

  Index branches() const { return branches_; }

  Vector residual(const Vector& q) const { return evaluate(q, nullptr); }
  Vector residual(const Vector& q, Eigen::MatrixXd& jacobian) const { return evaluate(q, &jacobian); }

 private:
  kernel::HeadLoss<double> loss(const Pipe& p, double q) const {
    return kernel::head_loss(q, si(p.bore), si(p.length), si(p.roughness), p.minor_loss_K, viscosity_);
  }

  Vector evaluate(const Vector& q, Eigen::MatrixXd* jacobian) const {
    const double total = q.sum();
    const auto main = loss(manifold_.main, total);
    const auto pump = detail::evaluate(pump_, total);
    Vector f = Vector::Constant(branches_, si(manifold_.static_head) + main.loss_m - pump.head_m);
    if (jacobian) jacobian->setConstant(branches_, branches_, main.slope_s_m2 - pump.slope_s_m2);
    Index first = 0;
    for (const Header& h : manifold_.headers) {
      const Index end = first + h.branches;
      double carried = q.segment(first, h.branches).sum();
      f.segment(first, h.branches).array() += si(h.discharge_rise);
      for (Index i = first; i < end; ++i) {
        // The pipe before branch i carries the flows of i and all behind it, and its loss counts for each of them.
        const auto header = loss(i == first ? h.to_first_branch : h.segment, carried);
        const auto branch = loss(h.branch, q[i]);
        const Index behind = end - i;
        f.segment(i, behind).array() += header.loss_m;
        f[i] += branch.loss_m;
        if (jacobian) {
          jacobian->block(i, i, behind, behind).array() += header.slope_s_m2;
          (*jacobian)(i, i) += branch.slope_s_m2;
        }
        carried -= q[i];
      }
      first = end;
    }
    return f;
  }

  const Manifold& manifold_;
  const PumpCurve& pump_;
  double viscosity_;
  Index branches_ = 0;
};

void validate(const Manifold& m, const KinematicViscosity& viscosity) {
  require::positive("kinematic viscosity", viscosity);
  require::finite("static head", m.static_head);
  validate(m.main);
  require::that(!m.headers.empty(), "number of headers", 0.0, "1 or more");
  int branches = 0;
  for (const Header& h : m.headers) {
    require::that(h.branches >= 1 && h.branches <= most_branches - branches, "branches",
                  static_cast<double>(h.branches), "1 or more, and at most 1000 in all headers together");
    branches += h.branches;
    require::finite("discharge rise", h.discharge_rise);
    validate(h.to_first_branch);
    if (h.branches > 1) validate(h.segment);
    validate(h.branch);
    require::that(si(h.branch.length) > 0.0 || h.branch.minor_loss_K > 0.0, "branch length", h.branch.length,
                  "> 0, or a K > 0: branches without any loss leave the share of each open");
  }
}

// Step length along a Newton direction. The slope of the content along it, F.d, rises from its negative start; a length
// is taken where it is still negative or has come down to half its start, which suffices for convergence.
double step_length(const Balance& balance, const Vector& q, const Vector& direction, double slope_at_start) {
  double low = 0.0, high = 1.0, alpha = 1.0;
  for (int halvings = 0; halvings < 60; ++halvings) {
    const double slope = balance.residual(q + alpha * direction).dot(direction);
    if (slope <= 0.5 * std::abs(slope_at_start) && (alpha == 1.0 || slope >= 0.5 * slope_at_start)) return alpha;
    (slope > 0.0 ? high : low) = alpha;
    alpha = 0.5 * (low + high);
  }
  return alpha;
}
}  // namespace

ManifoldFlow solve(const Manifold& manifold, const PumpCurve& pump, const KinematicViscosity& viscosity) {
  validate(pump);
  validate(manifold, viscosity);
  const CurvePoint& first = pump.points.front();
  const CurvePoint& last = pump.points.back();
  const auto lowest =
      std::min_element(manifold.headers.begin(), manifold.headers.end(),
                       [](const Header& a, const Header& b) { return a.discharge_rise < b.discharge_rise; });
  const Length least_head = manifold.static_head + lowest->discharge_rise;
  if (si(first.flow) == 0.0 && !(first.head > least_head))
    throw OutOfValidity("manifold", "the pump gives " + text(first.head) +
                                        " at no flow and cannot reach the static head of its lowest discharge, " +
                                        text(least_head));

  const Balance balance(manifold, pump, si(viscosity));
  const Index n = balance.branches();
  Vector q = Vector::Constant(n, 0.5 * (si(first.flow) + si(last.flow)) / static_cast<double>(n));
  Eigen::MatrixXd jacobian;
  int steps = 0;
  double head_error = 0.0;
  for (bool done = false; !done; ++steps) {
    const Vector f = balance.residual(q, jacobian);
    head_error = f.lpNorm<Eigen::Infinity>();
    if (steps == most_newton_steps) throw NotConverged("manifold", head_error, steps);
    const Vector direction = -jacobian.ldlt().solve(f);
    const double slope = f.dot(direction);
    if (!direction.allFinite() || slope > 0.0) throw NotConverged("manifold", head_error, steps);
    const double change = direction.lpNorm<Eigen::Infinity>();
    const double mean = std::abs(q.sum()) / static_cast<double>(n);
    const double pump_head = std::abs(detail::evaluate(pump, q.sum()).head_m);
    // Close to shut-off the flows are small differences of large heads, and rounding bounds them before 1e-12 is met.
    done = (change <= 1e-12 * mean && head_error <= 1e-10 * pump_head) || head_error <= 1e-14 * pump_head;
    q += (done ? 1.0 : step_length(balance, q, direction, slope)) * direction;
  }

  ManifoldFlow r;
  r.flow = from_si<VolumeFlow>(q.sum());
  if (r.flow > last.flow || r.flow < first.flow)
    throw OutOfValidity("manifold", "the pump curve runs from " + text(first.flow) + " to " + text(last.flow) +
                                        ", and the duty point would lie outside it, near " + text(r.flow));
  r.pump_head = head(pump, r.flow);
  r.junction_head =
      from_si<Length>(si(r.pump_head) - si(manifold.static_head) - si(head_loss(manifold.main, r.flow, viscosity)));
  r.main_velocity = velocity(manifold.main, r.flow);
  r.mean_branch_flow = from_si<VolumeFlow>(q.mean());
  r.head_residual = from_si<Length>(balance.residual(q).lpNorm<Eigen::Infinity>());
  r.iterations = steps;
  Index at = 0;
  for (const Header& h : manifold.headers) {
    HeaderFlow hf;
    double carried = q.segment(at, h.branches).sum();
    hf.flow = from_si<VolumeFlow>(carried);
    for (int b = 0; b < h.branches; ++b, ++at) {
      const Pipe& header = b == 0 ? h.to_first_branch : h.segment;
      const VolumeFlow branch_flow = from_si<VolumeFlow>(q[at]);
      if (q[at] < 0.0)
        throw OutOfValidity("manifold", "the pump cannot feed branch " + std::to_string(b + 1) + " of header " +
                                            std::to_string(r.headers.size() + 1) + ", which discharges " +
                                            text(h.discharge_rise) +
                                            " over the manifold's discharge level: water would run backward in it");
      // head_loss() also refuses a Reynolds number beyond the friction law.
      head_loss(header, from_si<VolumeFlow>(carried), viscosity);
      head_loss(h.branch, branch_flow, viscosity);
      hf.header_velocities.push_back(velocity(header, from_si<VolumeFlow>(carried)));
      hf.branch_flows.push_back(branch_flow);
      hf.branch_velocities.push_back(velocity(h.branch, branch_flow));
      hf.imbalance.push_back(q[at] / q.mean() - 1.0);
      r.largest_imbalance = std::max(r.largest_imbalance, std::abs(hf.imbalance.back()));
      carried -= q[at];
    }
    r.headers.push_back(std::move(hf));
  }
  return r;
}

}  // namespace theca::hydraulics
