#include "theca/structure/stand_beam.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "theca/require.hpp"

namespace theca::structure {

BeamSection rectangle_section(const Length& width, const Length& depth) {
  require::positive("section width", width);
  require::positive("section depth", depth);
  const double b = si(width), d = si(depth);
  return {from_si<Area>(b * d), from_si<SecondMomentOfArea>(b * d * d * d / 12.0), from_si<Volume>(b * d * d / 6.0),
          5.0 / 6.0};
}

BeamSection hollow_section(const Length& width, const Length& depth, const Length& wall) {
  const BeamSection outer = rectangle_section(width, depth);
  require::positive("section wall", wall);
  require::that(2.0 * si(wall) < std::min(si(width), si(depth)), "section wall", wall,
                "under half of the width and depth");
  const BeamSection inner = rectangle_section(width - 2.0 * wall, depth - 2.0 * wall);
  const SecondMomentOfArea i = outer.second_moment - inner.second_moment;
  const Area a = outer.area - inner.area;
  return {a, i, from_si<Volume>(si(i) / (0.5 * si(depth))), 2.0 * si(wall) * si(depth) / si(a)};
}

BentBeam bend_beam(const Length& span, int spans, const LineLoad& load, const BeamMaterial& material,
                   const BeamSection& section) {
  require::positive("span", span);
  require::within("spans", spans, 1.0, 20.0);
  require::not_negative("line load", load);
  require::positive("Young's modulus", material.youngs_modulus);
  require::positive("shear modulus", material.shear_modulus);
  require::positive("section area", section.area);
  require::positive("second moment of area", section.second_moment);
  require::positive("section modulus", section.section_modulus);
  require::positive("shear coefficient", section.shear_coefficient);
  require::within("shear coefficient", section.shear_coefficient, 0.0, 1.0);
  const double l = si(span), w = si(load), ei = si(material.youngs_modulus) * si(section.second_moment);
  const double ga = section.shear_coefficient * si(material.shear_modulus) * si(section.area);
  const double phi = ei / (ga * l * l);
  const std::size_t n = static_cast<std::size_t>(spans);
  // Moments over the supports: rotations of the sections on both sides of a support agree.
  std::vector<double> m(n + 1, 0.0), c(n + 1, 0.0), d(n + 1, 0.0);
  const double side = 1.0 / 6.0 - phi, own = 2.0 * (1.0 / 3.0 + phi), right = -w * l * l / 12.0;
  for (std::size_t i = 1; i < n; ++i) {
    const double pivot = own - side * c[i - 1];
    c[i] = side / pivot;
    d[i] = (right - side * d[i - 1]) / pivot;
  }
  for (std::size_t i = n; i-- > 1;) m[i] = d[i] - c[i] * m[i + 1];
  double moment = 0.0, shear = 0.0, deflection = 0.0, reaction = 0.0, before = 0.0, end = 0.0;
  for (std::size_t i = 0; i < n; ++i) {
    const double a = m[i], b = m[i + 1];
    const double v = 0.5 * w * l + (b - a) / l;  // at the left end
    if (i == 0) end = v;
    reaction = std::max(reaction, v + before);
    before = w * l - v;
    shear = std::max({shear, std::abs(v), std::abs(before)});
    moment = std::max({moment, std::abs(a), std::abs(b)});
    if (w > 0.0 && v > 0.0 && before > 0.0) moment = std::max(moment, a + 0.5 * v * v / w);
    const auto sag = [&](double x) {
      const double r = x / l, s = 1.0 - r;
      return w * std::pow(l, 4) / (24.0 * ei) * r * (1.0 - 2.0 * r * r + r * r * r) +
             l * l / (6.0 * ei) * (a * s * (1.0 - s * s) + b * r * (1.0 - r * r)) + w * x * (l - x) / (2.0 * ga);
    };
    // The sag of a span has one peak or a small uplift; the scan is fine enough for 1e-4 of its height.
    for (int j = 1; j < 200; ++j) deflection = std::max(deflection, std::abs(sag(l * j / 200.0)));
  }
  reaction = std::max(reaction, before);
  require::valid("small slopes of a beam", "deflection", from_si<Length>(deflection), Length(), 0.05 * span);
  return {from_si<Moment>(moment), from_si<Pressure>(moment / si(section.section_modulus)),
          from_si<Force>(shear),   from_si<Force>(reaction),
          from_si<Force>(end),     from_si<Length>(deflection)};
}

}  // namespace theca::structure
