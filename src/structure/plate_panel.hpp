// What every plate solver of a rectangular panel shares: its checks, its edges made dimensionless, its loads and the
// reactions that its supports give back; internal to src/structure.
#pragma once

#include <Eigen/Dense>
#include <array>
#include <vector>

#include "plate_basis.hpp"
#include "theca/structure/bend.hpp"
#include "theca/structure/panel.hpp"
#include "theca/structure/panel_load.hpp"

namespace theca::structure::detail {

constexpr int most = max_plate_degree + 1;
using Eigen::Index;
/// A matrix of one direction's functions, on the stack.
using Small = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, 0, most, most>;
using SmallVector = Eigen::Matrix<double, Eigen::Dynamic, 1, 0, most, 1>;

constexpr std::array<Side, 4> all_sides = {Side::bottom, Side::left, Side::right, Side::top};
constexpr std::size_t number(Side side) { return static_cast<std::size_t>(side); }
constexpr bool horizontal(Side side) { return side == Side::bottom || side == Side::top; }

constexpr Index end_of(Side side) {
  return side == Side::bottom || side == Side::left ? detail::value_low : detail::value_high;
}

const Edge& edge_of(const Panel& panel, Side side);

/// Dimensionless springs of an edge, and the stiffness of its beam.
struct Springs {
  double translation, rotation;
  double bending, torsion;
};
Springs springs(const Panel& panel, Side side, double rigidity);

void require_possible(const Panel& panel, const PressureLoad& load, int degree);
/// Refuses a panel that could move as a rigid body: the least spring energy over all w = c0 + c1 xi + c2 eta of unit
/// size, with springs counted as at most 1. Under 1e-9 the answer would have lost its digits, too.
void require_held(const Panel& panel, const std::array<Springs, 4>& spring);

/// Work of pressure and patches on all products of functions, over a reference pressure that it sets: the pressure
/// itself, or a patch's mean over the panel where that is more.
Small load_work(const PlateBasis& basis, const Panel& panel, const PressureLoad& pressure,
                const std::vector<PatchLoad>& patches, double& reference);

/// What one polynomial's share of an edge does to its support.
struct EdgePart {
  double unit = 0.0;             ///< force of a dimensionless one
  SmallVector work;              ///< of the support on the end value across the edge times all functions along it
  SmallVector reaction;          ///< see `edge_part`
  double low = 0.0, high = 0.0;  ///< integrals of it times the cubics of value one at the low and at the high end
};

/// The reaction is the force per length with which the edge presses on its support, over p0 and half the dimension
/// across, as coefficients: of the functions for a spring, of their fourth derivatives for a rigid support.
///
/// The support's virtual work on b_k along a rigid edge is the integral of q b_k. As b_k is (1-x^2)^2 P_k'' up to a
/// factor, the polynomial q of degree `degree` - 4 that does this work is the sum of work_k times the fourth derivative
/// of b_k. These reactions balance the load exactly, which the third derivatives of the deflection would not.
EdgePart edge_part(const PlateBasis& basis, const SmallVector& work, const Small& shape, Side side,
                   double translation_spring, double unit);

/// Forces of the whole edges, out of their parts from the low end to the high end, and of the corners as what is left
/// of the work on their values. What is left where two parts meet, which none of their polynomials carries, counts to
/// the edge.
EdgeReactions reactions(const std::array<std::vector<EdgePart>, 4>& edges);

/// The same of one polynomial over the whole panel, out of the supports' virtual work on all products of functions.
EdgeReactions reactions(const PlateBasis& basis, const Small& work, const Small& shape,
                        const std::array<Springs, 4>& spring, double unit);

Force total_load(const PressureLoad& pressure, const Panel& panel, const std::vector<PatchLoad>& patches);
/// |reactions - load| over the size of all loads; 0 for no load.
double equilibrium_residual(const EdgeReactions& reactions, const PressureLoad& pressure, const Panel& panel,
                            const std::vector<PatchLoad>& patches);

}  // namespace theca::structure::detail
