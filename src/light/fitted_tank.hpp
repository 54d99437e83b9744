// Walls of their own kinds and all that stands over the water, in raw SI.
#pragma once

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "pane_wall.hpp"
#include "theca/light/fresnel.hpp"
#include "theca/light/waterbody.hpp"

namespace theca::light {

/// Shares of the light that a plate with air on both sides throws back and lets through, all inner reflections counted.
struct PlateShares {
  double reflected, passed;
};

/// @param cos_incidence  in air
inline PlateShares plate_in_air(const PaneOptics& plate, double cos_incidence) {
  const double r = kernel::reflectance(cos_incidence, plate.index).unpolarised;
  const double inside = std::sqrt(plate.index * plate.index - 1.0 + cos_incidence * cos_incidence);
  const double once = std::exp(-plate.attenuation_per_m * plate.thickness_m * plate.index / inside);
  const double passed = (1.0 - r) * (1.0 - r) * once / (1.0 - r * r * once * once);
  return {r * (1.0 + once * passed), passed};
}

struct WallOptics {
  WallKind kind;
  PaneOptics pane;
  double mirror_share;

  bool mirrors() const { return kind == WallKind::pane || (kind == WallKind::coated && mirror_share > 0.0); }

  /// Shares mirrored and let through above the water, against the cosine of incidence.
  PlateShares in_air(double cos_incidence) const {
    if (kind == WallKind::pane) return plate_in_air(pane, cos_incidence);
    return kind == WallKind::coated ? PlateShares{mirror_share, 0.0} : PlateShares{0.0, 1.0};
  }
};

/// The two walls across one axis.
struct WallPair {
  WallOptics low, high;
  double side_m;
  bool alike;  ///< equal panes: their passes need not be told apart
};

struct BraceOptics {
  double rim_m, half_cross_m;
  std::vector<double> cross_at_m;
  bool opaque;
  PaneOptics pane;

  bool any() const { return rim_m > 0.0 || (half_cross_m > 0.0 && !cross_at_m.empty()); }
};

struct CoverOptics {
  double height_m;  ///< of the lower face
  PaneOptics pane;
};

struct FittedTank {
  WallPair across_x, across_y;
  double freeboard_m;
  BraceOptics braces;
  std::optional<CoverOptics> cover;
  double slope_deviation;  ///< of the surface's slope in one direction

  /// Lowest place for a lamp.
  double top_m() const { return cover ? cover->height_m + cover->pane.thickness_m : freeboard_m; }

  bool on_brace(double x_m, double y_m) const {
    const double from_left = std::min(x_m, across_x.side_m - x_m), from_front = std::min(y_m, across_y.side_m - y_m);
    if (from_left < 0.0 || from_front < 0.0) return false;
    if (from_left < braces.rim_m || from_front < braces.rim_m) return true;
    for (const double at : braces.cross_at_m)
      if (std::abs(x_m - at) < braces.half_cross_m) return true;
    return false;
  }
};

/// Nothing for a tank that is told by Waterbody::walls alone.
std::optional<FittedTank> fitted_tank(const Waterbody& water);

}  // namespace theca::light
