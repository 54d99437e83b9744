#include "theca/structure/rim.hpp"

#include "theca/require.hpp"

namespace theca::structure {

LineLoad held_top_line_load(const Length& water_depth, const Length& wall_height, const Density& water,
                            const Acceleration& gravity) {
  require::positive("water depth", water_depth);
  require::positive("wall height", wall_height);
  require::that(water_depth.value() <= wall_height.value(), "water depth", water_depth,
                "at most the wall height, " + text(wall_height));
  require::positive("water density", water);
  require::positive("gravity", gravity);
  return from_si<LineLoad>(kernel::held_top_line_load(si(water_depth), si(wall_height), si(water), si(gravity)));
}

namespace {

void require_slender(const BraceStrip& strip) {
  require::positive("strip span", strip.span);
  require::positive("strip width", strip.width);
  require::positive("strip thickness", strip.thickness);
  require::positive("strip Young's modulus", strip.material.youngs_modulus);
  require::that(strip.thickness.value() <= strip.width.value(), "strip thickness", strip.thickness,
                "at most the strip width, " + text(strip.width) + ": the strip lies flat");
  require::valid("slender beam", "strip width / span", si(strip.width) / si(strip.span), 0.0, 0.2);
}

}  // namespace

BentStrip lone_brace(const BraceStrip& strip, const LineLoad& line_load) {
  require_slender(strip);
  require::not_negative("line load", line_load);
  return {from_si<Pressure>(kernel::strip_stress(si(line_load), si(strip.span), si(strip.width), si(strip.thickness))),
          from_si<Length>(kernel::strip_deflection(si(line_load), si(strip.span), si(strip.width), si(strip.thickness),
                                                   si(strip.material.youngs_modulus)))};
}

BentStrip half_sine_brace(const BraceStrip& strip, const LineLoad& at_mid_span) {
  require_slender(strip);
  require::not_negative("line load at mid-span", at_mid_span);
  const double q = si(at_mid_span), span = si(strip.span), width = si(strip.width), thickness = si(strip.thickness);
  return {from_si<Pressure>(kernel::half_sine_strip_stress(q, span, width, thickness)),
          from_si<Length>(
              kernel::half_sine_strip_deflection(q, span, width, thickness, si(strip.material.youngs_modulus)))};
}

}  // namespace theca::structure
