// The network in SI numbers: one list of links with their head loss laws, and the Newton solver on them.
#pragma once

#include <Eigen/SparseCholesky>
#include <array>
#include <cstddef>
#include <vector>

#include "tee_shape.hpp"
#include "theca/hydraulics/friction.hpp"
#include "theca/hydraulics/network.hpp"

namespace theca::hydraulics::detail {

constexpr double head_tolerance = 1e-9;  ///< of the largest head difference
constexpr double smallest_flow = 1e-13;  ///< m3/s; a network at rest has no scale of its own
constexpr double smallest_head = 1e-12;  ///< m
constexpr double slope_floor = 1e-7;     ///< of head over flow at their largest: a law may be level
/// s/m2; lets 1e-10 m3/s pass for a metre of head, far less than any pipe of a farm.
constexpr double backflow_resistance = 1e10;

enum class LinkKind { pipe, pump, valve };

/// What the law of a pipe hangs on; a valve has neither length nor roughness.
struct PipeShape {
  double bore = 0.0, length = 0.0, roughness = 0.0, K = 0.0, viscosity = 0.0;
  bool operator==(const PipeShape&) const = default;
};

struct ModelLink {
  std::size_t from = 0, to = 0;
  LinkKind kind = LinkKind::pipe;
  Passage passage = Passage::both_ways;
  bool changed = true;  ///< its law, since the last solution
  PipeShape shape{};
  kernel::PipeLaw<double> law{};     ///< of the shape
  const PumpCurve* curve = nullptr;  ///< of the network that is being solved
  double speed = 1.0;
  double tee_head = 0.0;  ///< pipe: lost in the tees at its ends, held while the rest is solved
};

/// Total heads of a tee's legs at the tee, over that of its node: run, onward, branch.
using LegHeads = std::array<double, 3>;

struct ModelTee {
  std::array<std::size_t, 3> link{};  ///< run, onward, branch
  std::array<double, 3> into{};       ///< 1 where a positive flow of the link enters the tee, -1 where it leaves
  TeeShape shape;
  double run_area = 0.0, branch_area = 0.0;
};

struct Model {
  std::vector<ModelLink> links;  ///< pipes, pumps, valves
  std::vector<ModelTee> tees;
  std::vector<NodeKind> kind;
  std::vector<bool> fixed;    ///< nodes of fixed head
  std::vector<double> level;  ///< head of the fixed nodes
  std::vector<double> demand;
};

struct Loss {
  double head = 0.0;
  double slope = 0.0;  ///< >= 0
};

/// Head lost along the link; negative for what a pump adds. Strictly rising with the flow.
/// @param nearby  of a pipe, as for kernel::colebrook()
Loss loss(const ModelLink& link, double flow, double* nearby = nullptr);

/// Newton's method on the content with elimination of trees; keeps everything that depends on the layout only.
class GradientSolver {
 public:
  explicit GradientSolver(const Model& model);

  struct Outcome {
    double mass_residual = 0.0, energy_residual = 0.0;
    int iterations = 0, rounds = 0;
  };
  /// Fills flow and head. Links whose law has not changed since the last solution start from what was found of them.
  Outcome solve(Model& model);

  std::vector<double> flow, head;
  double flow_scale() const { return flow_scale_; }
  double head_scale() const { return head_scale_; }

