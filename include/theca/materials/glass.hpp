// Soda-lime glass for panels: properties, load duration factor and design strength.
#pragma once

#include "theca/materials/material.hpp"

namespace theca::materials {

/// Annealed soda-lime silicate float glass.
Material float_glass();
/// Float glass with little iron: the same but for its colour.
Material low_iron_glass();
/// Thermally toughened soda-lime glass: stiffness and density of float glass; it cannot be cut or drilled afterwards
/// and breaks into small pieces all at once.
Material toughened_glass();
/// Laminated float glass, taken as its glass plies. Under a permanent load the interlayer creeps and the plies bend
/// separately: take each ply's own thickness, never the sum, unless the interlayer is shown to hold.
Material laminated_glass();

enum class GlassKind { annealed, toughened };
enum class GlassSurface { as_produced, sandblasted };
/// Where the tensile stress lies. Stress at an edge meets the flaws of cutting.
enum class StressedZone { surface, edge_as_cut, edge_ground, edge_polished };
/// How toughened glass was held in the furnace; tongs leave weak places.
enum class TougheningProcess { horizontal, vertical };

/// Load that stays for the life of the tank: 50 years. Its factor is the rounded 0.29 of the standard's table.
inline constexpr Time permanent_load = 50.0 * units::year;
inline constexpr Time shortest_load = 5.0 * units::second;

struct GlassStrengthInput {
  GlassKind kind = GlassKind::annealed;
  Time load_duration = permanent_load;
  GlassSurface surface = GlassSurface::as_produced;
  StressedZone zone = StressedZone::surface;
  TougheningProcess process = TougheningProcess::horizontal;
  double material_factor = 1.8;   ///< gamma_M;A, on the strength of annealed glass
  double prestress_factor = 1.2;  ///< gamma_M;v, on the prestress of toughened glass
};

/// Static fatigue: how much of its short-term strength glass keeps under a load of this duration.
///
/// k_mod = 0.663 t^(-1/16) with t in hours, 1 at most; 0.29 from 50 years on (the formula gives 0.294).
/// @param load_duration  from 5 s; any longer one up to permanent
/// @throws InvalidInput  shorter than 5 s or not finite
/// @source EN 16612:2019, eq. 9 and Table 5 (numbering from memory)
double load_duration_factor(const Time& load_duration);

/// Design value of the bending strength of soda-lime float glass.
///
/// annealed:  f = k_e k_mod k_sp f_gk / gamma_M;A
/// toughened: f = k_e k_mod k_sp f_gk / gamma_M;A + k_v (f_bk - f_gk) / gamma_M;v
/// with f_gk = 45 MPa, f_bk = 120 MPa; k_sp 1 as produced, 0.6 sandblasted; k_e 1 on the surface and for polished
/// edges, 0.8 for cut or ground edges of annealed glass; k_v 1 horizontal, 0.6 vertical process. The stress to compare
/// is the largest tensile stress under factored loads. A panel that holds water over people's heads, feet or wiring
/// needs the judgement of an engineer beside this number.
/// @throws InvalidInput  load duration as above; a factor under 1 or not finite
/// @source EN 16612:2019 eq. 6-8; strengths EN 572-1 and EN 12150-1; recommended factors of the consequence class
///         of ordinary buildings (from memory, the forms checked against published summaries)
DesignStrength glass_design_strength(const GlassStrengthInput& input = {});

}  // namespace theca::materials
