// Net positive suction head: what the sump offers, what the pump asks, and the margin between.
#pragma once

#include <vector>

#include "theca/units.hpp"

namespace theca::hydraulics {

/// The way of the water from a free surface to the pump's inlet.
struct Suction {
  AbsolutePressure surface_pressure;  ///< on the water, of the air: falls by about 12 % per 1000 m of height
  Pressure vapour_pressure;           ///< of the water at its temperature, above vacuum, >= 0
  Density density;
  Length level_above_impeller;  ///< free surface over the impeller's eye; negative for suction lift
  Length loss;                  ///< friction and fittings up to the inlet, >= 0
};

/// (p - p_v) / (density g) + level - loss; may be negative, which no pump can bear.
/// @throws InvalidInput  impossible or not finite member
/// @source definition, e.g. ANSI/HI 9.6.1 and ISO 9906
Length npsh_available(const Suction& suction);

/// Measured requirement of the pump: NPSH at which its head has fallen by 3 %.
struct NpshPoint {
  VolumeFlow flow;
  Length npsh;
};

/// Requirement between measured points: smooth cubic without overshoot.
/// @param points  two or more, flows >= 0 strictly rising, npsh >= 0
/// @throws InvalidInput   impossible points, flow not finite
/// @throws OutOfValidity  flow outside the points
/// @source Fritsch & Butland 1984, SIAM J. Sci. Stat. Comput. 5:300-304
Length npsh_required(const std::vector<NpshPoint>& points, const VolumeFlow& flow);

/// Available less required. At the required NPSH the pump already cavitates: ANSI/HI 9.6.1 asks for a ratio above 1
/// (1.1 to 1.3 for small pumps, from memory), so that a margin of nothing is none.
/// @throws InvalidInput   impossible suction or points, flow not finite
/// @throws OutOfValidity  flow outside the points
Length npsh_margin(const Suction& suction, const std::vector<NpshPoint>& points, const VolumeFlow& flow);

}  // namespace theca::hydraulics
