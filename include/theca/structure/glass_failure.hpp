// Probability that a glass surface breaks, from its field of principal stresses: the glass failure prediction model.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "theca/structure/bend.hpp"
#include "theca/units.hpp"

namespace theca::structure {

/// A piece of one surface with the principal stresses on it, tension positive.
struct SurfaceStress {
  Area area;
  Pressure principal_max;
  Pressure principal_min;
};

/// Flaws of a glass surface, Weibull's two parameters: risk = area / 1 m2 x (stress / scale)^modulus for equal biaxial
/// tension lasting 60 s. The usual k is 1 / (1 m2 x scale^modulus).
struct SurfaceFlaws {
  double modulus = 7.0;  ///< m
  Pressure scale;        ///< stress at which 1 m2 breaks with probability 1 - 1/e
  std::string source;
};

/// m = 7, k = 2.86e-53 N^-7 m^12: window glass after years of weather.
/// @source ASTM E1300 (values checked against an open implementation of the standard's model)
SurfaceFlaws weathered_glass_flaws();
/// m = 6, k = 7.19e-45 N^-6 m^10: window glass 20 years old, one building. The two sets show how far such
/// parameters differ; glass scratched by scraping and sand may be weaker than either.
/// @source W. L. Beason, J. R. Morgan, J. Struct. Eng. 110 (1984) 197 (from memory)
SurfaceFlaws aged_glass_flaws();

/// c of the model: what a crack of any direction feels, as a share of the larger principal stress.
///
/// c = [2/pi int_0^a (cos^2 t + r sin^2 t)^m dt]^(1/m), a = pi/2 when both are tensile, else atan(sqrt(-1/r)).
/// 1 for equal biaxial tension, 0.80 for tension one way with m = 7.
/// @param ratio  r, smaller over larger principal stress, at most 1
/// @throws InvalidInput  ratio over 1 or not finite, modulus not within 1 to 50
/// @source Beason & Morgan 1984; ASTM E1300 (form from memory, checked by its closed forms)
double biaxial_correction(double ratio, double modulus);

struct GlassFailure {
  double probability = 0.0;      ///< of breakage in the life of the load, 1 - exp(-risk)
  double risk = 0.0;             ///< B
  Pressure equivalent_stress;    ///< 60 s equal biaxial tension over the whole area with the same risk
  Area area;                     ///< of all samples
  SurfaceStress worst;           ///< sample with the largest share of the risk
  double worst_share = 0.0;      ///< of the risk
  double duration_factor = 0.0;  ///< (duration / 60 s)^(1/16), on stress
};

/// Probability of breakage of annealed glass: B = sum over samples of k [c sigma_max (t_d / 60 s)^(1/16)]^m dA.
///
/// Both faces count: pass the samples of both. The edges and drilled holes are not in the model. It was fitted to
/// windows under wind of seconds to a month; for water that stands for years it is an extrapolation by static fatigue,
/// and ASTM E1300 itself leaves out tanks of water. A 10 % error of stress doubles the probability.
///
/// @param duration  of the load, 1 s to 100 years
/// @throws InvalidInput  no samples; area not > 0; stress not finite; principal_min over principal_max; duration
///                       outside its range; flaw modulus outside 1 to 50, scale not > 0
/// @source W. L. Beason, J. R. Morgan, Glass failure prediction model, J. Struct. Eng. 110 (1984) 197; ASTM E1300
GlassFailure glass_failure(std::span<const SurfaceStress> samples, const Time& duration,
                           const SurfaceFlaws& flaws = weathered_glass_flaws());

enum class PanelFace { loaded, far };

/// Samples one face of a bent panel by Gauss's rule, `cells` x `cells` cells of four points each, and more between the
/// lines around patch loads.
/// @param cells  4 to 200
/// @throws InvalidInput  cells outside its range
std::vector<SurfaceStress> sample_surface(const BentPanel& bent, PanelFace face, int cells = 24);

/// Both faces of a bent panel through `glass_failure`.
GlassFailure glass_failure(const BentPanel& bent, const Time& duration,
                           const SurfaceFlaws& flaws = weathered_glass_flaws(), int cells = 24);

/// Equivalent stress (60 s, equal biaxial) that an area bears at a probability of breakage.
/// @throws InvalidInput  probability not within 1e-9 to 0.5; area not > 0; flaws as above
Pressure equivalent_strength(const Area& area, double probability = 0.008,
                             const SurfaceFlaws& flaws = weathered_glass_flaws());

}  // namespace theca::structure
