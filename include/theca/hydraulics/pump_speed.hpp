// A pump's whole curve at another speed, or after wear.
#pragma once

#include "theca/hydraulics/pump.hpp"
#include "theca/units.hpp"

namespace theca::hydraulics {

/// Range of the affinity laws here, speed over that of the measured curve. Losses by friction and in the gaps do not
/// follow the laws: below about half speed they weigh more (common practice: 0.5 to 1.2, no source).
inline constexpr double lowest_speed_ratio = 0.5;
inline constexpr double highest_speed_ratio = 1.2;

/// The curve at another speed: every point's flow as the ratio, its head as the ratio squared. The duty point does not
/// follow the laws where there is static head: cross this curve with the system's anew.
/// @throws InvalidInput   impossible curve, ratio not finite
/// @throws OutOfValidity  ratio outside 0.5..1.2. Above 1 the motor's load rises with the cube: see that
///                        it and the pump are rated for it
/// @source affinity laws, e.g. Karassik et al., Pump Handbook (from memory)
PumpCurve at_speed(const PumpCurve& curve, double speed_ratio);

/// Efficiency at another speed of the point that the affinity laws carry along: 1 - (1 - e)(1/r)^0.1.
///
/// Good to about 0.02 for large pumps; small ones lose more, and the drive's own losses are not in it.
/// @param efficiency  of the pump at the speed of its curve, 0..1
/// @throws InvalidInput   efficiency outside 0..1, or so low and the speed so slow that none is left
/// @throws OutOfValidity  ratio outside 0.5..1.2
/// @source Sarbu & Borza 1998, Periodica Polytechnica Mech. Eng. 42:191-202, recommended by Simpson & Marchi 2013, J.
///         Hydraul. Eng. 139:1314-1317 (from memory)
double efficiency_at_speed(double efficiency, double speed_ratio);

/// Speed over that of the curve at which the pump gives this head at this flow (speed control to a set point).
/// @param flow  >= 0
/// @param head  > 0
/// @throws InvalidInput   impossible curve, flow negative, head not > 0
/// @throws OutOfValidity  no speed of 0.5..1.2 gives it inside the curve
/// @throws NotConverged   the root search did not close
double speed_ratio_for(const PumpCurve& curve, const VolumeFlow& flow, const Length& head);

/// The curve of a worn pump: every point's flow and head times a factor. Open wear rings leak from outlet to inlet
/// (flow falls), a worn impeller gives less head. The factors come from a measurement; no source gives them in general.
/// @param flow_factor  of the flow that is left, > 0 to 1
/// @param head_factor  of the head that is left, > 0 to 1
/// @throws InvalidInput  impossible curve or factor
PumpCurve worn(const PumpCurve& curve, double flow_factor, double head_factor);

}  // namespace theca::hydraulics
