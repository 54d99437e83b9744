// The network in SI numbers: one list of links with their head loss laws, and the Newton solver on them.
#pragma once

#include <Eigen/SparseCholesky>
#include <cstddef>
#include <vector>

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
};

struct Model {
  std::vector<ModelLink> links;  ///< pipes, pumps, valves
  std::vector<bool> fixed;       ///< nodes of fixed head
  std::vector<double> level;     ///< head of the fixed nodes
  std::vector<double> demand;
  double viscosity = 0.0;
};

struct Loss {
  double head = 0.0;
  double slope = 0.0;  ///< >= 0
};

/// Head lost along the link; negative for what a pump adds. Strictly rising with the flow.
Loss loss(const ModelLink& link, double flow, double viscosity);

/// Newton's method on the content with elimination of trees; keeps everything that depends on the layout only.
class GradientSolver {
 public:
  explicit GradientSolver(const Model& model);

  struct Outcome {
    double mass_residual = 0.0, energy_residual = 0.0;
    int iterations = 0, rounds = 0;
  };
  /// Fills flow and head.
  Outcome solve(const Model& model);

  std::vector<double> flow, head;
  double flow_scale() const { return flow_scale_; }

 private:
  struct Pair {
    std::size_t a = 0, b = 0;  ///< junction numbers
  };
  void eliminate_order(const Model& model);
  void start(const Model& model);
  void newton(const Model& model);
  void evaluate(const Model& model, const std::vector<double>& at);
  void solve_heads(const Model& model);
  double slope_along(const std::vector<double>& step, const std::vector<double>& drop) const;
  int settle_check_valves(const Model& model, std::vector<bool> wanted);
  bool has_backflow(const Model& model) const;
  void bridge_floating_parts(const Model& model);
  double energy_error(const Model& model) const;
  double imbalance(const Model& model);  ///< largest of a junction; fills mass_
  void raise_slopes(double share_of_scale);
  bool restore_balance(const Model& model);
  double penalised(std::size_t link, double at, const Model& model, double& slope) const;

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

  std::vector<double> loss_, slope_, diagonal_, rhs_, conductance_, mass_;
  std::vector<bool> shut_, bridge_;
  bool has_one_way_ = false, warm_ = false;
  double flow_scale_ = 0.0, head_scale_ = 0.0, energy_residual_ = 0.0;
  int iterations_ = 0;
};

}  // namespace theca::hydraulics::detail
