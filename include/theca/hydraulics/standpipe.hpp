// Vertical overflow pipes: what a standpipe carries down its wall, and what gets over its rim.
#pragma once

#include <cmath>

#include "theca/hydraulics/pipe.hpp"
#include "theca/units.hpp"

namespace theca::hydraulics {

namespace kernel {
/// Annular flow at terminal velocity, Wyly & Eaton 1961; unchecked.
template <class T>
T stack_capacity(const T& bore_m, const T& water_fraction) {
  using std::pow;
  const T bore_in = bore_m / T(units::inch.size.value());
  return T(27.8 * units::gpm.size.value()) * pow(water_fraction, 5.0 / 3.0) * pow(bore_in, 8.0 / 3.0);
}
/// A weir round the rim, Francis's coefficient without contractions; unchecked.
template <class T>
T rim_weir_flow(const T& bore_m, const T& head_m) {
  using std::sqrt;
  return T(1.84 * 3.14159265358979323846) * bore_m * head_m * sqrt(head_m);
}
/// Head at which the orifice takes over from the weir: where both give the same flow, 0.361 bores.
template <class T>
T drowned_rim_head(const T& bore_m) {
  using std::sqrt;
  return T(0.6 / 4.0) * sqrt(T(2 * units::detail::standard_gravity)) / T(1.84) * bore_m;
}
/// An orifice of the bore, coefficient 0.6; unchecked.
template <class T>
T rim_orifice_flow(const T& bore_m, const T& head_m) {
  using std::sqrt;
  return T(0.6) * bore_area<T>(bore_m) * sqrt(T(2 * units::detail::standard_gravity) * head_m);
}
}  // namespace kernel

/// Flow of a vertical drain at terminal velocity with the water as a ring on the wall and air in its core:
/// q = 27.8 r^(5/3) d^(8/3), gpm and inches.
///
/// @param bore            inside diameter, 1 to 12 in; measured on 3 and 4 in stacks, carried to small pipes
///                        by plumbing codes
/// @param water_fraction  share of the cross-section filled by water, 1/4 to 1/3; beyond a third the ring closes now
///                        and then, and the drain gulps
/// @throws InvalidInput   bore not > 0, fraction not finite
/// @throws OutOfValidity  bore or fraction outside that range
/// @source Wyly & Eaton 1961, Capacity of stacks in sanitary drainage systems for buildings, NBS Monograph 31
VolumeFlow stack_capacity(const Length& bore, double water_fraction = 1.0 / 3.0);

/// What holds back the flow at the rim.
enum class RimControl { weir, orifice };

struct RimFlow {
  VolumeFlow flow;
  RimControl control = RimControl::weir;
};

/// Flow over the level rim of an open vertical pipe: the smaller of a weir round its circumference,
/// 1.84 pi D H^1.5, and an orifice of its bore under the head, 0.6 A sqrt(2 g H).
///
/// The two cross at H = 0.361 D. Around that, water swirls and the truth lies below both by up to some 20 %
/// (common practice, no source). A pipe that runs full and siphons carries more; that is not counted on.
/// @param head_over_rim  water surface over the rim, >= 0
/// @throws InvalidInput  bore not > 0, head negative, or not finite
/// @source weir: Francis coefficient without end contractions; orifice: sharp-edged, C = 0.60 to 0.61, textbook value
RimFlow standpipe_rim_flow(const Length& bore, const Length& head_over_rim);

/// Head over the rim at which a flow passes: inverse of standpipe_rim_flow().
/// @throws InvalidInput  bore not > 0, flow negative, or not finite
Length standpipe_rim_head(const Length& bore, const VolumeFlow& flow);

/// How the water goes down a vertical overflow pipe.
enum class StandpipeRegime {
  weir,     ///< a film on the wall, air core open: quiet, air leaves as fast as it comes
  annular,  ///< a ring of up to a third of the section at terminal velocity; air is carried along, audible
  gulping,  ///< unstable: it fills, siphons, breaks and fills again; no steady level exists
  siphon    ///< full of water, the rim drowned
};

/// A vertical overflow pipe with its outlet.
struct Standpipe {
  Pipe pipe;    ///< its whole run; K of fittings including the entry (0.5 to 0.8 for a plain end), not the exit
  Length fall;  ///< rim over the outlet's end or over the water it ends in; > 0, at most the length
};

struct StandpipeState {
  StandpipeRegime regime = StandpipeRegime::weir;
  Length head;          ///< over the rim, the level to plan for; continuous in the flow
  Length lowest_head;   ///< to which a primed pipe draws the water down; equal to head in the weir and annular regimes
  double froude = 0.0;  ///< v / sqrt(g D) as if the pipe were full
  double uncertainty = 0.0;  ///< relative: of `head`; in the siphon regime of `head` where the full pipe sets it
};

/// Largest flow that lets its air out again against the water: v = 0.3 sqrt(g D).
/// @throws InvalidInput  bore not > 0
/// @source Hills 1983, Designing piping for gravity flow, Chem. Eng. 90(18): J_L* = 4 Q/(pi D^2 sqrt(g D)) < 0.3; after
///         Simpson 1969. As quoted by a secondary source
VolumeFlow self_venting_flow(const Length& bore);

/// Flow of the pipe running full with the water at a head over its rim: fall + h = (1 + K + f L/D) v^2/(2g).
/// @throws InvalidInput  impossible standpipe or water, head negative
VolumeFlow siphon_flow(const Standpipe& standpipe, const Length& head_over_rim, const KinematicViscosity& viscosity);

/// Regime and level that a steady flow takes.
///
/// Up to self_venting_flow() weir, up to stack_capacity() at a third annular, beyond it gulping, until the full pipe
/// needs a head that drowns the rim (0.361 D, where weir and orifice cross), siphon. The head to plan for is the larger
/// of standpipe_rim_head() and that of the full pipe: a primed pipe may run lower, none higher. Uncertainty of the head
/// 0.20 at the rim, 0.40 where it gulps, 0.10 full (estimates; common practice, no source).
/// @throws InvalidInput   impossible standpipe or water, flow negative
/// @throws OutOfValidity  bore outside that of stack_capacity()
/// @source Wyly & Eaton 1961; Hills 1983; energy equation with friction_factor()
StandpipeState standpipe_state(const Standpipe& standpipe, const VolumeFlow& flow, const KinematicViscosity& viscosity);

/// Largest flow that a standpipe takes with its water no higher than a head over the rim, and in no regime beyond the
/// one allowed: inverse of standpipe_state().head.
/// @param highest_head  over the rim, >= 0
/// @param allowed       `annular` is the usual limit, `weir` a quiet pipe; `siphon` sets no limit but the head
/// @throws InvalidInput   impossible standpipe or water, head negative
/// @throws OutOfValidity  bore outside that of stack_capacity()
/// @source as standpipe_state()
VolumeFlow standpipe_flow(const Standpipe& standpipe, const Length& highest_head, StandpipeRegime allowed,
                          const KinematicViscosity& viscosity);

/// Flow above which the pipe runs full for good: the siphon with the rim just drowned, 0.361 D under water. From
/// stack_capacity() at a third up to this flow it gulps.
/// @throws InvalidInput  impossible standpipe or water
VolumeFlow siphon_start_flow(const Standpipe& standpipe, const KinematicViscosity& viscosity);

}  // namespace theca::hydraulics
