// The pump curve for solvers in this folder: head and slope in SI numbers, continued beyond its ends.
#pragma once

#include "theca/hydraulics/pump.hpp"

namespace theca::hydraulics::detail {

struct CurveValue {
  double head_m;
  double slope_s_m2;  ///< of head to flow, <= 0; at a corner of a linear curve the slope to the right of it
};

/// The curve must be valid. Outside it the end tangents: for iterates only, an answer there must be refused.
CurveValue evaluate(const PumpCurve& curve, double flow_m3_s);

}  // namespace theca::hydraulics::detail
