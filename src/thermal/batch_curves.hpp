// The curves that some systems of a batch need for a block of steps.
#pragma once

#include <cstddef>
#include <vector>

#include "batch_plan.hpp"

namespace theca::thermal::detail {

/// Steps of a block: what its curves take stays in the second cache while system after system goes through it.
inline constexpr long block_steps = 144;

/// The curves of one type of tank in one room at the steps of a block, for water from `low` to `high`, degC.
struct CurveBlock {
  bool used = false;
  double low = 0.0, high = 0.0;
  PieceGrid grid;
  std::vector<double> neutral;
  std::vector<LossPiece> pieces;
  LossCurve at(long node) const {
    return {neutral[std::size_t(node)], pieces.data() + std::size_t(node) * std::size_t(grid.count)};
  }
};

/// All curves of the plan by their index; those of systems `first` up to `last` are used.
std::vector<CurveBlock> make_curves(const BatchPlan& plan, std::size_t first, std::size_t last);

/// Collapses the tables over low to high of every used curve, for the steps from `first_step` on.
void fill(const BatchPlan& plan, long first_step, long steps, std::vector<CurveBlock>& curves);

}  // namespace theca::thermal::detail
