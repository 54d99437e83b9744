// A pump's curve: head against flow through measured points, never read beyond them.
#pragma once

#include <vector>

#include "theca/units.hpp"

namespace theca::hydraulics {

struct CurvePoint {
  VolumeFlow flow;
  Length head;
};

/// How the curve runs between its points.
enum class Interpolation {
  monotone,  ///< smooth cubic without overshoot (Fritsch & Carlson 1980, slopes by Fritsch & Butland 1984)
  linear     ///< straight between points
};

/// At least two points, flows >= 0 strictly rising, heads >= 0 strictly falling. A curve with a hump has no single
/// duty point; give the falling part only.
struct PumpCurve {
  std::vector<CurvePoint> points;
  Interpolation interpolation = Interpolation::monotone;
};

/// @throws InvalidInput  naming the point that breaks the order
void validate(const PumpCurve& curve);

/// Head of the pump at a flow inside the curve.
/// @throws InvalidInput   impossible curve, flow not finite
/// @throws OutOfValidity  flow before the first or after the last point
/// @source Fritsch & Carlson 1980, SIAM J. Numer. Anal. 17:238-246; Fritsch & Butland 1984, SIAM J. Sci. Stat. Comput.
///         5:300-304 (weighted harmonic mean), end slopes by the three-point rule kept shape preserving
Length head(const PumpCurve& curve, const VolumeFlow& flow);

/// Largest flow at which the pump still gives a head (inverse of head()).
/// @throws OutOfValidity  head above the first or below the last point
VolumeFlow flow_at_head(const PumpCurve& curve, const Length& head);

}  // namespace theca::hydraulics
