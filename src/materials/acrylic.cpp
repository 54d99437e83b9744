// Cast acrylic: properties and the stress it bears for years.
#include "theca/materials/acrylic.hpp"

#include <array>
#include <cmath>

#include "theca/require.hpp"

namespace theca::materials {

using namespace theca::literals;

Material acrylic() {
  return {.name = "cast acrylic",
          .youngs_modulus = 3.3_GPa,
          .poisson_ratio = 0.37,
          .density = 1190_kg_m3,
          .thermal_conductivity = 0.19_W_mK,
          .specific_heat_capacity = 1470.0 * units::joule_per_kilogram_kelvin,
          .thermal_expansion = 7e-5 * units::per_kelvin,
          .refractive_index = 1.49,
          .emissivity = 0.90,
          .source =
              "published data sheets of cast PMMA sheet (tests after ISO 527, ASTM D792, C177, D696, D542); "
              "emissivity from memory"};
}

Pressure acrylic_creep_modulus() { return 1.5_GPa; }

DesignStrength acrylic_long_term_strength() {
  return {.value = 5_MPa,
          .basis =
              "cast PMMA under a load that stays, in water at room temperature, parent sheet away from bonded "
              "joints: half of the 10.3 MPa (1500 psi) that sheet makers give as the limit against crazing for "
              "cast sheet in air; joints bear less",
          .source = "common practice, no source"};
}

CreepModulus acrylic_creep_modulus(const Time& after) {
  struct Point {
    double seconds, GPa;
  };
  static constexpr std::array<Point, 4> curve{{{60.0, 3.3}, {3600.0, 2.9}, {3.6e6, 2.2}, {3650.0 * 86400.0, 1.5}}};
  require::valid("creep of cast acrylic", "time after loading", after, 1.0 * units::minute, 10.0 * units::year);
  std::size_t i = 1;
  while (i + 1 < curve.size() && si(after) > curve[i].seconds) ++i;
  const double share = std::log(si(after) / curve[i - 1].seconds) / std::log(curve[i].seconds / curve[i - 1].seconds);
  return {.value = (curve[i - 1].GPa + share * (curve[i].GPa - curve[i - 1].GPa)) * units::gigapascal,
          .spread = si(after) > 3.6e6 ? 0.3 : 0.15,
          .source = "creep curves of cast PMMA near 23 degC under 10 MPa, from memory"};
}

double acrylic_temperature_factor(const Temperature& temperature) {
  // 90, 70 degF; degC
  constexpr double warm = 290.0 / 9.0, room = 190.0 / 9.0;
  const double t = in_celsius(temperature);
  // A rounding of the upper end is not a warmer sheet.
  require::valid("strength of acrylic by temperature", "temperature in degC", t, 0.0, warm + 1e-9);
  return t <= room ? 1.2 - 0.2 * t / room : 1.0 - 0.2 * (t - room) / (warm - room);
}

DesignStrength acrylic_long_term_strength(const Temperature& water) {
  const double factor = acrylic_temperature_factor(water);
  DesignStrength strength = acrylic_long_term_strength();
  strength.value *= factor;
  strength.basis += "; x " + text(factor, "") + " for water of " + text(water) + " (1 at 21 degC)";
  strength.source += "; temperature: rupture of acrylic windows at 32 to 90 degF, short loads";
  return strength;
}

CreepModulus acrylic_creep_modulus(const Time& after, const Temperature& temperature) {
  constexpr double energy = 18e3, gas_constant = 8.314462618;  // J/mol, J/(mol K)
  require::valid("creep of cast acrylic", "temperature in degC", in_celsius(temperature), 10.0, 40.0);
  CreepModulus creep = acrylic_creep_modulus(after);
  const double warmer = std::exp(-energy / gas_constant * (1.0 / temperature.value() - 1.0 / 296.15));
  const double strain = std::fmax(1.0, warmer);
  creep.value /= strain;
  creep.spread += 0.5 * std::fabs(1.0 - 1.0 / warmer);
  creep.source += "; at " + text(temperature) + " strains x " + text(strain, "") + ", 18 kJ/mol from memory";
  return creep;
}

DesignStrength acrylic_crazing_limit(AcrylicSheet sheet, CrazingSurroundings surroundings) {
  const double in_air_psi = sheet == AcrylicSheet::cast ? 1500.0 : 750.0;
  const bool air = surroundings == CrazingSurroundings::air;
  const bool joint = surroundings == CrazingSurroundings::bonded_joint_in_water;
  return {.value = in_air_psi *
                   (air     ? 1.0
                    : joint ? 0.25
                            : 0.5) *
                   units::psi,
          .basis = std::string(sheet == AcrylicSheet::cast ? "cast" : "extruded") + " sheet, tension that stays, " +
                   (air     ? "in air"
                    : joint ? "at a bonded joint in water"
                            : "in water"),
          .source = air ? "sheet maker's published design stress against crazing"
                        : "half of the published design stress in air per step, common practice, no source"};
}

}  // namespace theca::materials
