// How far a valve stands open at a loss coefficient: where to begin when a network is set.
#pragma once

namespace theca::hydraulics {

enum class ThrottleValve {
  gate,  ///< opening: lift of the gate over its full lift
  ball   ///< opening: 1 - angle turned from open over 90 degrees; by the table of the plug cock, whose port is alike
};

/// Opening, 0 shut to 1 open, at which a valve has this loss coefficient.
///
/// Between the points of the table ln K runs straight. Valves of other make differ: another table for gate valves has
/// half the K at half lift and a third at three quarters, so that the opening is good to 0.05 to 0.2, best where nearly
/// shut. Set the valve there, measure the flow, and adjust. A K beyond the table asks for a smaller valve or
/// two in series: near shut a small turn changes much, and a gate chatters (common practice, no source).
/// @param K  on the velocity head of the bore
/// @throws InvalidInput   K not > 0
/// @throws OutOfValidity  K outside the table: gate 0.17 to 24, ball 0.05 to 206
/// @source Perry's Chemical Engineers' Handbook, table of additional frictional loss through fittings and valves, after
///         Lapple 1949, as printed in a public copy of it; the plug cock goes back to Weisbach 1855
double valve_opening(ThrottleValve valve, double K);

/// Loss coefficient of a valve at an opening: the inverse of valve_opening().
/// @throws InvalidInput   opening not finite
/// @throws OutOfValidity  opening outside the table: gate 1/4 to 1, ball 30/90 to 85/90
double valve_K(ThrottleValve valve, double opening);

}  // namespace theca::hydraulics
