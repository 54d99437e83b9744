// The network in SI numbers: one list of links with their head loss laws, and the Newton solver on them.
#pragma once

#include <Eigen/SparseCholesky>
#include <array>
#include <cstddef>
#include <vector>

#include "tee_shape.hpp"
#include "theca/hydraulics/network.hpp"

namespace theca::hydraulics::detail {

enum class LinkKind { pipe, pump, valve };

struct ModelLink {
  std::size_t from = 0, to = 0;
  LinkKind kind = LinkKind::pipe;
  Passage passage = Passage::both_ways;
  double bore = 0.0, length = 0.0, roughness = 0.0, K = 0.0;
  double quadratic = 0.0;            ///< valve: loss over flow squared
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
  double viscosity = 0.0;
};

struct Loss {
  double head = 0.0;
  double slope = 0.0;  ///< >= 0
};

/// Head lost along the link; negative for what a pump adds. Strictly rising with the flow.
/// @param nearby  of a pipe, as for kernel::colebrook()
Loss loss(const ModelLink& link, double flow, double viscosity, double* nearby = nullptr);

/// Newton's method on the content with elimination of trees; keeps everything that depends on the layout only.
class GradientSolver {
 public:
  explicit GradientSolver(const Model& model);

  struct Outcome {
    double mass_residual = 0.0, energy_residual = 0.0;
    int iterations = 0, rounds = 0;
  };
  /// Fills flow and head. Links with the same law as in the last solution start from what was found of them.
  Outcome solve(const Model& model);

  std::vector<double> flow, head;
  double flow_scale() const { return flow_scale_; }
  double head_scale() const { return head_scale_; }

 private:
  struct Pair {
    std::size_t a = 0, b = 0;  ///< junction numbers
  };
  void eliminate_order(const Model& model);
  void start(const Model& model);
  void start_from_last(const Model& model);
  void open(std::size_t link, const Model& model);
  bool newton(const Model& model, double tolerance);
  void evaluate(const Model& model, const std::vector<double>& at);
  void solve_heads(const Model& model);
  double slope_along_step() const;
  int settle_check_valves(const Model& model, std::vector<bool> wanted, int most_rounds);
  bool change_check_valves(const Model& model, std::vector<bool>& wanted, bool only_one) const;
  bool has_backflow(const Model& model) const;
  void bridge_floating_parts(const Model& model);
  double energy_error(const Model& model) const;
  double imbalance(const Model& model);  ///< largest of a junction; fills mass_
  void raise_slopes(double share_of_scale);
  bool restore_balance(const Model& model);
  double penalised(std::size_t link, double at, const Model& model, double& slope);

  static constexpr std::size_t none = static_cast<std::size_t>(-1);
  std::vector<std::size_t> junction_;      ///< number among junctions of a node, or none
  std::vector<std::size_t> node_;          ///< node of a junction
  std::vector<Pair> pairs_;                ///< junctions joined by at least one link
  std::vector<std::size_t> pair_of_link_;  ///< or none
  std::vector<std::size_t> order_;         ///< junctions eliminated by hand, leaves first
  std::vector<std::size_t> parent_;        ///< the one neighbour then left, or none
  std::vector<std::size_t> parent_pair_;
  std::vector<std::size_t> core_;  ///< row in the sparse matrix of a junction, or none
  std::vector<std::size_t> core_junction_;
  std::vector<Eigen::Index> slot_of_pair_, slot_of_diagonal_;
  Eigen::SparseMatrix<double> matrix_;
  Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>> factor_;
  Eigen::VectorXd right_, solution_;

  std::vector<double> loss_, slope_, step_, drop_, trial_;  ///< of links
  std::vector<double> nearby_;                              ///< of pipes, as for kernel::colebrook()
  std::vector<double> diagonal_, rhs_, conductance_, mass_;
  std::vector<bool> always_shut_, before_;
  std::vector<bool> shut_, bridge_;  ///< a bridge is a check valve, pressed shut, that the heads of its part hang on
  bool stiff_backward_ = false;      ///< check valves resist backflow instead of being open or shut
  bool has_one_way_ = false, warm_ = false;
  std::vector<ModelLink> last_links_;  ///< laws that loss_ and slope_ stand for
  double last_viscosity_ = 0.0;
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

  std::vector<LegHeads> held_, found_;  ///< put in, and what the flows then ask for
  GradientSolver::Outcome outcome_;
  int rounds_ = 0, iterations_ = 0;
};

/// What the flows into a tee make of it, and which leg carries all of the flow.
struct TeeUse {
  TeeDirection direction = TeeDirection::at_rest;
  std::size_t combined = 0;  ///< leg
};
TeeUse use_of(const std::array<double, 3>& into_tee);
LegHeads leg_heads(const ModelTee& tee, const std::array<double, 3>& into_tee);
std::array<double, 3> flows_into(const ModelTee& tee, const std::vector<double>& flow);

}  // namespace theca::hydraulics::detail
