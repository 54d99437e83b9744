// A round pipe flowing full: its velocity, head loss and content, and the plastic pipe sizes of the trade.
#pragma once

#include <span>
#include <string_view>

#include "theca/hydraulics/friction.hpp"
#include "theca/units.hpp"

namespace theca::hydraulics {

/// A length of round pipe of one bore with the fittings in it.
struct Pipe {
  Length bore;                ///< inside diameter, > 0
  Length length;              ///< >= 0
  Length roughness;           ///< equivalent sand roughness, 0 to 0.05 bore; 1.5 um for drawn plastic
  double minor_loss_K = 0.0;  ///< sum of K of the fittings in it, >= 0; see total_K()
};

/// @throws InvalidInput  naming the member that is impossible
void validate(const Pipe& pipe);

/// Inside area of a round bore.
/// @throws InvalidInput  bore not > 0
Area bore_area(const Length& bore);

/// Mean velocity, signed as the flow.
/// @throws InvalidInput  impossible pipe, flow not finite
Velocity velocity(const Pipe& pipe, const VolumeFlow& flow);

/// Head lost to wall friction and fittings; negative for a flow in the other direction.
/// @throws InvalidInput  impossible pipe or water, Re above 1e8
/// @source Darcy-Weisbach with friction_factor(), K v^2/(2g)
Length head_loss(const Pipe& pipe, const VolumeFlow& flow, const KinematicViscosity& viscosity);

/// Water in the full pipe.
Volume content(const Pipe& pipe);

/// The largest flow that keeps a pipe of this bore at or below a velocity.
/// @throws InvalidInput  bore not > 0, velocity negative
VolumeFlow flow_at_velocity(const Length& bore, const Velocity& velocity);

enum class Schedule { s40, s80 };

/// A nominal size of rigid plastic pipe in iron-pipe dimensions.
struct PipeSize {
  std::string_view nominal;  ///< in inches as the trade writes it: "1/2", "1-1/2", "3"
  Length outside_diameter;
  Length minimum_wall_s40;
  Length minimum_wall_s80;
};

/// Sizes 1/2 to 12 in, in rising order.
/// @source ASTM D1785 tables 1 and 2 (outside diameter, minimum wall), equal to the steel sizes of ASME B36.10M;
///         figures from memory, checked against the package fluids
std::span<const PipeSize> plastic_pipe_sizes();

/// The size of that nominal name.
/// @throws InvalidInput  unknown name; the message lists the known ones
const PipeSize& plastic_pipe_size(std::string_view nominal);

/// Outside diameter less twice the minimum wall: the largest bore the standard admits, e.g. 1.049 in for 1 in
/// Schedule 40. The wall tolerance is all plus (0.020 in or 12 %, from memory), so that real pipe of small sizes is
/// narrower: by about 1 to 2 %, which costs 5 to 10 % more head (an estimate; common practice, no source).
Length bore(const PipeSize& size, Schedule schedule);

}  // namespace theca::hydraulics
