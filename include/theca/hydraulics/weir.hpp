// Overflow weirs: flow over a sharp straight crest from the weir head, and the weir head from the flow.
#pragma once

#include <cmath>

#include "theca/units.hpp"

namespace theca::hydraulics {

namespace kernel {
/// Francis's formula; unchecked.
template <class T>
T weir_flow(const T& crest_length_m, int end_contractions, const T& head_m) {
  using std::sqrt;
  return T(1.84) * (crest_length_m - T(0.1 * end_contractions) * head_m) * head_m * sqrt(head_m);
}
}  // namespace kernel

/// A level, smooth, sharp crest with free fall behind it.
struct Weir {
  Length crest_length;       ///< > 0
  int end_contractions = 2;  ///< ends that stand clear of the side walls: 0, 1 or 2
};

/// Flow over a weir: Q = 1.84 (L - 0.1 n H) H^1.5 (SI).
///
/// Francis measured heads of 0.18 to 0.49 m on crests of 2.4 to 3 m. At the small heads of tank overflows (below about
/// 30 mm) surface tension and viscosity act: a clinging nappe passes up to some 15 % more than stated, a wet rim may
/// pass nothing below a few millimetres. weir_in_fitted_range() says whether an answer lies there.
/// @param weir_head  water surface over the crest, upstream of its drawdown, 0 to a third of the crest length
/// @throws InvalidInput   impossible weir, head negative or not finite
/// @throws OutOfValidity  head more than a third of the crest length, Francis's own limit
/// @source Francis 1855, Lowell Hydraulic Experiments: 3.33 (L - 0.1 n H) H^1.5 in feet; 3.33 ft^0.5/s = 1.84 m^0.5/s
VolumeFlow weir_flow(const Weir& weir, const Length& weir_head);

/// Weir head that passes a flow: the inverse, converged to rounding.
/// @throws InvalidInput   impossible weir, flow negative or not finite
/// @throws OutOfValidity  the flow needs more head than a third of the crest length
Length weir_head(const Weir& weir, const VolumeFlow& flow);

/// True where the weir formula rests on measurement: 30 mm <= head <= a third of the crest length.
/// @source lower limit: ISO 1438, smallest head of rectangular thin-plate weirs, 0.03 m; from memory
bool weir_in_fitted_range(const Weir& weir, const Length& weir_head);

/// Crest length that passes a flow at a weir head.
/// @throws InvalidInput   flow or head not > 0
/// @throws OutOfValidity  the head is more than a third of the crest length found
Length weir_crest_for(const VolumeFlow& flow, const Length& weir_head, int end_contractions);

}  // namespace theca::hydraulics