 private:
  using Flags = std::vector<unsigned char>;  // of links; quicker to look at than packed bits
  struct Pair {
    std::size_t a = 0, b = 0;  ///< junctions
  };
  struct Ends {
    std::size_t from = 0, to = 0;  ///< nodes
    std::size_t pair = 0;          ///< that the link is of; beyond the last where an end is fixed
  };
  struct Elimination {
    std::size_t junction = 0, parent = 0;  ///< the one neighbour left then, or none
    std::size_t pair = 0;                  ///< of both
  };
  /// What evaluate() sees on its way through the links.
  struct Seen {
    double slope_along_step = 0.0;  ///< of the content
    double energy_error = 0.0, largest_flow = 0.0, largest_loss = 0.0;
  };
  void eliminate_order(const Model& model);
  void start(const Model& model);
  void start_from_last(const Model& model);
  void open(std::size_t link, const Model& model);
  bool newton(const Model& model, double tolerance);
  Seen evaluate(const Model& model, const std::vector<double>& at);
  void solve_heads(const Model& model);
  double next_step_at_most(double floor) const;
  int settle_check_valves(const Model& model, int most_rounds);
  bool change_check_valves(const Model& model, bool only_one);
  bool has_backflow(const Model& model) const;
  void list_live();
  void bridge_floating_parts(const Model& model);
  double energy_error(const Model& model) const;
  double imbalance(const Model& model);        ///< largest of a junction; fills mass_
  double raise_slopes(double share_of_scale);  ///< the floor they are raised to
  bool restore_balance(const Model& model);
  double penalised(std::size_t link, double at, const Model& model, double& slope);

  static constexpr std::size_t none = static_cast<std::size_t>(-1);
  std::vector<std::size_t> junctions_;  ///< nodes
  std::vector<Ends> ends_;              ///< of links
  std::vector<Pair> pairs_;             ///< junctions joined by at least one link
  std::vector<Elimination> order_;      ///< junctions eliminated by hand, leaves first
  std::vector<std::size_t> core_;       ///< row in the sparse matrix of a node, or none
  std::vector<std::size_t> core_junction_;
  std::vector<Eigen::Index> slot_of_pair_, slot_of_diagonal_;
  Eigen::SparseMatrix<double> matrix_;
  Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>> factor_;
  Eigen::VectorXd right_, solution_;

  std::vector<std::size_t> live_;                           ///< links that are not shut
  std::vector<double> loss_, slope_, step_, drop_, trial_;  ///< of links
  std::vector<double> nearby_;                              ///< of pipes, as for kernel::colebrook()
  std::vector<double> last_tee_head_;                       ///< that loss_ holds
  std::vector<double> fixed_head_;                          ///< of nodes; 0 at junctions
  std::vector<double> diagonal_, rhs_, mass_;               ///< of nodes
  std::vector<double> conductance_;                         ///< of pairs, and of all links that are of none
  Flags always_shut_, wanted_, before_;
  Flags shut_, bridge_;          ///< a bridge is a check valve, pressed shut, that the heads of its part hang on
  bool stiff_backward_ = false;  ///< check valves resist backflow instead of being open or shut
  bool has_one_way_ = false, warm_ = false;
  double flow_scale_ = 0.0, head_scale_ = 0.0, energy_residual_ = 0.0;
  int iterations_ = 0;
};

/// Solves again and again with the tees' losses at the flows last found, until they agree.
class TeeSolver {
 public:
  /// Fills the tee heads of the model, and flow and head of the solver.
  GradientSolver::Outcome solve(Model& model, GradientSolver& solver);

  int rounds() const { return rounds_; }

 private:
  double round(Model& model, GradientSolver& solver, const std::vector<LegHeads>& held);
  std::vector<LegHeads> newton_step(const Model& model, const GradientSolver& solver) const;
  void iterate(Model& model, GradientSolver& solver);
  void narrow_down(Model& model, GradientSolver& solver);

  std::vector<LegHeads> held_, found_;  ///< put in, and what the flows then ask for
  GradientSolver::Outcome outcome_;
  int rounds_ = 0, iterations_ = 0, status_rounds_ = 0;
  double widening_ = 1.0;  ///< of the spans over which laws are joined, on the way to those that hold
};

/// What the flows into a tee make of it, and which leg carries all of the flow.
struct TeeUse {
  TeeDirection direction = TeeDirection::at_rest;
  std::size_t combined = 0;  ///< leg
};
TeeUse use_of(const std::array<double, 3>& into_tee);
/// @param widening  of the span over which the laws of two directions are joined, 1 to 10
LegHeads leg_heads(const ModelTee& tee, const std::array<double, 3>& into_tee, double widening = 1.0);
std::array<double, 3> flows_into(const ModelTee& tee, const std::vector<double>& flow);

}  // namespace theca::hydraulics::detail
