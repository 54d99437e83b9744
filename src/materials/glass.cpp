// Soda-lime glass: properties and the design strength of EN 16612.
#include "theca/materials/glass.hpp"

#include <cmath>

#include "theca/require.hpp"

namespace theca::materials {
namespace {

using namespace theca::literals;

Material soda_lime(std::string name, std::string note) {
  return {.name = std::move(name),
          .youngs_modulus = 70_GPa,
          .poisson_ratio = 0.22,
          .density = 2500_kg_m3,
          .thermal_conductivity = 1.0_W_mK,
          .specific_heat_capacity = 720.0 * units::joule_per_kilogram_kelvin,
          .thermal_expansion = 9e-6 * units::per_kelvin,
          .refractive_index = 1.50,
          .emissivity = 0.837,
          .source =
              "EN 572-1 general properties; Poisson's ratio 0.22 after EN 16612 and ASTM E1300 (EN 572-1 prints "
              "0.2); emissivity EN 673, corrected value of uncoated glass" +
              std::move(note)};
}

constexpr double annealed_MPa = 45.0;    // EN 572-1, characteristic bending strength
constexpr double toughened_MPa = 120.0;  // EN 12150-1, from float glass

}  // namespace

Material float_glass() { return soda_lime("float glass", ""); }
Material low_iron_glass() { return soda_lime("low-iron glass", "; taken as float glass, common practice, no source"); }
Material toughened_glass() { return soda_lime("toughened glass", "; EN 12150-1 gives the same values"); }
Material laminated_glass() { return soda_lime("laminated glass", "; glass plies only, interlayer left out"); }

double load_duration_factor(const Time& load_duration) {
  require::that(load_duration >= shortest_load && std::isfinite(si(load_duration)), "load duration", load_duration,
                ">= 5 s and finite");
  if (load_duration >= permanent_load) return 0.29;
  const double hours = in(load_duration, units::hour);
  return std::fmin(1.0, 0.663 * std::pow(hours, -1.0 / 16.0));
}

DesignStrength glass_design_strength(const GlassStrengthInput& input) {
  const auto factor = [](std::string_view name, double value) {
    require::that(value >= 1.0 && std::isfinite(value), name, value, ">= 1 and finite");
  };
  factor("material factor", input.material_factor);
  factor("prestress factor", input.prestress_factor);
  const bool toughened = input.kind == GlassKind::toughened;
  const double k_mod = load_duration_factor(input.load_duration);
  const double k_sp = input.surface == GlassSurface::sandblasted ? 0.6 : 1.0;
  // Toughened glass has its edges ground before the furnace and is not reduced there.
  const bool weak_edge = input.zone == StressedZone::edge_as_cut || input.zone == StressedZone::edge_ground;
  const double k_e = weak_edge && !toughened ? 0.8 : 1.0;
  const double k_v = input.process == TougheningProcess::vertical ? 0.6 : 1.0;

  double strength_MPa = k_e * k_mod * k_sp * annealed_MPa / input.material_factor;
  if (toughened) strength_MPa += k_v * (toughened_MPa - annealed_MPa) / input.prestress_factor;
  return {.value = strength_MPa * units::megapascal,
          .basis = std::string(toughened ? "toughened" : "annealed") + " soda-lime glass, load lasting " +
                   text(input.load_duration) + ", k_mod " + text(k_mod, "") + ", k_e " + text(k_e, "") + ", k_sp " +
                   text(k_sp, "") + ", material factor " + text(input.material_factor, "") +
                   (toughened ? ", k_v " + text(k_v, "") + ", prestress factor " + text(input.prestress_factor, "")
                              : std::string()) +
                   "; to be compared with the largest tensile stress under factored loads",
          .source = "EN 16612:2019, characteristic strengths EN 572-1 and EN 12150-1"};
}

}  // namespace theca::materials
