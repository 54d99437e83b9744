// What a Design says, in the words of the modules: each function makes the structure that a calculation takes.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "theca/farm.hpp"
#include "theca/hydraulics.hpp"
#include "theca/light.hpp"
#include "theca/materials.hpp"
#include "theca/structure.hpp"
#include "theca/study/design.hpp"
#include "theca/thermal.hpp"

namespace theca::study {

// All throw InvalidInput where the design contradicts itself, naming what does not fit, and pass on the errors of the
// modules.

int tank_count(const Design& design);
/// Tanks with stock: all but the fallow ones.
int stocked_tanks(const Design& design);
/// @throws InvalidInput  no such kind, body, proposal; the message lists those there are
const TankKind& tank_kind(const Design& design, std::string_view name);
const LightProposal& light_proposal(const Design& design, std::string_view name);
farm::Body body(const Design& design, std::string_view name);

AbsoluteSalinity salinity(const Design& design);
/// Seawater density at the design's salinity and temperature.
Density water_density(const Design& design);

// ---- structure ----
/// Float glass with the elastic constants of the design.
materials::Material glass(const Design& design);
/// Outside dimensions with nominal thickness: for volumes and weights.
structure::TankShell shell(const Design& design, const TankKind& kind);
structure::TankShell shell(const Design& design, const Sump& sump);
/// The long wall by itself, between the middles of the end walls, full height over the base, least thickness, hinged at
/// the bottom and the sides.
structure::Panel long_wall(const Design& design, const TankKind& kind, const structure::Edge& top);
/// How the top edge of the long wall by itself is held: free, or on its rim brace.
structure::Edge top_edge(const Design& design, const TankKind& kind);
/// The adhesive of the design's joints over a bite. A thickness and a modulus that the design does not state are
/// `usual_bead_thickness` and structural silicone's.
structure::AdhesiveBead joint_bead(const Design& design, const Length& bite);
/// The tank that will be built, at its least thicknesses: joints as bonded with the bead of the design, its rim brace
/// mitred and bonded to the walls, the base on foam (`usual_foam_foundation`) or on its perimeter.
structure::Tank built_tank(const Design& design, const TankKind& kind);
/// Water at a depth in a level tank, own weight of the glass included.
structure::TankLoad tank_load(const Design& design, const Length& water_depth);
/// Gap that silicone fills between two panes of a glued tank. Common practice, no source.
inline constexpr Length usual_bead_thickness = from_si<Length>(1e-3);
/// A closed-cell foam sheet of 10 mm with a modulus of 0.2 MPa under a tank. Common practice, no source; hinged walls
/// do not feel it.
inline constexpr FoundationModulus usual_foam_foundation = from_si<FoundationModulus>(2e7);
/// Water at the running depth.
structure::PressureLoad water_load(const Design& design, const TankKind& kind);
structure::Earthquake earthquake(const Design& design);
/// Volume of water in all tanks and the sump, at their running levels.
Volume system_volume(const Design& design);

// ---- hydraulics ----
hydraulics::PumpCurve pump_curve(const Design& design);
/// Suction, main, one header for each row, one branch for each tank.
hydraulics::Manifold manifold(const Design& design);
hydraulics::Weir weir(const TankKind& kind);
/// Running level over the inside base: weir crest and the weir head of a flow.
Length running_level(const TankKind& kind, const VolumeFlow& flow);

// ---- light ----
light::Luminaire luminaire(const Design& design);
/// Walls::ignored is plain superposition, the low side. Walls::pane are the tank's own panes, clear glass with air
/// behind. Walls::mirror are walls that mirror the share stated as a variant.
/// @throws InvalidInput  Walls::mirror without that variant, Walls::each
light::Waterbody waterbody(const Design& design, const TankKind& kind, light::Walls walls = light::Walls::ignored);
std::vector<light::PlacedLuminaire> luminaires(const Design& design, const TankKind& kind,
                                               const LightProposal& proposal);
/// PPFD on the rack plane of a tank, as new.
light::PpfdMap rack_light(const Design& design, const TankKind& kind, const LightProposal& proposal,
                          light::Walls walls = light::Walls::ignored);
light::PpfdTarget light_target(const Design& design);

// ---- thermal ----
enum class Season { winter, summer, summer_hot };
/// @throws InvalidInput  summer_hot where the design states none
thermal::Room hall(const Design& design, Season season);
air::MoistAir outside(const Design& design, Season season);
/// All tanks and the sump; lights on or off, pumps always on.
thermal::TankSystem tank_system(const Design& design, Season season, bool lights_on);
thermal::Water water(const Design& design);
/// One tank of a kind on the winter design day, lights off, with its walls of glass as designed, of acrylic of the same
/// thickness, and of glass under 25 mm of insulation (0.035 W/mK): what each loses with its films, and what k/t without
/// films would say.
std::vector<thermal::TankOptionHeat> wall_options(const Design& design, std::string_view kind);

// ---- farm ----
long slots_per_tank(const Design& design, const TankKind& kind);
long all_slots(const Design& design);
/// Slots that carry stock on average: all but the share that rests.
double stocked_slots(const Design& design);
farm::Yield farm_yield(const Design& design);
/// New salt water for the regular changes, and for the tanks that are reset in the rotation, on average.
VolumeFlow water_changed(const Design& design);
VolumeFlow water_reset(const Design& design);
std::vector<farm::Task> tasks(const Design& design);
farm::Economics economics(const Design& design);

}  // namespace theca::study
