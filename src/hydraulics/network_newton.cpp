#include <algorithm>
#include <cmath>
#include <cstdint>
#include <unordered_map>

#include "network_model.hpp"
#include "pump_curve.hpp"
#include "theca/error.hpp"
#include "theca/hydraulics/friction.hpp"

namespace theca::hydraulics::detail {

namespace {
constexpr double flow_tolerance = 1e-10;  // of the largest flow
constexpr double loose_tolerance = 0.02;  // of the largest flow: good enough to see which check valves are shut
constexpr int step_limit = 300;           // steps of one state of the check valves; usually 5 to 15

Loss pump_loss(const ModelLink& link, double flow) {
  const auto& points = link.curve->points;
  const double n = link.speed, first = si(points.front().flow), last = si(points.back().flow);
  const double q = std::clamp(flow / n, first, last);
  const CurveValue value = evaluate(*link.curve, q);
  double slope = value.slope_s_m2, head = value.head_m;
  if (flow / n != q) {
    // Beyond the curve an answer is refused; iterates need a law that falls there even where the curve ends level.
    slope = std::min(slope, (si(points.back().head) - si(points.front().head)) / (last - first));
    head += slope * (flow / n - q);
  }
  return {-n * n * head, -n * slope};
}

double typical_flow(const ModelLink& link) {
  return 0.5 * kernel::bore_area(link.shape.bore);
}  // half a metre a second

// Which nodes hang together; all fixed heads count as one node.
class Parts {
 public:
  explicit Parts(const Model& model) : root_(model.fixed.size() + 1) {
    for (std::size_t v = 0; v < root_.size(); ++v) root_[v] = v;
    for (std::size_t v = 0; v < model.fixed.size(); ++v)
      if (model.fixed[v]) root_[v] = model.fixed.size();
  }
  /// False when they hung together already.
  bool join(std::size_t v, std::size_t w) {
    const std::size_t a = find(v), b = find(w);
    root_[a] = b;
    return a != b;
  }

