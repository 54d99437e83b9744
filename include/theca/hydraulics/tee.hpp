// Tees and wyes whose loss depends on the share of the flow that turns: dividing and combining, run and branch.
#pragma once

#include "theca/units.hpp"

namespace theca::hydraulics {

namespace kernel {

/// Losses of total head over the velocity head of the combined flow; negative where a stream gains head.
template <class T>
struct TeeLoss {
  T run_K;
  T branch_K;
};

namespace detail {
template <class T>
T larger(const T& a, const T& b) {
  return a < b ? b : a;
}
}  // namespace detail

/// One stream splits. Continuous in the share; slopes jump where two branches of a published rule cross.
/// @param share       flow of the branch over the combined flow, 0..1
/// @param area_ratio  branch area over run area, 0.01..1
/// @param cosine      of the angle between branch and onward run; 0 for a tee
template <class T>
TeeLoss<T> dividing_tee(const T& share, const T& area_ratio, const T& cosine) {
  const T v = share / area_ratio;
  const bool narrow = !(T(0.35) < area_ratio);
  const T A = narrow ? detail::larger(T(1.1) - T(0.7) * share, T(0.85)) : detail::larger(T(1) - T(0.6) * share, T(0.6));
  const T skew = T(2) * share - T(1);
  const T tau = !(T(0.4) < area_ratio) ? T(0.4) : (share < T(0.5) ? T(2) * skew : T(0.3) * skew);
  return {tau * share * share, A * (T(1) + v * v - T(2) * v * cosine)};
}

/// Two streams join. Parameters as in dividing_tee().
template <class T>
TeeLoss<T> combining_tee(const T& share, const T& area_ratio, const T& cosine) {
  const T v = share / area_ratio;
  const T rest = T(1) - share;
  const bool narrow = !(T(0.35) < area_ratio);
  const T A = narrow ? T(1) : detail::larger(T(0.9) * rest, T(0.55));
  const T turned = T(2) * share * v * cosine;
  const bool square = !(T(1e-9) < cosine);
  const T run = square ? (T(1.55) - share) * share : T(1) - rest * rest - turned;
  return {run, A * (T(1) + v * v - T(2) * rest * rest - turned)};
}

/// One stream enters by the branch and splits into the run: loss into one side, over the velocity head in the branch.
/// @param share  flow of that side over the flow of the branch, 0..1
template <class T>
T dividing_bullhead(const T& share, const T& area_ratio) {
  const T v = share * area_ratio;
  return T(1) + T(1.5) * v * v;
}

/// Two streams enter by the run and leave by the branch. Parameters as in dividing_bullhead().
template <class T>
T combining_bullhead(const T& share, const T& area_ratio) {
  return T(1) + area_ratio * area_ratio * (T(1) + T(3) * share * (share - T(1)));
}

}  // namespace kernel

/// A tee or wye whose run keeps its bore.
struct Tee {
  Length run_bore;
  Length branch_bore;                  ///< area 0.01 to 1 of the run's
  Angle angle = 90.0 * units::degree;  ///< between branch and the onward run: 90 (tee), or 30 to 60 degrees (wye)
};

/// Loss coefficients on the velocity head of the combined flow. They are of total head: with them a network must count
/// the velocity head of each leg, or, as is usual, leave out both where the legs are equally fast.
struct TeeLoss {
  double run_K;               ///< combined to run or run to combined; negative: the run gains head
  double branch_K;            ///< combined to branch or branch to combined; negative: the branch is drawn along
  double run_uncertainty;     ///< half width, on K
  double branch_uncertainty;  ///< half width, on K
};

/// One stream splits into run and branch.
///
/// Branch: A (1 + v^2 - 2 v cos a), v = velocity of the branch over that of the combined flow; A = 1.1 - 0.7 q but not
/// below 0.85 for area ratios to 0.35, else 1 - 0.6 q but not below 0.6. Run: t q^2, t = 0.4 for area ratios to 0.4,
/// else 2 (2 q - 1) for q up to a half and 0.3 (2 q - 1) above. Fully turbulent flow (Re above about 1e4), sharp
/// edges, legs straight for some bores. Printed rules for A change over at q = 0.4 and 0.6, where they jump by up to
/// 0.04; here they change over where they cross (0.357 and 0.667), so that K is continuous in q. In the area ratio A
/// and t jump at 0.35 and 0.4 as printed; their first columns, up to there, have no lower end.
/// @param branch_share  q, flow of the branch over the combined flow, 0..1
/// @throws InvalidInput   bore not > 0, share outside 0..1
/// @throws OutOfValidity  area ratio outside 0.01..1, angle neither 90 degrees nor 30..60
/// @source Idelchik 2006, Handbook of Hydraulic Resistance, 3rd ed., section 7, equation p. 418, table 7-4,
///         diagram 7-20 (p. 453), read in the open library FluidDissipation (dp_Tsplit). Run equal to Crane TP-410
///         (2009), eq. 2-37, in the package fluids; the branch of a tee there is (1 + 0.3 q^2)(1 + 0.3 v^2), 1.69 at q
///         = 1 and equal bores where Idelchik's is 1.2. Uncertainty: no source prints one; 0.2, or 20 % of a K above 1,
///         covers the distance to Bassett, Winterbone & Pearson 2001, Proc. IMechE C 215:861-881 (from memory) at equal
///         bores, and mouldings whose edges are not sharp (an estimate); that of the branch of a tee is never less than
///         the distance to Crane, which for bores up to 2/3 is 1 + v^2 (from memory)
TeeLoss dividing_tee(const Tee& tee, double branch_share);

/// Run and branch join into one stream.
///
/// Branch: A (1 + v^2 - 2 (1-q)^2 - 2 q v cos a), A = 1 for area ratios to 0.35, else 0.9 (1 - q) but not below 0.55
/// (printed: change over at q = 0.4, with a jump of 2 %; here where they cross, 0.389). Run: 1.55 q - q^2 at 90
/// degrees, 1 - (1-q)^2 - 2 q v cos a for a wye. Range, parameters and errors as dividing_tee().
/// @source Crane TP-410 (2009), eq. 2-35 and 2-36, in the package fluids 1.0.22; there 2 cos a is tabled as 1.74, 1.41
///         and 1 at 30, 45 and 60 degrees. The same in Idelchik 2006, section 7. Uncertainty as for dividing_tee()
TeeLoss combining_tee(const Tee& tee, double branch_share);

/// A tee whose branch feeds both sides of the run (bull-head): K into the side with this share, 1 + 1.5 u^2, on the
/// velocity head in the branch; u = velocity in that side over that in the branch. A side without flow has lost the
/// whole velocity head.
/// @param side_share  flow of that side over that of the branch, 0..1
/// @throws InvalidInput   bore not > 0, share outside 0..1
/// @throws OutOfValidity  area ratio outside 0.01..1, angle not 90 degrees
/// @source Idelchik 2006, section 7, diagram 7-29 (p. 472), read in the open library FluidDissipation
///         (dp_Tsplit_symmetric): 1.5 for a standard threaded tee, less where the edges are rounded (0.3 for a welded
///         one, from memory)
double dividing_bullhead_K(const Tee& tee, double side_share);

/// A tee whose branch takes what both sides of its run bring: K from the side with this share,
/// 1 + n^2 (1 - 3 s (1 - s)), n = area ratio, s = share; the same for both sides. Velocity head, parameters and errors
/// as dividing_bullhead_K().
/// @source Idelchik 2006, section 7, diagram 7-29 (p. 471), read in FluidDissipation (dp_Tjoin_symmetric), which
///         multiplies it by the factor A of section 7, here 1: for equal shares it is then 1 + n^2/4, which is the
///         balance of momentum along the branch
double combining_bullhead_K(const Tee& tee, double side_share);

/// Losses of total head in a tee, in m of water; negative where a stream gains head.
struct TeeHeadLoss {
  Length run;
  Length branch;
};

/// dividing_tee() for flows: both leave.
/// @throws InvalidInput  a flow negative or not finite; and as dividing_tee()
TeeHeadLoss dividing_tee_head_loss(const Tee& tee, const VolumeFlow& run_flow, const VolumeFlow& branch_flow);

/// combining_tee() for flows: both enter.
/// @throws InvalidInput  a flow negative or not finite; and as combining_tee()
TeeHeadLoss combining_tee_head_loss(const Tee& tee, const VolumeFlow& run_flow, const VolumeFlow& branch_flow);

}  // namespace theca::hydraulics
