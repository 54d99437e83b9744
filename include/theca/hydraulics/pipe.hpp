// A round pipe flowing full: its velocity, head loss and content, and the plastic pipe sizes of the trade.
#pragma once

#include <optional>
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

/// Refuses an impossible pipe.
/// @throws InvalidInput  naming the member and its range
void validate(const Pipe& pipe);

/// Inside area of a round bore.
/// @throws InvalidInput  bore not > 0
Area bore_area(const Length& bore);

/// Mean velocity, signed as the flow.
/// @throws InvalidInput  bore not > 0, flow not finite
/// @source continuity
Velocity velocity(const Pipe& pipe, const VolumeFlow& flow);

/// Head lost to wall friction and fittings; negative for a flow in the other direction.
/// @throws InvalidInput  impossible pipe or water, Re above 1e8
/// @source Darcy-Weisbach with friction_factor(), K v^2/(2g)
Length head_loss(const Pipe& pipe, const VolumeFlow& flow, const KinematicViscosity& viscosity);

/// Water in the full pipe.
/// @throws InvalidInput  impossible pipe
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
/// @throws InvalidInput  a wall that leaves no bore
Length bore(const PipeSize& size, Schedule schedule);

/// Pressure classes of metric PVC-U pipe, each of one standard; the number is the nominal pressure in bar at 20 C.
enum class MetricClass {
  water_pn10,       ///< EN ISO 1452-2 (water supply)
  water_pn16,       ///< EN ISO 1452-2
  industrial_pn10,  ///< EN ISO 15493 (industrial), series S 10 (SDR 21)
  industrial_pn16   ///< EN ISO 15493, series S 6.3 (SDR 13.6)
};

/// A size of metric PVC-U pipe; the nominal size is the outside diameter in mm.
struct MetricPipeSize {
  int nominal;                       ///< 20 to 315
  Length outside_diameter;           ///< minimum mean outside diameter, equal to the nominal size
  std::optional<Length> wall_sdr26;  ///< minimum walls; none where the series does not go so small
  std::optional<Length> wall_sdr21;
  std::optional<Length> wall_sdr17;
  Length wall_sdr13_6;
};

/// Sizes 20 to 315 mm, in rising order.
/// @source EN ISO 1452-2 table "nominal (minimum) wall thicknesses" (formerly ISO 4422-2, EN 1452-2), EN ISO
///         15493, annex for PVC-U; figures from memory, checked against the rule of ISO 4065, dn / (2 S + 1) rounded up
///         to 0.1 mm, and against walls printed by a pipe merchant for 20 to 200 mm
std::span<const MetricPipeSize> metric_pipe_sizes();

/// The size of that nominal outside diameter in mm.
/// @throws InvalidInput  unknown size; the message lists the known ones
const MetricPipeSize& metric_pipe_size(int nominal);

/// Minimum wall of a size in a class. PN 10 is SDR 21 to 90 mm; above, EN ISO 1452 allows a higher design stress
/// (coefficient 2.0 in place of 2.5), so that PN 10 is SDR 26 and PN 16 SDR 17 there, while EN ISO 15493 keeps SDR 21
/// and 13.6.
/// @throws InvalidInput  the class does not exist in that size (PN 10 below 32 mm)
Length minimum_wall(const MetricPipeSize& size, MetricClass pressure_class);

/// Outside diameter less twice the minimum wall. Tolerances (wall + 0.1 e + 0.2 mm, diameter + 0.3 mm or 0.003 dn, from
/// memory) make the bore of real pipe up to 3 % narrower in small sizes, 1 to 2 % in large ones.
/// @throws InvalidInput  as minimum_wall()
Length bore(const MetricPipeSize& size, MetricClass pressure_class);

}  // namespace theca::hydraulics
