// Measured weirs: rectangular and triangular notches in a thin plate, combs of slots and broad crests, with their
// spread.
#pragma once

#include "theca/units.hpp"

namespace theca::hydraulics {

/// Flow over a weir and how well it is known.
struct WeirFlow {
  VolumeFlow flow;
  double spread = 0.0;           ///< relative, about two standard deviations
  bool in_fitted_range = false;  ///< every limit of the source is kept
};

/// Spread stated outside a fitted range: mostly a head or notch smaller than any that was measured, where surface
/// tension acts, else one larger (common practice, no source).
inline constexpr double spread_outside_fit = 0.15;

/// A rectangular notch in a vertical thin plate across a channel, nappe aerated.
struct ThinPlateWeir {
  Length crest_length;   ///< > 0; that of the channel when the plate has no sides
  Length channel_width;  ///< at least the crest length
  Length crest_height;   ///< of the crest over the bottom upstream, > 0
};

/// Q = Ce (2/3) sqrt(2 g) (b + kb) (h + 1 mm)^1.5 with Ce = a + a' h/p.
///
/// Fitted: h >= 30 mm, b >= 150 mm, p >= 100 mm. Spread 1.5 % up to h/p = 1, 2 % up to 1.5, 3 % up to 2.5. A smaller
/// head or crest is answered with spread_outside_fit and in_fitted_range false; below b = 150 mm kb shrinks in
/// proportion to b, so that it adds no more than 3 %.
/// @param head  water surface over the crest, upstream of its drawdown, >= 0
/// @throws InvalidInput   impossible weir, head negative or not finite
/// @throws OutOfValidity  head over 2.5 times the crest height
/// @source Kindsvater & Carter 1957, J. Hydraul. Div. ASCE 83(6); a, a' and kb by b/B as tabled in ISO 1438 and
///         Bos 1989, from memory, between the ratios straight lines; full width checked against the package fluids,
///         b/B = 1 and 1/2 against a published excerpt of the table
WeirFlow thin_plate_weir_flow(const ThinPlateWeir& weir, const Length& head);

/// Head that passes a flow. It is 0 for a flow below what the 1 mm added to the head lets through at once.
/// @throws InvalidInput   impossible weir, flow negative or not finite
/// @throws OutOfValidity  it would be over 2.5 times the crest height
/// @throws NotConverged   the root search did not close
Length thin_plate_weir_head(const ThinPlateWeir& weir, const VolumeFlow& flow);

/// Rehbock's form for a plate across the whole channel: Q = (2/3) sqrt(2 g) (0.602 + 0.083 h/p) b (h + 1.25 mm)^1.5.
///
/// Fitted: 30 mm <= h <= 0.75 m, b >= 0.3 m, p >= 0.1 m, h/p <= 1; the spread as in thin_plate_weir_flow().
/// @throws InvalidInput   impossible weir, not of full width, head negative or not finite
/// @throws OutOfValidity  head over the crest height
/// @source Rehbock 1929, Trans. ASCE 93:1143-1162, in the form of ISO 1438; limits as in the package fluids 1.0.22
WeirFlow rehbock_weir_flow(const ThinPlateWeir& weir, const Length& head);

/// A triangular notch, point down, fully contracted.
struct VNotch {
  Angle opening;        ///< whole angle, 20 to 100 degrees
  Length notch_height;  ///< of the point over the bottom upstream, > 0
};

/// Q = Ce (8/15) sqrt(2 g) tan(theta/2) (h + kh)^2.5, Ce and kh from the angle.
///
/// Fitted: h >= 60 mm, p >= 90 mm, h/p <= 1.2 as partially contracted at 90 degrees, 0.4 fully contracted; the limit
/// kept here is 0.4. Spread 2 %; outside these limits spread_outside_fit.
/// @throws InvalidInput   impossible notch, head negative or not finite
/// @throws OutOfValidity  angle outside 20 to 100 degrees
/// @source Kindsvater & Shen, USGS Water-Supply Paper 1617-B (1981) and ISO 1438; polynomials for the curves of Ce and
///         kh as in public code for this formula; checked against USBR, Water Measurement Manual (2001), eq. 7-6, at 90
///         degrees
WeirFlow v_notch_flow(const VNotch& notch, const Length& head);

/// Head that passes a flow. It is 0 for a flow below what the kh added to the head lets through at once.
/// @throws InvalidInput   impossible notch, flow negative or not finite
/// @throws OutOfValidity  angle outside 20 to 100 degrees
/// @throws NotConverged   the root search did not close
Length v_notch_head(const VNotch& notch, const VolumeFlow& flow);

/// A comb of equal upright slots between teeth, as in an overflow box.
struct CombWeir {
  int slots = 0;       ///< >= 1
  Length slot_width;   ///< > 0
  Length tooth_width;  ///< >= 0
  Length slot_height;  ///< > 0
};

/// n slots side by side, each a contracted notch of its pitch: Q = n Ce (2/3) sqrt(2 g) b h^1.5, Ce by b/B as for deep
/// water. Never in a fitted range: such narrow slots were not measured; spread 20 % (an estimate), and growth on the
/// teeth takes more. No width or head is added for surface tension, so that it errs on the deep side.
/// @param head  over the slots' floor
/// @throws InvalidInput   impossible comb, head negative or not finite
/// @throws OutOfValidity  the head tops the teeth
/// @source Ce of Kindsvater & Carter 1957, at h/p = 0
WeirFlow comb_weir_flow(const CombWeir& comb, const Length& head);

/// Head that passes a flow, exact.
/// @throws InvalidInput   impossible comb, flow negative or not finite
/// @throws OutOfValidity  the flow tops the teeth
Length comb_weir_head(const CombWeir& comb, const VolumeFlow& flow);

/// A level crest long enough for the water to run parallel over it; sharp upstream edge.
struct BroadCrest {
  Length crest_length;   ///< across the flow, > 0
  Length crest_breadth;  ///< along the flow, > 0
  Length crest_height;   ///< over the bottom upstream, > 0
};

/// Q = 0.848 (2/3)^1.5 sqrt(g) b H^1.5.
///
/// Fitted: 60 mm <= H, 0.08 <= H/L <= 0.33, H/(H + p) <= 0.35, L the breadth along the flow. Spread 5 % there, outside
/// these limits spread_outside_fit.
/// @throws InvalidInput   impossible crest, head negative or not finite
/// @throws OutOfValidity  head over 0.33 of the breadth: a short crest, which passes more
/// @source Bos 1989, Discharge Measurement Structures, ILRI 20, round and square edged broad crests (ISO 3846 has the
///         same form); coefficient and limits from memory
WeirFlow broad_crest_flow(const BroadCrest& crest, const Length& head);

/// Head that passes a flow, exact.
/// @throws InvalidInput   impossible crest, flow negative or not finite
/// @throws OutOfValidity  it would be over 0.33 of the breadth
Length broad_crest_head(const BroadCrest& crest, const VolumeFlow& flow);

}  // namespace theca::hydraulics
