// A loss table at one state of the room: loss and evaporation over the water temperature alone, in cubic pieces.
#pragma once

#include <array>
#include <cmath>
#include <cstddef>
#include <vector>

#include "theca/thermal/loss_table.hpp"

namespace theca::thermal::detail {

/// Loss in W and evaporation in kg/s over a piece, in powers of the way through it from 0 to 1: one line of cache.
struct alignas(64) LossPiece {
  std::array<double, 4> loss, vapour;
};

/// How the pieces lie: even in the fourth root of the distance from neutral air, on either side.
struct PieceGrid {
  double per_root = 0.0;  ///< pieces per K^(1/4)
  double below = 0.0;     ///< pieces below neutral air
  int count = 0;
};

/// One curve, of pieces that lie elsewhere. Temperatures in degC.
struct LossCurve {
  double neutral = 0.0;  ///< water over which the air is as heavy as the room's
  const LossPiece* pieces = nullptr;
};

struct PiecePlace {
  int index;
  double way;
};

inline PiecePlace place(const PieceGrid& grid, double neutral, double water) {
  const double from_neutral = water - neutral;
  const double root = std::copysign(std::sqrt(std::sqrt(std::abs(from_neutral))), from_neutral);
  const double x = root * grid.per_root + grid.below;
  int i = static_cast<int>(x);  // a water temperature out of range is caught by its owner; here it stays in memory
  i = i < 0 ? 0 : i;
  i = i >= grid.count ? grid.count - 1 : i;
  return {i, x - i};
}

inline double cubic(const std::array<double, 4>& c, double x) { return ((c[3] * x + c[2]) * x + c[1]) * x + c[0]; }

/// State of a room, in degC and K.
struct RoomState {
  double air, surroundings_less_air, humidity;
};

/// Knots along one variable: even in each of some stretches, which end where the function steps.
struct Axis {
  struct Stretch {
    double low, high;
    int intervals;
    std::size_t first;  ///< index of its first knot
  };
  std::vector<Stretch> stretches;
  double low() const;
  double high() const;
  std::size_t size() const;
  double knot(std::size_t i) const;
};

/// Values over up to three axes; the first runs fastest.
struct Table {
  std::array<Axis, 3> axes;
  std::vector<double> values;
};

/// What the closed forms of evaporation need of a tank.
struct OpenWater {
  double area = 0.0;         ///< not under a lid, m2
  double air_speed = 0.0;    ///< m/s
  double heat_per_Pa = 0.0;  ///< of the models that are in their range and go with the vapour pressure alone, W/m2/Pa
  int models = 0;            ///< how many these are
};

struct LossData {
  LossRange range;
  double salinity = 0.0;  ///< kg/kg
  double pressure = 0.0;  ///< Pa
  OpenWater open;
  PieceGrid grid;
  Table dry;                ///< W over water less air, air, surroundings less air
  Table film;               ///< W/m2/K over the roots of water less neutral, air, humidity
  Table analogy;            ///< s2/m2 K over the mean temperature: evaporation per film and vapour pressure difference
  Table pressure_of_water;  ///< Pa over the water temperature
  double slope = 0.0;       ///< W/K, mean over the range of water, at its least
  double steepest = 0.0;    ///< W/K, at the warm end, at its most
  double error = 0.0, temperature_error = 0.0;
};

/// Writes those of the grid.count pieces that water temperatures of `from` to `to` need, for one state of the room, and
/// returns the curve over them.
LossCurve collapse(const LossData& data, const RoomState& room, double from, double to, LossPiece* pieces);

}  // namespace theca::thermal::detail
