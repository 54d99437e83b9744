#include "theca/structure/edge_on_brace.hpp"

#include "theca/require.hpp"

namespace theca::structure {

Edge edge_on_brace(const BraceStrip& strip) {
  require::positive("span of the brace", strip.span);
  require::positive("width of the brace", strip.width);
  require::positive("thickness of the brace", strip.thickness);
  require::that(strip.thickness.value() <= strip.width.value(), "thickness of the brace", strip.thickness,
                "at most the width of the brace, " + text(strip.width) + ": the strip lies flat");
  require::positive("Young's modulus of the brace", strip.material.youngs_modulus);
  require::within("Poisson ratio of the brace", strip.material.poisson_ratio, 0.0, 0.5);
  return elastic(from_si<EdgeStiffness>(
      kernel::half_sine_stiffness(si(strip.span), si(strip.width), si(strip.thickness),
                                  si(strip.material.youngs_modulus), strip.material.poisson_ratio)));
}

}  // namespace theca::structure
