// Tees in a network: their losses by the flows of all three legs, and the iteration that settles them.
#include <Eigen/SparseLU>
#include <algorithm>
#include <cmath>
#include <utility>

#include "network_model.hpp"
#include "theca/error.hpp"

namespace theca::hydraulics::detail {

namespace {
// Of the flow past the leg that turns round: where it carries less, the laws of its two directions are joined.
constexpr double joined_branch = 0.01, joined_side = 0.1;
constexpr int round_limit = 200;  // usually 3 to 5
constexpr double shortest_step = 0.02;
constexpr std::size_t branch = 2;

// The published laws, each where it holds.
LegHeads published(const ModelTee& tee, const std::array<double, 3>& in) {
  const TeeUse use = use_of(in);
  if (use.direction == TeeDirection::at_rest) return {};
  LegHeads over{};
  const double combined = std::abs(in[use.combined]);
  const double sign =
      in[use.combined] > 0.0 ? -1.0 : 1.0;  // legs behind the tee have lost head, legs before it not yet
  if (use.combined == branch) {
    const double head = sign * kernel::velocity_head(combined, tee.branch_area);
    for (std::size_t side = 0; side < branch; ++side) {
      const double share = std::min(std::abs(in[side]) / combined, 1.0);
      over[side] = head * (sign < 0.0 ? kernel::dividing_bullhead(share, tee.shape.area_ratio)
                                      : kernel::combining_bullhead(share, tee.shape.area_ratio));
    }
    return over;
  }
  const double share = std::min(std::abs(in[branch]) / combined, 1.0);
  const double cosine = use.combined == 0 ? tee.shape.cosine : 0.0;  // a wye the wrong way: refused, if it stays so
  const auto K = sign < 0.0 ? kernel::dividing_tee(share, tee.shape.area_ratio, cosine)
                            : kernel::combining_tee(share, tee.shape.area_ratio, cosine);
  const double head = sign * kernel::velocity_head(combined, tee.run_area);
  over[1 - use.combined] = head * K.run_K;
  over[branch] = head * K.branch_K;
  return over;
}
}  // namespace

// The largest flow is the combined one, since the other two make it up.
TeeUse use_of(const std::array<double, 3>& in) {
  TeeUse use;
  for (std::size_t leg = 1; leg < 3; ++leg)
    if (std::abs(in[leg]) > std::abs(in[use.combined])) use.combined = leg;
  const bool enters = in[use.combined] > 0.0;
  if (in[use.combined] == 0.0)
    use.direction = TeeDirection::at_rest;
  else if (use.combined == branch)
    use.direction = enters ? TeeDirection::branch_into_both : TeeDirection::both_into_branch;
  else
    use.direction = enters ? TeeDirection::dividing : TeeDirection::combining;
  return use;
}

// Where the least flow turns round, the laws of its two directions do not meet. That of the commoner direction holds
// as far as no flow; a straight line leads from there to the other's.
LegHeads leg_heads(const ModelTee& tee, const std::array<double, 3>& in, double widening) {
  std::size_t least = 0;
  for (std::size_t leg = 1; leg < 3; ++leg)
    if (std::abs(in[leg]) < std::abs(in[least])) least = leg;
  const TeeUse use = use_of(in);
  const bool rare = use.combined == branch || (use.direction == TeeDirection::combining && least == branch);
  const std::size_t a = (least + 1) % 3, b = (least + 2) % 3;
  const double through = 0.5 * (in[a] - in[b]);
  const double joined = widening * (least == branch ? joined_branch * std::abs(through)
                                                    : std::copysign(joined_side * through, -in[branch]));
  if (!rare || !(std::abs(in[least]) < std::abs(joined))) return published(tee, in);
  const auto with = [&](double flow) {
    std::array<double, 3> moved{};
    moved[least] = flow;
    moved[a] = through - 0.5 * flow;
    moved[b] = -through - 0.5 * flow;
    return published(tee, moved);
  };
  LegHeads over = with(-1e-9 * joined);
  const LegHeads end = with(joined);
  for (std::size_t leg = 0; leg < 3; ++leg) over[leg] += in[least] / joined * (end[leg] - over[leg]);
  return over;
}

std::array<double, 3> flows_into(const ModelTee& tee, const std::vector<double>& flow) {
  std::array<double, 3> in{};
  for (std::size_t leg = 0; leg < 3; ++leg) in[leg] = tee.into[leg] * flow[tee.link[leg]];
  return in;
}

// Solves with these leg heads held. The largest difference from those that the flows found ask for.
double TeeSolver::round(Model& model, GradientSolver& solver, const std::vector<LegHeads>& held) {
  for (ModelLink& link : model.links) link.tee_head = 0.0;
  for (std::size_t t = 0; t < held.size(); ++t)
    for (std::size_t leg = 0; leg < 3; ++leg)
      model.links[model.tees[t].link[leg]].tee_head += model.tees[t].into[leg] * held[t][leg];
  outcome_ = solver.solve(model);
  iterations_ += outcome_.iterations;
  status_rounds_ += outcome_.rounds;
  ++rounds_;
  double largest = 0.0;
  found_.resize(held.size());
  for (std::size_t t = 0; t < held.size(); ++t) {
    found_[t] = leg_heads(model.tees[t], flows_into(model.tees[t], solver.flow), widening_);
    for (std::size_t leg = 0; leg < 3; ++leg) largest = std::max(largest, std::abs(found_[t][leg] - held[t][leg]));
  }
  return largest;
}

namespace {
// Derivatives of the leg heads by the flows of run and branch, the onward run making up for both.
constexpr std::array<std::size_t, 2> free_legs{0, branch};
using TeeSlopes = std::array<LegHeads, 2>;

TeeSlopes slopes(const ModelTee& tee, const std::array<double, 3>& in, double widening) {
  TeeSlopes result{};
  const double step = 1e-6 * std::abs(in[use_of(in).combined]);
  if (step == 0.0) return result;
  for (std::size_t by = 0; by < 2; ++by) {
    std::array<double, 3> up = in, down = in;
    up[free_legs[by]] += step, up[1] -= step;
    down[free_legs[by]] -= step, down[1] += step;
    const LegHeads above = leg_heads(tee, up, widening), below = leg_heads(tee, down, widening);
    for (std::size_t leg = 0; leg < 3; ++leg) result[by][leg] = (above[leg] - below[leg]) / (2.0 * step);
  }
  return result;
}

// Energy balances of the links, then mass balances of the junctions, for changes of flows and heads; without tees.
using Entries = std::vector<Eigen::Triplet<double, int>>;
Entries straight_laws(const Model& model, const GradientSolver& solver, int& rows) {
  const double least = slope_floor * solver.head_scale() / std::max(solver.flow_scale(), smallest_flow);
  Entries entries;
  rows = static_cast<int>(model.links.size());
  std::vector<int> row(model.fixed.size(), -1);
  for (std::size_t v = 0; v < row.size(); ++v)
    if (!model.fixed[v]) row[v] = rows++;
  for (std::size_t i = 0; i < model.links.size(); ++i) {
    const ModelLink& link = model.links[i];
    const int own = static_cast<int>(i);
    const bool stands =
        link.passage == Passage::shut || (link.passage == Passage::forward_only && solver.flow[i] == 0.0);
    entries.emplace_back(own, own, stands ? backflow_resistance : std::max(least, loss(link, solver.flow[i]).slope));
    for (const auto& [node, sign] : {std::pair(link.from, -1.0), std::pair(link.to, 1.0)}) {
      if (row[node] < 0) continue;
      entries.emplace_back(own, row[node], sign);
      entries.emplace_back(row[node], own, sign);
    }
  }
  return entries;
}
}  // namespace

// To the leg heads that would fit if all laws were straight lines at the flows found.
std::vector<LegHeads> TeeSolver::newton_step(const Model& model, const GradientSolver& solver) const {
  int rows = 0;
  Entries entries = straight_laws(model, solver, rows);
  Eigen::VectorXd right = Eigen::VectorXd::Zero(rows);
  std::vector<TeeSlopes> slope;
  for (std::size_t t = 0; t < model.tees.size(); ++t) {
    const ModelTee& tee = model.tees[t];
    slope.push_back(slopes(tee, flows_into(tee, solver.flow), widening_));
    for (std::size_t leg = 0; leg < 3; ++leg) {
      const int own = static_cast<int>(tee.link[leg]);
      right[own] -= tee.into[leg] * (found_[t][leg] - held_[t][leg]);
      for (std::size_t by = 0; by < 2; ++by)
        entries.emplace_back(own, static_cast<int>(tee.link[free_legs[by]]),
                             tee.into[leg] * slope[t][by][leg] * tee.into[free_legs[by]]);
    }
  }
  Eigen::SparseMatrix<double> matrix(rows, rows);
  matrix.setFromTriplets(entries.begin(), entries.end());
  const Eigen::SparseLU<Eigen::SparseMatrix<double>> factor(matrix);
  Eigen::VectorXd change = Eigen::VectorXd::Zero(rows);
  if (factor.info() == Eigen::Success) change = factor.solve(right);
  if (!change.allFinite()) change.setZero();  // the heads found are then held next
  std::vector<LegHeads> step(held_.size());
  for (std::size_t t = 0; t < step.size(); ++t)
    for (std::size_t leg = 0; leg < 3; ++leg) {
      step[t][leg] = found_[t][leg] - held_[t][leg];
      for (std::size_t by = 0; by < 2; ++by)
        step[t][leg] += slope[t][by][leg] * model.tees[t].into[free_legs[by]] *
                        change[static_cast<Eigen::Index>(model.tees[t].link[free_legs[by]])];
    }
  return step;
}

void TeeSolver::iterate(Model& model, GradientSolver& solver) {
  double error = round(model, solver, held_);
  // A third, since a pipe may have a tee at either end.
  while (error > head_tolerance / 3.0 * solver.head_scale() + smallest_head) {
    const std::vector<LegHeads> step = newton_step(model, solver);
    std::vector<LegHeads> trial = held_;
    double trial_error = 0.0;
    // The difference has kinks where two laws meet, and may be least at one, with the solution elsewhere: where no
    // shorter step helps, the whole one is taken: solved a second time, which is seldom and starts close.
    for (double t = 1.0;; t *= 0.5) {
      if (rounds_ >= round_limit) throw NotConverged("network: losses of the tees", error, rounds_);
      const bool leap = t < shortest_step;
      for (std::size_t i = 0; i < trial.size(); ++i)
        for (std::size_t leg = 0; leg < 3; ++leg) trial[i][leg] = held_[i][leg] + (leap ? 1.0 : t) * step[i][leg];
      trial_error = round(model, solver, trial);
      if (leap || trial_error < (1.0 - 0.1 * t) * error) break;
    }
    held_ = trial;
    error = trial_error;
  }
  outcome_.energy_residual += 2.0 * error;  // a pipe may have a tee at either end
}

// A line that leads steeply from one law to another can throw Newton's steps from side to side. Wider, it does not:
// the solution with wide lines leads to that with the right ones.
void TeeSolver::narrow_down(Model& model, GradientSolver& solver) {
  held_.assign(model.tees.size(), LegHeads{});
  for (const double widening : {10.0, 7.0, 5.0, 3.5, 2.5, 1.8, 1.4, 1.2, 1.1, 1.0}) {
    widening_ = widening;
    rounds_ = 0;
    iterate(model, solver);
  }
}

GradientSolver::Outcome TeeSolver::solve(Model& model, GradientSolver& solver) {
  rounds_ = iterations_ = status_rounds_ = 0;
  if (model.tees.empty()) return solver.solve(model);
  const bool warm = held_.size() == model.tees.size();
  widening_ = 1.0;
  try {
    if (!warm) held_.assign(model.tees.size(), LegHeads{});
    iterate(model, solver);
  } catch (const NotConverged&) {
    held_.clear();
    if (warm) return solve(model, solver);
    narrow_down(model, solver);
  }
  outcome_.iterations = iterations_;
  outcome_.rounds = status_rounds_;
  return outcome_;
}

}  // namespace theca::hydraulics::detail
