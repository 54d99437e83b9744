// The duty point: where a pump's curve meets the system curve of one line of pipes.
#pragma once

#include <vector>

#include "theca/hydraulics/pipe.hpp"
#include "theca/hydraulics/pump.hpp"

namespace theca::hydraulics {

/// Pipes in series from one free surface to another.
struct PipeLine {
  Length static_head;  ///< level of discharge over level of the intake's free surface, any sign
  std::vector<Pipe> pipes;
};

/// System curve: head that a flow asks of the pump.
/// @throws InvalidInput  impossible pipe or water, no pipe, negative flow, Re above 1e8
Length system_head(const PipeLine& line, const VolumeFlow& flow, const KinematicViscosity& viscosity);

struct DutyPoint {
  VolumeFlow flow;
  Length head;                       ///< of the pump
  std::vector<Velocity> velocities;  ///< in each pipe of the line, in their order
  Length residual;                   ///< pump head less system head at that flow
  int iterations = 0;                ///< evaluations of the root search
};

/// Flow and head at which pump and line agree.
///
/// The pump's head falls and the system's rises with flow, so there is one crossing at most; it is bracketed by the
/// ends of the curve and closed with TOMS 748 to the last bits of the flow.
/// @throws InvalidInput   impossible curve, pipe or water
/// @throws OutOfValidity  the pump cannot reach the static head, or the curve ends before the crossing
/// @throws NotConverged   the root search did not close the bracket
/// @source Alefeld, Potra & Shi 1995, ACM Trans. Math. Softw. 21:327-344 (algorithm 748)
DutyPoint duty_point(const PipeLine& line, const PumpCurve& pump, const KinematicViscosity& viscosity);

}  // namespace theca::hydraulics
