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
constexpr double backflow_resistance = 1e10;  // s/m2: 1e-10 m3/s for a metre of head, far below any pipe of a farm
constexpr double flow_tolerance = 1e-10;      // of the largest flow
constexpr double head_tolerance = 1e-9;       // of the largest head difference
constexpr double loose_tolerance = 0.02;      // of the largest flow: good enough to see which check valves are shut
constexpr double smallest_flow = 1e-13;       // m3/s and m: a network at rest has no scale of its own
constexpr double smallest_head = 1e-12;
constexpr int step_limit = 300;  // steps of one state of the check valves; usually 5 to 15

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

double typical_flow(const ModelLink& link) { return 0.5 * kernel::bore_area(link.bore); }  // half a metre a second

bool same_law(const ModelLink& a, const ModelLink& b) {
  return a.kind != LinkKind::pump && a.bore == b.bore && a.length == b.length && a.roughness == b.roughness &&
         a.K == b.K;  // nobody knows whether a pump's curve was changed where it stands
}

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

Loss loss(const ModelLink& link, double flow, double viscosity, double* nearby) {
  switch (link.kind) {
    case LinkKind::pipe: {
      const auto h = kernel::head_loss(flow, link.bore, link.length, link.roughness, link.K, viscosity, nearby);
      return {h.loss_m, h.slope_s_m2};
    }
    case LinkKind::valve:
      return {link.quadratic * flow * std::abs(flow), 2.0 * link.quadratic * std::abs(flow)};
    case LinkKind::pump:
      return pump_loss(link, flow);
  }
  return {};
}

double GradientSolver::penalised(std::size_t i, double at, const Model& model, double& slope) {
  const ModelLink& link = model.links[i];
  if (at < 0.0 && link.passage == Passage::forward_only && stiff_backward_) {
    slope = backflow_resistance;
    return backflow_resistance * at + link.tee_head;
  }
  const Loss h = loss(link, at, model.viscosity, &nearby_[i]);
  slope = h.slope;
  return h.head + link.tee_head;
}

GradientSolver::GradientSolver(const Model& model) {
  const std::size_t nodes = model.fixed.size(), links = model.links.size();
  junction_.assign(nodes, none);
  for (std::size_t v = 0; v < nodes; ++v) {
    if (model.fixed[v]) continue;
    junction_[v] = node_.size();
    node_.push_back(v);
  }
  flow.assign(links, 0.0);
  head.assign(nodes, 0.0);
  for (auto* of_link : {&loss_, &slope_, &step_, &drop_, &trial_, &nearby_}) of_link->assign(links, 0.0);
  shut_.assign(links, false);
  bridge_.assign(links, false);
  always_shut_.assign(links, false);
  for (std::size_t i = 0; i < links; ++i) {
    always_shut_[i] = model.links[i].passage == Passage::shut;
    has_one_way_ = has_one_way_ || model.links[i].passage == Passage::forward_only;
  }
  eliminate_order(model);
}

