// Pump intakes: how deep the opening must lie so that the pump draws no air through a vortex.
#pragma once

#include <cmath>

#include "theca/hydraulics/friction.hpp"
#include "theca/units.hpp"

namespace theca::hydraulics {

namespace kernel {
template <class T>
T intake_froude_number(const T& inlet_diameter_m, const T& flow_m3_s) {
  using std::sqrt;
  return flow_m3_s / bore_area<T>(inlet_diameter_m) / sqrt(T(units::detail::standard_gravity) * inlet_diameter_m);
}
/// ANSI/HI 9.8; unchecked.
template <class T>
T critical_submergence(const T& inlet_diameter_m, const T& flow_m3_s) {
  return inlet_diameter_m * (T(1) + T(2.3) * intake_froude_number<T>(inlet_diameter_m, flow_m3_s));
}
}  // namespace kernel

/// Froude number of an intake, v / sqrt(g D), with the velocity in its opening.
/// @throws InvalidInput  diameter not > 0, flow negative, or not finite
double intake_froude_number(const Length& inlet_diameter, const VolumeFlow& flow);

/// Least submergence of a pump intake, water surface over the opening: S = D (1 + 2.3 Fr).
///
/// Made for the sumps of large pumps; small ones often run with less, so that it errs on the deep side here. For a
/// horizontal pipe, submergence counts to the centre of the opening.
/// @param inlet_diameter  of the opening: the bell's outside diameter, or the bore of a plain end
/// @throws InvalidInput  diameter not > 0, flow negative, or not finite
/// @source ANSI/HI 9.8 (1998), 9.8.7, after Hecker 1987
Length critical_submergence(const Length& inlet_diameter, const VolumeFlow& flow);

/// The largest flow for which a submergence meets critical_submergence().
/// @throws InvalidInput   diameter or submergence not > 0, or not finite
/// @throws OutOfValidity  submergence less than one diameter: no flow meets it
VolumeFlow flow_at_submergence(const Length& inlet_diameter, const Length& submergence);

/// How the water comes to an intake.
enum class Approach {
  symmetrical,  ///< straight on
  asymmetrical  ///< from one side, round corners, past baffles
};

/// Least submergence, water surface over the top of a horizontal intake: S = C v sqrt(D), C = 0.3 for symmetrical and
/// 0.4 for asymmetrical approach in feet and ft/s, 0.543 and 0.725 in SI.
///
/// From 29 hydroelectric intakes, metres wide; never measured at the size of a sump, where it is a second opinion. For
/// small Fr it asks less than the standard's one diameter.
/// @throws InvalidInput  diameter not > 0, flow negative, or not finite
/// @source Gordon 1970, Vortices at intakes, Water Power 22(4):137-138; from memory
Length critical_submergence_gordon(const Length& inlet_diameter, const VolumeFlow& flow, Approach approach);

/// Least submergence of a vertical pipe with its opening up, under water that turns: S = 5.6 D N^0.42 Fr^0.5.
///
/// Fitted in a laboratory with water let in through vanes: 1.1 <= Fr <= 20, 0.1875 <= N <= 1.95, and viscosity without
/// effect. The swirl of a sump is seldom known; N = 0.2 is little.
/// @param circulation_number  N = circulation x submergence / flow
/// @throws InvalidInput   diameter not > 0, flow negative, or not finite
/// @throws OutOfValidity  Fr or N outside the fitted range
/// @source Jain, Raju & Garde 1978, J. Hydraul. Div. ASCE 104(10):1429-1445; from memory
Length critical_submergence_jain(const Length& inlet_diameter, const VolumeFlow& flow, double circulation_number);

}  // namespace theca::hydraulics
