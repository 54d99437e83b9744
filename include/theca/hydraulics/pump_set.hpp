// Pumps that work together: the joint curve of pumps in parallel or in series.
#pragma once

#include <vector>

#include "theca/hydraulics/pump.hpp"
#include "theca/units.hpp"

namespace theca::hydraulics {

/// Flow of each of several pumps in parallel at one head, in their order. Each has a check valve of its own: a pump
/// whose shut-off head lies below gives nothing and nothing runs back through it. It then churns its water against a
/// shut valve and heats it: switch it off.
/// @throws InvalidInput   no pump, impossible curve, head not finite
/// @throws OutOfValidity  the head is outside what is known: above the highest shut-off head, below the last point of a
///                        pump (which would run off its curve), or above the first point of a curve that does not begin
///                        at rest
std::vector<VolumeFlow> parallel_flows(const std::vector<PumpCurve>& pumps, const Length& head);

/// Joint curve of pumps in parallel, each with a check valve: flows add at one head. Equal pumps give the scaled curve,
/// exact; unlike ones a curve through points of it, straight between them, so close that the flow is right to 0.1 % of
/// the largest flow. It reaches down to the highest of the last heads. Losses between each pump and the common header
/// are not in it.
/// @throws InvalidInput   no pump, impossible curve
/// @throws OutOfValidity  no head at which all pumps are inside their curves
PumpCurve parallel(const std::vector<PumpCurve>& pumps);

/// Joint curve of pumps in series: heads add at one flow, over the flows that all curves share. A pump that stands
/// still is no pump of this curve but a resistance, which no source gives. Equal pumps give the scaled curve, exact;
/// unlike ones as parallel().
/// @throws InvalidInput   no pump, impossible curve
/// @throws OutOfValidity  the curves share no flow
PumpCurve series(const std::vector<PumpCurve>& pumps);

}  // namespace theca::hydraulics