void GradientSolver::eliminate_order(const Model& model) {
  const std::size_t n = node_.size();
  pair_of_link_.assign(model.links.size(), none);
  std::unordered_map<std::uint64_t, std::size_t> known;
  known.reserve(model.links.size());
  for (std::size_t i = 0; i < model.links.size(); ++i) {
    std::size_t a = junction_[model.links[i].from], b = junction_[model.links[i].to];
    if (a == none || b == none || model.links[i].passage == Passage::shut) continue;
    if (a > b) std::swap(a, b);
    const auto [place, fresh] = known.try_emplace(static_cast<std::uint64_t>(a) * n + b, pairs_.size());
    if (fresh) pairs_.push_back({a, b});
    pair_of_link_[i] = place->second;
  }
  // Pairs at each junction, packed one after another.
  std::vector<std::size_t> begin(n + 1, 0), at_junction(2 * pairs_.size()), degree(n, 0);
  for (const Pair& p : pairs_) ++degree[p.a], ++degree[p.b];
  for (std::size_t j = 0; j < n; ++j) begin[j + 1] = begin[j] + degree[j];
  std::vector<std::size_t> fill(begin.begin(), begin.end() - 1);
  for (std::size_t p = 0; p < pairs_.size(); ++p) {
    at_junction[fill[pairs_[p].a]++] = p;
    at_junction[fill[pairs_[p].b]++] = p;
  }
  std::vector<bool> gone(n, false);
  for (std::size_t j = 0; j < n; ++j)
    if (degree[j] <= 1) order_.push_back(j);
  for (std::size_t k = 0; k < order_.size(); ++k) {
    const std::size_t j = order_[k];
    gone[j] = true;
    std::size_t parent = none, parent_pair = none;
    for (std::size_t s = begin[j]; s < begin[j + 1]; ++s) {
      const Pair& p = pairs_[at_junction[s]];
      const std::size_t other = p.a == j ? p.b : p.a;
      if (gone[other]) continue;
      parent = other;
      parent_pair = at_junction[s];
    }
    parent_.push_back(parent);
    parent_pair_.push_back(parent_pair);
    if (parent != none && degree[parent]-- == 2) order_.push_back(parent);
  }
  core_.assign(n, none);
  for (std::size_t j = 0; j < n; ++j) {
    if (gone[j]) continue;
    core_[j] = core_junction_.size();
    core_junction_.push_back(j);
  }
  diagonal_.assign(n, 0.0);
  rhs_.assign(n, 0.0);
  mass_.assign(n, 0.0);
  conductance_.assign(pairs_.size(), 0.0);
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
  matrix_.setFromTriplets(entries.begin(), entries.end());  // core numbers rise with junction numbers: lower triangle
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

void GradientSolver::evaluate(const Model& model, const std::vector<double>& at) {
  for (std::size_t i = 0; i < at.size(); ++i)
    if (!shut_[i]) loss_[i] = penalised(i, at[i], model, slope_[i]);
}

// Heads of the junctions for the linear laws loss + slope (new flow - flow), so that the new flows keep mass balance.
void GradientSolver::solve_heads(const Model& model) {
  std::fill(diagonal_.begin(), diagonal_.end(), 0.0);
  std::fill(conductance_.begin(), conductance_.end(), 0.0);
  for (std::size_t j = 0; j < node_.size(); ++j) rhs_[j] = -model.demand[node_[j]];
  for (std::size_t i = 0; i < flow.size(); ++i) {
    if (shut_[i]) continue;
    const ModelLink& link = model.links[i];
    const double g = 1.0 / slope_[i], source = flow[i] - g * loss_[i];
    const std::size_t a = junction_[link.from], b = junction_[link.to];
    if (a != none) {
      diagonal_[a] += g;
      rhs_[a] -= source;
      if (b == none) rhs_[a] += g * head[link.to];
    }
    if (b != none) {
      diagonal_[b] += g;
      rhs_[b] += source;
      if (a == none) rhs_[b] += g * head[link.from];
    }
    if (pair_of_link_[i] != none) conductance_[pair_of_link_[i]] += g;
  }
  for (std::size_t k = 0; k < order_.size(); ++k) {
    if (parent_[k] == none) continue;
    const double g = conductance_[parent_pair_[k]], ratio = g / diagonal_[order_[k]];
    diagonal_[parent_[k]] -= g * ratio;
    rhs_[parent_[k]] += ratio * rhs_[order_[k]];
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
      head[node_[core_junction_[r]]] = solution_[static_cast<Eigen::Index>(r)];
  }
  for (std::size_t k = order_.size(); k-- > 0;) {
    const std::size_t j = order_[k];
    double sum = rhs_[j];
    if (parent_[k] != none) sum += conductance_[parent_pair_[k]] * head[node_[parent_[k]]];
    head[node_[j]] = sum / diagonal_[j];
  }
}

// Slope of the content along the step, at the flows whose losses are in loss_.
double GradientSolver::slope_along_step() const {
  double sum = 0.0;
  for (std::size_t i = 0; i < step_.size(); ++i)
    if (!shut_[i]) sum += step_[i] * (loss_[i] - drop_[i]);
  return sum;
}

// Linear laws of the right size: a pipe as at its typical flow, a pump about the middle of its curve.
void GradientSolver::start(const Model& model) {
  for (std::size_t i = 0; i < flow.size(); ++i) {
    if (shut_[i]) continue;
    const ModelLink& link = model.links[i];
    if (link.kind == LinkKind::pump) {
      flow[i] = 0.5 * link.speed * (si(link.curve->points.front().flow) + si(link.curve->points.back().flow));
      const Loss h = loss(link, flow[i], model.viscosity);
      loss_[i] = h.head;
      slope_[i] = h.slope;
    } else {
      const double q = typical_flow(link);
      flow[i] = 0.0;
      loss_[i] = link.tee_head;
      slope_[i] = loss(link, q, model.viscosity).head / q;
    }
  }
}

// Laws at the flows of the last solution; most are still known from it.
void GradientSolver::start_from_last(const Model& model) {
  for (std::size_t i = 0; i < flow.size(); ++i) {
    if (shut_[i]) continue;
    if (model.viscosity == last_viscosity_ && same_law(model.links[i], last_links_[i]))
      loss_[i] += model.links[i].tee_head - last_links_[i].tee_head;
    else
      loss_[i] = penalised(i, flow[i], model, slope_[i]);
  }
}

// A check valve at rest has no slope to go by: the linear law to where it would carry off the head behind it.
void GradientSolver::open(std::size_t i, const Model& model) {
  const ModelLink& link = model.links[i];
  const double q = typical_flow(link), drop = std::max(0.0, head[link.from] - head[link.to] - link.tee_head);
  flow[i] = 0.0;
  loss_[i] = link.tee_head;
  slope_[i] = std::sqrt(drop * loss(link, q, model.viscosity).head) / q;
}

// A law may be level (a valve at rest); a floor keeps the matrix definite and only shortens the step.
void GradientSolver::raise_slopes(double share_of_scale) {
  double stiffest = 0.0;
  for (std::size_t i = 0; i < flow.size(); ++i)
    if (!shut_[i]) stiffest = std::max(stiffest, slope_[i]);
  const double floor = std::max(
      1e-13 * stiffest, share_of_scale * std::max(head_scale_, smallest_head) / std::max(flow_scale_, smallest_flow));
  for (double& slope : slope_) slope = std::max(slope, floor);
}

// From the flows, losses and slopes that stand there; leaves them as they are at the answer.
// True when every link's balance is met to rounding, so that a closer tolerance would find no more.
bool GradientSolver::newton(const Model& model, double tolerance) {
  const std::size_t links = flow.size();
  std::fill(step_.begin(), step_.end(), 0.0);  // what is shut stays as it is
  trial_ = flow;
  bool whole = true;  // the first step restores mass balance and is not shortened
  for (int k = 0; k < step_limit; ++k) {
    ++iterations_;
    raise_slopes(k < 30 ? 1e-7 : 1e-5);  // with the lower floor a rare one steps for ever from rounding to rounding
    solve_heads(model);
    double largest_step = 0.0, largest_head = 0.0, largest_drop = 0.0, highest = 0.0;
    for (std::size_t i = 0; i < links; ++i) {
      if (shut_[i]) continue;
      const ModelLink& link = model.links[i];
      drop_[i] = head[link.from] - head[link.to];
      step_[i] = (drop_[i] - loss_[i]) / slope_[i];
      trial_[i] = flow[i] + step_[i];
      largest_step = std::max(largest_step, std::abs(step_[i]));
      largest_drop = std::max(largest_drop, std::abs(drop_[i]));
      highest = std::max(highest, std::abs(head[link.to]));
    }
    const double slope_before = slope_along_step();
    if (!std::isfinite(slope_before)) break;  // no step to take: not converged
    evaluate(model, trial_);
    double t = 1.0;
    const bool tiny =
        largest_step <= flow_tolerance * flow_scale_ + smallest_flow;  // what is left is rounding, no slope to trust
    const double allowed = -0.1 * slope_before;
    const bool watched = !whole && !tiny;
    double after = watched ? slope_along_step() : 0.0;
    if (watched && after > allowed) {
      // The slope rises along the step; a point where a tenth of it is left is as good as the minimum.
      double low = 0.0, high = 1.0, low_slope = slope_before, high_slope = after;
      for (int search = 0; search < 60 && std::abs(after) > allowed; ++search) {
        const double secant = low - low_slope * (high - low) / (high_slope - low_slope);
        t = search % 2 == 0 ? std::clamp(secant, low + 0.05 * (high - low), high - 0.05 * (high - low))
                            : 0.5 * (low + high);
        for (std::size_t i = 0; i < links; ++i) trial_[i] = flow[i] + t * step_[i];
        evaluate(model, trial_);
        after = slope_along_step();
        (after > 0.0 ? high : low) = t;
        (after > 0.0 ? high_slope : low_slope) = after;
      }
    }
    flow.swap(trial_);
    whole = false;
    flow_scale_ = energy_residual_ = 0.0;
    for (std::size_t i = 0; i < links; ++i) {
      if (shut_[i]) continue;
      flow_scale_ = std::max(flow_scale_, std::abs(flow[i]));
      energy_residual_ = std::max(energy_residual_, std::abs(loss_[i] - drop_[i]));
      largest_head = std::max(largest_head, std::abs(loss_[i]));
    }
    head_scale_ = std::max(largest_head, largest_drop);
    if (!std::isfinite(flow_scale_) || !std::isfinite(head_scale_)) break;
    const bool still = largest_step <= tolerance * flow_scale_ + smallest_flow;
    // A valve all but at rest has next to no slope, and its step is rounding of the heads for ever.
    const bool exact = energy_residual_ <= 1e-14 * std::max(head_scale_, highest);
    const bool balanced =
        tolerance > flow_tolerance || energy_residual_ <= head_tolerance * head_scale_ + smallest_head;
    if (t == 1.0 && (exact || (still && balanced))) return exact;
  }
  throw NotConverged("network: Newton's method", energy_residual_, iterations_);
}

// Junctions that shut check valves cut off from every fixed head need one of them as reference; it carries what the
// part takes, which is nothing unless the part cannot be supplied.
void GradientSolver::bridge_floating_parts(const Model& model) {
  std::fill(bridge_.begin(), bridge_.end(), false);
  if (std::find(shut_.begin(), shut_.end(), true) == shut_.end()) return;
  Parts parts(model);
  for (std::size_t i = 0; i < flow.size(); ++i)
    if (!shut_[i]) parts.join(model.links[i].from, model.links[i].to);
  for (std::size_t i = 0; i < flow.size(); ++i) {
    const ModelLink& link = model.links[i];
    if (!shut_[i] || link.passage == Passage::shut || !parts.join(link.from, link.to)) continue;
    shut_[i] = false;
    bridge_[i] = true;
  }
}

// Solves with the wanted check valves shut and the others as open pipes, opens those pressed open and shuts those with
// backflow until none is left; first loosely, then exactly. All are changed at once; when a state comes back, one at a
// time. The rounds it took.
int GradientSolver::settle_check_valves(const Model& model, std::vector<bool> wanted, int most_rounds) {
  std::vector<std::vector<bool>> tried;
  bool one_by_one = false, loosely = has_one_way_;
  for (int rounds = 1; rounds <= most_rounds; ++rounds) {
    if (has_one_way_) {
      one_by_one = one_by_one || std::find(tried.begin(), tried.end(), wanted) != tried.end();
      tried.push_back(wanted);
    }
    before_.swap(shut_);
    shut_ = wanted;
    bridge_floating_parts(model);
    for (std::size_t i = 0; i < flow.size(); ++i) {
      if (shut_[i]) flow[i] = 0.0;
      if (bridge_[i] || (before_[i] && !shut_[i])) open(i, model);
    }
    const bool exact = newton(model, loosely ? loose_tolerance : flow_tolerance);
    if (change_check_valves(model, wanted, one_by_one)) continue;
    if (!loosely || exact) return rounds;
    loosely = false;
    newton(model, flow_tolerance);
    if (!change_check_valves(model, wanted, one_by_one)) return rounds;
  }
  throw NotConverged("network: state of the check valves", energy_residual_, iterations_);
}

// False when all hold.
bool GradientSolver::change_check_valves(const Model& model, std::vector<bool>& wanted, bool only_one) const {
  bool changed = false;
  for (std::size_t i = 0; i < flow.size(); ++i) {
    const ModelLink& link = model.links[i];
    if (link.passage != Passage::forward_only || bridge_[i]) continue;
    const bool pressed_open =
        shut_[i] && head[link.from] - head[link.to] - link.tee_head > head_tolerance * head_scale_ + smallest_head;
    if (!pressed_open && !(!shut_[i] && flow[i] < -smallest_flow)) continue;
    wanted[i] = !shut_[i];
    changed = true;
    if (only_one) break;
  }
  return changed;
}

bool GradientSolver::has_backflow(const Model& model) const {
  for (std::size_t i = 0; i < flow.size(); ++i)
    if (model.links[i].passage == Passage::forward_only && flow[i] < -flow_tolerance * flow_scale_ - smallest_flow)
      return true;
  return false;
}

GradientSolver::Outcome GradientSolver::solve(const Model& model) {
  iterations_ = 0;
  const bool warm = warm_ && flow_scale_ > smallest_flow;  // a network found at rest tells nothing of the scale to come
  warm_ = false;                                           // until this solution stands
  Outcome outcome;
  // Over one of the fixed heads, so that rounding is that of differences and water at rest has none.
  const auto first_fixed = std::find(model.fixed.begin(), model.fixed.end(), true) - model.fixed.begin();
  const double datum = model.level[static_cast<std::size_t>(first_fixed)];
  for (std::size_t v = 0; v < head.size(); ++v)
    if (model.fixed[v]) head[v] = model.level[v] - datum;
  const auto shut_besides = [&](auto&& shut) {
    std::vector<bool> wanted = always_shut_;
    for (std::size_t i = 0; has_one_way_ && i < flow.size(); ++i)
      if (model.links[i].passage == Passage::forward_only && shut(i)) wanted[i] = true;
    return wanted;
  };
  bool settled = false;
  stiff_backward_ = false;
  try {
    if (warm) {
      start_from_last(model);
      outcome.rounds = settle_check_valves(model, shut_besides([&](std::size_t i) { return flow[i] == 0.0; }), 20);
    } else {
      shut_ = always_shut_;
      start(model);
      outcome.rounds = settle_check_valves(model, always_shut_, 20);
    }
    settled = !has_backflow(model);
  } catch (const NotConverged&) {
  }
  if (!settled) {
    std::fill(bridge_.begin(), bridge_.end(), false);
    shut_ = always_shut_;
    start(model);
    stiff_backward_ = true;
    newton(model, flow_tolerance);
    stiff_backward_ = false;
    ++outcome.rounds;
    const std::vector<bool> wanted = shut_besides([&](std::size_t i) { return flow[i] < 0.0; });
    if (wanted != shut_) outcome.rounds += settle_check_valves(model, wanted, 1000);
  }
  for (std::size_t i = 0; i < flow.size(); ++i) {
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
      for (std::size_t i = 0; i < flow.size(); ++i) {
        const ModelLink& link = model.links[i];
        const bool one_way = link.passage == Passage::forward_only;
        if (shut_[i] || (one_way && flow[i] == 0.0)) continue;
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
  last_links_ = model.links;
  last_viscosity_ = model.viscosity;
  warm_ = true;
  return outcome;
}

// Of the losses in loss_; a check valve at rest has none.
double GradientSolver::energy_error(const Model& model) const {
  double largest = 0.0;
  for (std::size_t i = 0; i < flow.size(); ++i) {
    const ModelLink& link = model.links[i];
    if (shut_[i] || (link.passage == Passage::forward_only && flow[i] == 0.0)) continue;
    largest = std::max(largest, std::abs(loss_[i] - (head[link.from] - head[link.to])));
  }
  return largest;
}

double GradientSolver::imbalance(const Model& model) {
  for (std::size_t j = 0; j < node_.size(); ++j) mass_[j] = -model.demand[node_[j]];
  for (std::size_t i = 0; i < flow.size(); ++i) {
    if (const std::size_t a = junction_[model.links[i].from]; a != none) mass_[a] -= flow[i];
    if (const std::size_t b = junction_[model.links[i].to]; b != none) mass_[b] += flow[i];
  }
  double largest = 0.0;
  for (const double m : mass_) largest = std::max(largest, std::abs(m));
  return largest;
}

// Links that lose next to nothing take their flow from a difference of heads that are all but equal, and so with
// rounding. What is out of balance is led to a fixed head along the links that lose least, where it costs no head.
// True when a check valve came out with backflow of rounding size: it is set to 0, and the balance is due once more.
bool GradientSolver::restore_balance(const Model& model) {
  std::vector<std::size_t> by_slope;
  for (std::size_t i = 0; i < flow.size(); ++i)
    if (!shut_[i] && !(model.links[i].passage == Passage::forward_only && flow[i] == 0.0)) by_slope.push_back(i);
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
    const double surplus = mass_[junction_[v]];
    const bool leaves = model.links[i].from == v;
    flow[i] += leaves ? surplus : -surplus;
    const std::size_t other = junction_[leaves ? model.links[i].to : model.links[i].from];
    if (other != none) mass_[other] += surplus;
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
