// Waves that a hand drives while scraping: damping, growth stroke by stroke, what goes over the rim, what a brace
// meets.
#pragma once

#include "theca/units.hpp"

namespace theca::structure {

/// Water that stands in a rectangular tank, waves along `length`.
struct WaveBasin {
  Length length, width, depth;  ///< inside
  Density density;
  KinematicViscosity viscosity;
  Acceleration gravity = standard_gravity;
};

/// Whether the surface is clean, or held by a film as it mostly is in a stocked tank.
enum class Surface { clean, film };

/// Damping ratio of a standing wave by friction in the layers at walls and bottom, inside the water, and under a film.
///
/// A lower limit: contact lines, racks, stock and breaking take more, so waves grow less than with this figure.
/// @throws InvalidInput  a value not > 0 and finite, mode outside 1 to 100
/// @throws OutOfValidity  the layer, sqrt(2 nu / omega), is over a tenth of the smallest size
/// @source dissipation (rho U^2 / 2) sqrt(nu omega / 2) of an oscillating layer, G. G. Stokes 1851, and 2 nu k^2
/// inside,
///         H. Lamb, Hydrodynamics, art. 345 and 348; in basins G. H. Keulegan, J. Fluid Mech. 6 (1959); film J. W.
///         Miles, Proc. R. Soc. A 297 (1967) (all from memory; tested by quadrature of the field)
double wave_damping(const WaveBasin& basin, Surface surface, int mode = 1);

/// A blade or hand that goes to and fro.
struct Stroke {
  Length amplitude;               ///< half of the way from end to end
  Frequency rate;                 ///< full strokes, to and fro, per time
  Area blade;                     ///< across the stroke
  double drag_coefficient = 2.0;  ///< of a flat plate across the flow, about 2: S. F. Hoerner 1965 (from memory)
  Volume added_volume;            ///< of water carried with it; zero leaves it out
  Length place;                   ///< of the middle of the stroke from one end wall, inside the length
  Length height;                  ///< of the blade over the inside base, up to the depth
};

/// Amplitude of the blade's push on the water, in step with the strokes: drag (first harmonic 8 / 3 pi) and inertia.
/// @throws InvalidInput  amplitude, rate, blade or density not > 0, drag coefficient or added volume negative
/// @source J. R. Morison et al. 1950 with Lorentz' linearised drag (from memory)
Force stroke_force(const Stroke& stroke, const Density& density);

struct HandWave {
  Length per_stroke;  ///< growth of the amplitude by the first full stroke at exact resonance, undamped
  Length amplitude;   ///< bound of the amplitude at an end wall after the strokes
  Length steady;      ///< after very many strokes
  double rate_ratio;  ///< strokes over the natural frequency of the mode
  double steepness;   ///< k times amplitude: linear theory is good to about 0.2 (common practice, no source)
  bool linear;        ///< steepness <= 0.2 and amplitude <= a fifth of the depth
};

/// Linear response of one mode to `strokes` strokes from rest. A blade drives a mode best at its nodes: in mid-length
/// for the first mode, not at the wall.
///
/// The amplitude is the envelope |1 - exp(-zeta w t + i (w_d - W) t)| of the forced and the dying free wave; it holds
/// near resonance and bounds nothing to better than |W - w| / w away from it.
/// @param damping  ratio, > 0, under 1, e.g. of wave_damping()
/// @throws InvalidInput  values outside the ranges above, strokes outside 1 to 100000
/// @source H. Lamb, Hydrodynamics; modal mass rho b L / (2 k tanh kh), derived from the energies of a standing wave
HandWave hand_wave(const WaveBasin& basin, const Stroke& stroke, double damping, int strokes, int mode = 1);

struct RimWave {
  Length over_rim;     ///< crest at the end wall over the rim or brace underside, zero if under it
  Volume over_level;   ///< water above that level at the crest's moment, over the tank's width
  Volume under_brace;  ///< part of it beneath the brace: the brace can turn it back at best
  Volume past_brace;   ///< part of it inward of the brace: the brace cannot
  Length reach;        ///< how far from the wall the linear crest stands over the level
};

/// Linear crest a cos(kx) against a level, and the share that stands beneath a brace along the end wall.
///
/// Geometry only: what is above the level is taken as lost in one half period, an upper figure for a rimless edge; a
/// crest that hits a brace also shoots along it, which no simple rule is known for. Take `past_brace` as surely lost
/// and the rest as doubtful.
/// @param amplitude    of the first mode at the end wall, >= 0
/// @param freeboard    rim, or brace underside, over the water at rest, >= 0
/// @param brace_width  0 for none, up to half of the length
/// @throws InvalidInput  values outside these ranges
RimWave rim_wave(const WaveBasin& basin, const Length& amplitude, const Length& freeboard,
                 const Length& brace_width = Length());

}  // namespace theca::structure
