// Efficiency and power of a pump, and how far its duty lies from its best point.
#pragma once

#include <vector>

#include "theca/hydraulics/pump.hpp"
#include "theca/units.hpp"

namespace theca::hydraulics {

struct EfficiencyPoint {
  VolumeFlow flow;
  double efficiency = 0.0;  ///< hydraulic over shaft power, or over electric power if so measured; 0..1
};

/// Power given to the water: density g flow head.
/// @throws InvalidInput  flow or head negative, density not > 0
Power hydraulic_power(const VolumeFlow& flow, const Length& head, const Density& density);

/// Efficiency between measured points: smooth cubic without overshoot.
/// @param points  two or more, flows >= 0 strictly rising, efficiencies 0..1
/// @throws InvalidInput   impossible points, flow not finite
/// @throws OutOfValidity  flow outside the points
/// @source Fritsch & Butland 1984, SIAM J. Sci. Stat. Comput. 5:300-304
double efficiency(const std::vector<EfficiencyPoint>& points, const VolumeFlow& flow);

/// Power that the pump draws at a flow: hydraulic power over efficiency. Of the shaft or of the motor, as the
/// efficiency.
/// @throws InvalidInput   impossible points or density
/// @throws OutOfValidity  flow outside curve or points, or no efficiency there (at rest: 0/0, give a measured power)
Power power_drawn(const PumpCurve& curve, const std::vector<EfficiencyPoint>& points, const VolumeFlow& flow,
                  const Density& density);

/// The measured point of highest efficiency.
/// @throws InvalidInput  impossible points
EfficiencyPoint best_efficiency_point(const std::vector<EfficiencyPoint>& points);

/// Where a pump may run, as fractions of its flow at best efficiency.
struct OperatingRegion {
  double preferred_low = 0.7;
  double preferred_high = 1.2;
  double allowable_low = 0.0;   ///< of the maker: no standard gives it; > 0
  double allowable_high = 0.0;  ///< of the maker
};

enum class Operation { preferred, allowable, outside };

/// Where a flow lies. Both regions move with the speed: give the best flow at the pump's real speed.
/// @throws InvalidInput  flow negative, best flow not > 0, or limits not 0 < allowable_low <= preferred_low <
///                       preferred_high <= allowable_high
/// @source ANSI/HI 9.6.3: preferred 70 to 120 % of best flow for radial pumps (80 to 115 % at high specific
///         speed), from memory; the allowable region is the maker's by that standard
Operation operation(const OperatingRegion& region, const VolumeFlow& flow, const VolumeFlow& best_flow);

}  // namespace theca::hydraulics