 private:
  std::size_t find(std::size_t v) {
    while (root_[v] != v) v = root_[v] = root_[root_[v]];
    return v;
  }
  std::vector<std::size_t> root_;
};
}  // namespace

Loss loss(const ModelLink& link, double flow, double* nearby) {
  switch (link.kind) {
    case LinkKind::pipe: {
      const auto h = link.law(flow, nearby);
      return {h.loss_m, h.slope_s_m2};
    }
    case LinkKind::valve: {
      const double per_flow = link.law.local_s2_m5 * std::abs(flow);
      return {per_flow * flow, 2.0 * per_flow};
    }
    case LinkKind::pump:
      return pump_loss(link, flow);
  }
  return {};
}

inline double GradientSolver::penalised(std::size_t i, double at, const Model& model, double& slope) {
  const ModelLink& link = model.links[i];
  if (stiff_backward_ && at < 0.0 && link.passage == Passage::forward_only) {
    slope = backflow_resistance;
    return backflow_resistance * at + link.tee_head;
  }
  const Loss h = loss(link, at, &nearby_[i]);
  slope = h.slope;
  return h.head + link.tee_head;
}

GradientSolver::GradientSolver(const Model& model) {
  const std::size_t nodes = model.fixed.size(), links = model.links.size();
  for (std::size_t v = 0; v < nodes; ++v)
    if (!model.fixed[v]) junctions_.push_back(v);
  flow.assign(links, 0.0);
  for (auto* of_nodes : {&head, &fixed_head_, &diagonal_, &rhs_, &mass_}) of_nodes->assign(nodes, 0.0);
  for (auto* of_links : {&loss_, &slope_, &step_, &drop_, &trial_, &nearby_, &last_tee_head_})
    of_links->assign(links, 0.0);
  for (auto* of_links : {&always_shut_, &wanted_, &before_, &shut_, &bridge_}) of_links->assign(links, 0);
  for (std::size_t i = 0; i < links; ++i) {
    always_shut_[i] = model.links[i].passage == Passage::shut;
    has_one_way_ = has_one_way_ || model.links[i].passage == Passage::forward_only;
  }
  eliminate_order(model);
}

void GradientSolver::eliminate_order(const Model& model) {
  const std::size_t n = model.fixed.size();
  std::unordered_map<std::uint64_t, std::size_t> known;
  known.reserve(model.links.size());
  ends_.reserve(model.links.size());
  for (const ModelLink& link : model.links) {
    ends_.push_back({link.from, link.to, none});
    if (model.fixed[link.from] || model.fixed[link.to] || link.passage == Passage::shut) continue;
    const auto [a, b] = std::minmax(link.from, link.to);
    const auto [place, fresh] = known.try_emplace(static_cast<std::uint64_t>(a) * n + b, pairs_.size());
    if (fresh) pairs_.push_back({a, b});
    ends_.back().pair = place->second;
  }
  for (Ends& ends : ends_) ends.pair = std::min(ends.pair, pairs_.size());
  // Pairs at each junction, packed one after another.
  std::vector<std::size_t> begin(n + 1, 0), at_junction(2 * pairs_.size()), degree(n, 0);
  for (const Pair& p : pairs_) ++degree[p.a], ++degree[p.b];
  for (std::size_t v = 0; v < n; ++v) begin[v + 1] = begin[v] + degree[v];
  std::vector<std::size_t> fill(begin.begin(), begin.end() - 1);
  for (std::size_t p = 0; p < pairs_.size(); ++p) {
    at_junction[fill[pairs_[p].a]++] = p;
    at_junction[fill[pairs_[p].b]++] = p;
  }
  std::vector<bool> gone(n, false);
  for (const std::size_t j : junctions_)
    if (degree[j] <= 1) order_.push_back({j, none, none});
  for (std::size_t k = 0; k < order_.size(); ++k) {
    const std::size_t j = order_[k].junction;
    gone[j] = true;
    std::size_t parent = none;
    for (std::size_t s = begin[j]; s < begin[j + 1]; ++s) {
      const Pair& p = pairs_[at_junction[s]];
      const std::size_t other = p.a == j ? p.b : p.a;
      if (gone[other]) continue;
      parent = order_[k].parent = other;
      order_[k].pair = at_junction[s];
    }
    if (parent != none && degree[parent]-- == 2) order_.push_back({parent, none, none});
  }
  core_.assign(n, none);
  for (const std::size_t j : junctions_) {
    if (gone[j]) continue;
    core_[j] = core_junction_.size();
    core_junction_.push_back(j);
  }
  conductance_.assign(pairs_.size() + 1, 0.0);
  slot_of_pair_.assign(pairs_.size(), -1);
  if (core_junction_.empty()) return;
  const auto rows = static_cast<Eigen::Index>(core_junction_.size());
  std::vector<Eigen::Triplet<double, int>> entries;
  entries.reserve(core_junction_.size() + pairs_.size());
  for (int r = 0; r < static_cast<int>(rows); ++r) entries.emplace_back(r, r, 1.0);
  const auto row_of = [this](std::size_t j) { return static_cast<int>(core_[j]); };
  for (const Pair& p : pairs_)
    if (core_[p.a] != none && core_[p.b] != none) entries.emplace_back(row_of(p.b), row_of(p.a), -1.0);
  matrix_.resize(rows, rows);
  matrix_.setFromTriplets(entries.begin(), entries.end());  // core numbers rise with node numbers: lower triangle
  const auto slot = [this](int row, int column) {
    const int* first = matrix_.innerIndexPtr() + matrix_.outerIndexPtr()[column];
    const int* last = matrix_.innerIndexPtr() + matrix_.outerIndexPtr()[column + 1];
    return static_cast<Eigen::Index>(std::lower_bound(first, last, row) - matrix_.innerIndexPtr());
  };
  for (int r = 0; r < static_cast<int>(rows); ++r) slot_of_diagonal_.push_back(slot(r, r));
  for (std::size_t p = 0; p < pairs_.size(); ++p)
    if (core_[pairs_[p].a] != none && core_[pairs_[p].b] != none)
      slot_of_pair_[p] = slot(row_of(pairs_[p].b), row_of(pairs_[p].a));
  factor_.analyzePattern(matrix_);
  right_.resize(rows);
}

GradientSolver::Seen GradientSolver::evaluate(const Model& model, const std::vector<double>& at) {
  Seen seen;
  for (const std::size_t i : live_) {
    const double lost = loss_[i] = penalised(i, at[i], model, slope_[i]), error = lost - drop_[i];
    seen.slope_along_step += step_[i] * error;
    seen.energy_error = std::max(seen.energy_error, std::abs(error));
    seen.largest_flow = std::max(seen.largest_flow, std::abs(at[i]));
    seen.largest_loss = std::max(seen.largest_loss, std::abs(lost));
  }
  return seen;
}

// Heads of the junctions for the linear laws loss + slope (new flow - flow), so that the new flows keep mass balance.
void GradientSolver::solve_heads(const Model& model) {
  std::fill(diagonal_.begin(), diagonal_.end(), 0.0);
  std::fill(conductance_.begin(), conductance_.end(), 0.0);
  for (std::size_t v = 0; v < rhs_.size(); ++v) rhs_[v] = -model.demand[v];
  // Fixed nodes get sums too, which nobody looks at, so that no link needs to ask what its ends are.
  for (const std::size_t i : live_) {
    const Ends& ends = ends_[i];
    const double g = 1.0 / slope_[i], source = flow[i] - g * loss_[i];
    diagonal_[ends.from] += g;
    diagonal_[ends.to] += g;
    rhs_[ends.from] += g * fixed_head_[ends.to] - source;
    rhs_[ends.to] += g * fixed_head_[ends.from] + source;
    conductance_[ends.pair] += g;
  }
  for (const Elimination& e : order_) {
    const double per_diagonal = diagonal_[e.junction] = 1.0 / diagonal_[e.junction];
    if (e.parent == none) continue;
    const double g = conductance_[e.pair], ratio = g * per_diagonal;
    diagonal_[e.parent] -= g * ratio;
    rhs_[e.parent] += ratio * rhs_[e.junction];
  }
  if (!core_junction_.empty()) {
    double* values = matrix_.valuePtr();
    for (std::size_t r = 0; r < core_junction_.size(); ++r) {
      values[slot_of_diagonal_[r]] = diagonal_[core_junction_[r]];
      right_[static_cast<Eigen::Index>(r)] = rhs_[core_junction_[r]];
    }
    for (std::size_t p = 0; p < pairs_.size(); ++p)
      if (slot_of_pair_[p] >= 0) values[slot_of_pair_[p]] = -conductance_[p];
    factor_.factorize(matrix_);
    if (factor_.info() != Eigen::Success) throw NotConverged("network: factorisation", energy_residual_, iterations_);
    solution_ = factor_.solve(right_);
    for (std::size_t r = 0; r < core_junction_.size(); ++r)
      head[core_junction_[r]] = solution_[static_cast<Eigen::Index>(r)];
  }
  for (std::size_t k = order_.size(); k-- > 0;) {
    const Elimination& e = order_[k];
    double sum = rhs_[e.junction];
    if (e.parent != none) sum += conductance_[e.pair] * head[e.parent];
    head[e.junction] = sum * diagonal_[e.junction];  // which is turned over by now
  }
}

// Linear laws of the right size: a pipe as at its typical flow, a pump about the middle of its curve.
void GradientSolver::start(const Model& model) {
  shut_ = always_shut_;
  list_live();
  for (const std::size_t i : live_) {
    const ModelLink& link = model.links[i];
    if (link.kind == LinkKind::pump) {
      flow[i] = 0.5 * link.speed * (si(link.curve->points.front().flow) + si(link.curve->points.back().flow));
      const Loss h = loss(link, flow[i]);
      loss_[i] = h.head;
      slope_[i] = h.slope;
    } else {
      const double q = typical_flow(link);
      flow[i] = 0.0;
      loss_[i] = link.tee_head;
      slope_[i] = loss(link, q).head / q;
    }
  }
}

// Laws at the flows of the last solution; most are still known from it.
void GradientSolver::start_from_last(const Model& model) {
  for (const std::size_t i : live_) {
    const ModelLink& link = model.links[i];
    if (link.changed)
      loss_[i] = penalised(i, flow[i], model, slope_[i]);
    else
      loss_[i] += link.tee_head - last_tee_head_[i];
  }
}

// A check valve at rest has no slope to go by: the linear law to where it would carry off the head behind it.
void GradientSolver::open(std::size_t i, const Model& model) {
  const ModelLink& link = model.links[i];
  const double q = typical_flow(link), drop = std::max(0.0, head[link.from] - head[link.to] - link.tee_head);
  flow[i] = 0.0;
  loss_[i] = link.tee_head;
  slope_[i] = std::sqrt(drop * loss(link, q).head) / q;
}

// A law may be level (a valve at rest); a floor keeps the matrix definite and only shortens the step.
double GradientSolver::raise_slopes(double share_of_scale) {
  double stiffest = 0.0;
  for (const std::size_t i : live_) stiffest = std::max(stiffest, slope_[i]);
  const double floor = std::max(
      1e-13 * stiffest, share_of_scale * std::max(head_scale_, smallest_head) / std::max(flow_scale_, smallest_flow));
  for (const std::size_t i : live_) slope_[i] = std::max(slope_[i], floor);
  return floor;
}

// No flow would change by more in the step after this one. With the slopes as masses, that step is a projection of
// error / slope, and no longer than it.
double GradientSolver::next_step_at_most(double floor) const {
  double sum = 0.0, softest = backflow_resistance;
  for (const std::size_t i : live_) {
    const double slope = std::max(slope_[i], floor), error = loss_[i] - drop_[i];
    sum += error * error / slope;
    softest = std::min(softest, slope);
  }
  return std::sqrt(sum / softest);
}

// From the flows, losses and slopes that stand there; leaves them as they are at the answer.
// True when the answer is so close that the closest tolerance would find no more.
bool GradientSolver::newton(const Model& model, double tolerance) {
  const bool loosely = tolerance > flow_tolerance;
  trial_ = flow;      // what is shut stays as it is
  bool whole = true;  // the first step restores mass balance and is not shortened
  for (int k = 0; k < step_limit; ++k) {
    ++iterations_;
    // With the lower floor a rare one steps for ever from rounding to rounding.
    const double floor = raise_slopes(k < 30 ? slope_floor : 1e-5);
    solve_heads(model);
    double largest_step = 0.0, largest_drop = 0.0, highest = 0.0, slope_before = 0.0;
    for (const std::size_t i : live_) {
      const double to = head[ends_[i].to], drop = drop_[i] = head[ends_[i].from] - to;
      const double error = loss_[i] - drop, step = step_[i] = -error / slope_[i];
      trial_[i] = flow[i] + step;
      largest_step = std::max(largest_step, std::abs(step));
      largest_drop = std::max(largest_drop, std::abs(drop));
      highest = std::max(highest, std::abs(to));
      slope_before += step * error;
    }
    if (!std::isfinite(slope_before)) break;  // no step to take: not converged
    Seen seen = evaluate(model, trial_);
    double t = 1.0;
    const bool tiny =
        largest_step <= flow_tolerance * flow_scale_ + smallest_flow;  // what is left is rounding, no slope to trust
    const double allowed = -0.1 * slope_before;
    if (!whole && !tiny && seen.slope_along_step > allowed) {
      // The slope rises along the step; a point where a tenth of it is left is as good as the minimum.
      double low = 0.0, high = 1.0, low_slope = slope_before, high_slope = seen.slope_along_step;
      for (int search = 0; search < 60 && std::abs(seen.slope_along_step) > allowed; ++search) {
        const double secant = low - low_slope * (high - low) / (high_slope - low_slope);
        t = search % 2 == 0 ? std::clamp(secant, low + 0.05 * (high - low), high - 0.05 * (high - low))
                            : 0.5 * (low + high);
        for (const std::size_t i : live_) trial_[i] = flow[i] + t * step_[i];
        seen = evaluate(model, trial_);
        (seen.slope_along_step > 0.0 ? high : low) = t;
        (seen.slope_along_step > 0.0 ? high_slope : low_slope) = seen.slope_along_step;
      }
    }
    flow.swap(trial_);
    whole = false;
    flow_scale_ = seen.largest_flow;
    head_scale_ = std::max(seen.largest_loss, largest_drop);
    energy_residual_ = seen.energy_error;
    if (!std::isfinite(flow_scale_) || !std::isfinite(head_scale_)) break;
    if (t < 1.0) continue;
    // A valve all but at rest has next to no slope, and its step is rounding of the heads for ever.
    if (energy_residual_ <= 1e-14 * std::max(head_scale_, highest)) return true;
    const bool balanced = energy_residual_ <= head_tolerance * head_scale_ + smallest_head;
    if (energy_residual_ <= 0.1 * head_tolerance * head_scale_ &&
        next_step_at_most(floor) <= flow_tolerance * flow_scale_ + smallest_flow)
      return true;
    if ((loosely || balanced) && largest_step <= tolerance * flow_scale_ + smallest_flow) return false;
  }
  throw NotConverged("network: Newton's method", energy_residual_, iterations_);
}

void GradientSolver::list_live() {
  live_.clear();
  for (std::size_t i = 0; i < shut_.size(); ++i)
    if (!shut_[i]) live_.push_back(i);
}

// Junctions that shut check valves cut off from every fixed head need one of them as reference; it carries what the
// part takes, which is nothing unless the part cannot be supplied.
void GradientSolver::bridge_floating_parts(const Model& model) {
  std::fill(bridge_.begin(), bridge_.end(), 0);
  if (live_.size() == shut_.size()) return;
  Parts parts(model);
  for (const std::size_t i : live_) parts.join(ends_[i].from, ends_[i].to);
  for (std::size_t i = 0; i < flow.size(); ++i)
    if (shut_[i] && !always_shut_[i]) bridge_[i] = parts.join(ends_[i].from, ends_[i].to);
  for (std::size_t i = 0; i < flow.size(); ++i)
    if (bridge_[i]) shut_[i] = 0;
  list_live();
}

// Solves with the wanted check valves shut and the others as open pipes, opens those pressed open and shuts those with
// backflow until none is left; first loosely, then exactly. All are changed at once; when a state comes back, one at a
// time. The rounds it took.
int GradientSolver::settle_check_valves(const Model& model, int most_rounds) {
  std::vector<Flags> tried;
  bool one_by_one = false, loosely = has_one_way_;
  before_ = wanted_;
  const auto changed = [&] {
    if (!change_check_valves(model, one_by_one)) return false;
    tried.push_back(before_);
    one_by_one = one_by_one || std::find(tried.begin(), tried.end(), wanted_) != tried.end();
    return true;
  };
  for (int rounds = 1; rounds <= most_rounds; ++rounds) {
    shut_ = wanted_;
    list_live();
    bridge_floating_parts(model);
    for (std::size_t i = 0; i < flow.size(); ++i) {
      if (shut_[i]) flow[i] = 0.0;
      if (bridge_[i] || (before_[i] && !shut_[i])) open(i, model);
    }
    before_ = wanted_;
    const bool exact = newton(model, loosely ? loose_tolerance : flow_tolerance);
    if (changed()) continue;
    if (!loosely || exact) return rounds;
    loosely = false;
    newton(model, flow_tolerance);
    if (!changed()) return rounds;
  }
  throw NotConverged("network: state of the check valves", energy_residual_, iterations_);
}

// Of those wanted; false when all hold.
bool GradientSolver::change_check_valves(const Model& model, bool only_one) {
  if (!has_one_way_) return false;
  bool changed = false;
  for (std::size_t i = 0; i < flow.size(); ++i) {
    const ModelLink& link = model.links[i];
    if (link.passage != Passage::forward_only || bridge_[i]) continue;
    const bool pressed_open =
        shut_[i] && head[link.from] - head[link.to] - link.tee_head > head_tolerance * head_scale_ + smallest_head;
    if (!pressed_open && !(!shut_[i] && flow[i] < -smallest_flow)) continue;
    wanted_[i] = !shut_[i];
    changed = true;
    if (only_one) break;
  }
  return changed;
}

bool GradientSolver::has_backflow(const Model& model) const {
  for (std::size_t i = 0; has_one_way_ && i < flow.size(); ++i)
    if (model.links[i].passage == Passage::forward_only && flow[i] < -flow_tolerance * flow_scale_ - smallest_flow)
      return true;
  return false;
}

GradientSolver::Outcome GradientSolver::solve(Model& model) {
  iterations_ = 0;
  const bool warm = warm_ && flow_scale_ > smallest_flow;  // a network found at rest tells nothing of the scale to come
  warm_ = false;                                           // until this solution stands
  Outcome outcome;
  // Over one of the fixed heads, so that rounding is that of differences and water at rest has none.
  const auto first_fixed = std::find(model.fixed.begin(), model.fixed.end(), true) - model.fixed.begin();
  const double datum = model.level[static_cast<std::size_t>(first_fixed)];
  for (std::size_t v = 0; v < head.size(); ++v) {
    if (model.fixed[v]) fixed_head_[v] = model.level[v] - datum;
    head[v] = model.fixed[v] ? fixed_head_[v] : head[v] - datum;
  }
  const auto shut_besides = [&](auto&& shut) {
    wanted_ = always_shut_;
    for (std::size_t i = 0; has_one_way_ && i < flow.size(); ++i)
      if (model.links[i].passage == Passage::forward_only && shut(i)) wanted_[i] = 1;
  };
  bool settled = false;
  stiff_backward_ = false;
  try {
    if (warm) {
      start_from_last(model);
      shut_besides([&](std::size_t i) { return flow[i] == 0.0; });
    } else {
      start(model);
      wanted_ = always_shut_;
    }
    outcome.rounds = settle_check_valves(model, 20);
    settled = !has_backflow(model);
  } catch (const NotConverged&) {
  }
  if (!settled) {
    std::fill(bridge_.begin(), bridge_.end(), 0);
    start(model);
    stiff_backward_ = true;
    newton(model, flow_tolerance);
    stiff_backward_ = false;
    ++outcome.rounds;
    shut_besides([&](std::size_t i) { return flow[i] < 0.0; });
    if (wanted_ != shut_) outcome.rounds += settle_check_valves(model, 1000);
  }
  for (std::size_t i = 0; has_one_way_ && i < flow.size(); ++i) {
    const bool rests = bridge_[i] || (model.links[i].passage == Passage::forward_only && flow[i] < 0.0);
    if (rests && std::abs(flow[i]) <= flow_tolerance * flow_scale_ + smallest_flow) flow[i] = 0.0;
  }
  if (imbalance(model) > 1e-12 * flow_scale_) {
    // Heads that fit the balanced flows; slopes raised further, so that rounding of the heads moves the flows less.
    for (int pass = 0; pass < 20; ++pass) {
      do imbalance(model);
      while (restore_balance(model));
      evaluate(model, flow);
      raise_slopes(1e-3);
      solve_heads(model);
      if (energy_error(model) <= 0.1 * head_tolerance * head_scale_) break;
      for (const std::size_t i : live_) {
        const ModelLink& link = model.links[i];
        const bool one_way = link.passage == Passage::forward_only;
        if (one_way && flow[i] == 0.0) continue;
        const double now = flow[i] + (head[link.from] - head[link.to] - loss_[i]) / slope_[i];
        flow[i] = one_way && flow[i] > 0.0 ? std::max(0.0, now) : now;
      }
    }
    do imbalance(model);
    while (restore_balance(model));
    evaluate(model, flow);
  }
  outcome.mass_residual = imbalance(model);
  outcome.energy_residual = energy_error(model);
  for (double& h : head) h += datum;
  outcome.iterations = iterations_;
  for (std::size_t i = 0; i < flow.size(); ++i) {
    model.links[i].changed = false;
    last_tee_head_[i] = model.links[i].tee_head;
  }
  warm_ = true;
  return outcome;
}

// Of the losses in loss_; a check valve at rest has none.
double GradientSolver::energy_error(const Model& model) const {
  double largest = 0.0;
  for (const std::size_t i : live_) {
    if (flow[i] == 0.0 && model.links[i].passage == Passage::forward_only) continue;
    largest = std::max(largest, std::abs(loss_[i] - (head[ends_[i].from] - head[ends_[i].to])));
  }
  return largest;
}

double GradientSolver::imbalance(const Model& model) {
  for (std::size_t v = 0; v < mass_.size(); ++v) mass_[v] = -model.demand[v];
  for (const std::size_t i : live_) {
    mass_[ends_[i].from] -= flow[i];
    mass_[ends_[i].to] += flow[i];
  }
  double largest = 0.0;
  for (const std::size_t j : junctions_) largest = std::max(largest, std::abs(mass_[j]));
  return largest;
}

// Links that lose next to nothing take their flow from a difference of heads that are all but equal, and so with
// rounding. What is out of balance is led to a fixed head along the links that lose least, where it costs no head.
// True when a check valve came out with backflow of rounding size: it is set to 0, and the balance is due once more.
bool GradientSolver::restore_balance(const Model& model) {
  std::vector<std::size_t> by_slope;
  for (const std::size_t i : live_)
    if (!(model.links[i].passage == Passage::forward_only && flow[i] == 0.0)) by_slope.push_back(i);
  std::sort(by_slope.begin(), by_slope.end(), [&](std::size_t a, std::size_t b) {
    const bool a_one_way = model.links[a].passage == Passage::forward_only;
    const bool b_one_way = model.links[b].passage == Passage::forward_only;
    return a_one_way == b_one_way ? slope_[a] < slope_[b] : b_one_way;
  });
  Parts parts(model);
  std::vector<std::vector<std::size_t>> tree(model.fixed.size());
  for (const std::size_t i : by_slope) {
    const ModelLink& link = model.links[i];
    if (!parts.join(link.from, link.to)) continue;
    tree[link.from].push_back(i);
    tree[link.to].push_back(i);
  }
  std::vector<std::size_t> from_root, by_link(model.fixed.size(), none);
  std::vector<bool> seen = model.fixed;
  for (std::size_t v = 0; v < seen.size(); ++v)
    if (seen[v]) from_root.push_back(v);
  for (std::size_t k = 0; k < from_root.size(); ++k) {
    for (const std::size_t i : tree[from_root[k]]) {
      const std::size_t other = model.links[i].from == from_root[k] ? model.links[i].to : model.links[i].from;
      if (seen[other]) continue;
      seen[other] = true;
      by_link[other] = i;
      from_root.push_back(other);
    }
  }
  for (std::size_t k = from_root.size(); k-- > 0;) {
    const std::size_t v = from_root[k], i = by_link[v];
    if (i == none) continue;
    const double surplus = mass_[v];
    const bool leaves = model.links[i].from == v;
    flow[i] += leaves ? surplus : -surplus;
    mass_[leaves ? model.links[i].to : model.links[i].from] += surplus;
  }
  bool again = false;
  for (std::size_t i = 0; i < flow.size(); ++i) {
    if (model.links[i].passage != Passage::forward_only || flow[i] >= 0.0) continue;
    if (flow[i] < -flow_tolerance * flow_scale_ - smallest_flow) continue;  // cannot be supplied: the caller says so
    flow[i] = 0.0;
    again = true;
  }
  return again;
}

}  // namespace theca::hydraulics::detail
