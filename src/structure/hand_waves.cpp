#include "theca/structure/hand_waves.hpp"

#include <algorithm>
#include <cmath>
#include <complex>

#include "theca/require.hpp"
#include "theca/structure/sloshing.hpp"

namespace theca::structure {
namespace {
constexpr double pi = 3.14159265358979323846;

void require_basin(const WaveBasin& b) {
  require::positive("inside length", b.length);
  require::positive("inside width", b.width);
  require::positive("water depth", b.depth);
  require::positive("water density", b.density);
  require::positive("water viscosity", b.viscosity);
  require::positive("gravity", b.gravity);
}

double angular(const WaveBasin& b, int mode) {
  return 2.0 * pi * si(slosh_frequency(b.length, b.depth, mode, b.gravity));
}
}  // namespace

double wave_damping(const WaveBasin& basin, Surface surface, int mode) {
  require_basin(basin);
  const double w = angular(basin, mode), l = si(basin.length), b = si(basin.width), h = si(basin.depth);
  const double nu = si(basin.viscosity), k = mode * pi / l;
  require::valid("friction layers thin against the tank", "layer thickness", from_si<Length>(std::sqrt(2.0 * nu / w)),
                 Length(), 0.1 * std::min({basin.length, basin.width, basin.depth}));
  // Integrals of the squared velocity along the walls for amplitude 1 and angular frequency 1. Ratios of hyperbolic
  // functions are in exponentials, so that deep water does not overflow.
  const double e = std::exp(-2.0 * k * h);
  const double inverse_sinh2 = 4.0 * e / ((1.0 - e) * (1.0 - e));
  const double coth = (1.0 + e) / (1.0 - e);  // sinh 2kh / (2 sinh^2 kh)
  const double bottom = 0.5 * b * l * inverse_sinh2;
  const double ends = b * (coth / k - h * inverse_sinh2);
  const double sides = l * coth / k;
  const double top = surface == Surface::film ? 0.5 * b * l * coth * coth : 0.0;
  const double power = 0.5 * std::sqrt(0.5 * nu * w) * w * w * (bottom + ends + sides + top);  // over rho A^2
  const double energy = 0.25 * si(basin.gravity) * b * l;                                      // likewise
  return power / (2.0 * w * energy) + 2.0 * nu * k * k / w;
}

Force stroke_force(const Stroke& stroke, const Density& density) {
  require::positive("stroke amplitude", stroke.amplitude);
  require::positive("stroke rate", stroke.rate);
  require::positive("blade area", stroke.blade);
  require::not_negative("drag coefficient", stroke.drag_coefficient);
  require::not_negative("added volume", stroke.added_volume);
  require::positive("water density", density);
  const double w = 2.0 * pi * si(stroke.rate), u = w * si(stroke.amplitude);
  const double drag = 8.0 / (3.0 * pi) * 0.5 * si(density) * stroke.drag_coefficient * si(stroke.blade) * u * u;
  return from_si<Force>(std::hypot(drag, si(density) * si(stroke.added_volume) * w * u));
}

HandWave hand_wave(const WaveBasin& basin, const Stroke& stroke, double damping, int strokes, int mode) {
  require_basin(basin);
  const double w = angular(basin, mode), l = si(basin.length), h = si(basin.depth), k = mode * pi / l;
  require::that(damping > 0.0 && damping < 1.0, "damping", damping, "> 0 and < 1");
  require::within("strokes", strokes, 1.0, 100000.0);
  require::within("stroke place", stroke.place, Length(), basin.length);
  require::within("stroke height", stroke.height, Length(), basin.depth);
  const double force = si(stroke_force(stroke, basin.density));
  // Work of the push on the mode: horizontal motion of the water at the blade per unit of amplitude at the wall.
  const double z = si(stroke.height);
  const double motion = (std::exp(k * (z - h)) + std::exp(-k * (z + h))) / (1.0 - std::exp(-2.0 * k * h)) *
                        std::abs(std::sin(k * si(stroke.place)));
  const double mass = si(basin.density) * si(basin.width) * l / (2.0 * k * std::tanh(k * h));
  const double drive = force * motion / mass;
  const double rate = 2.0 * pi * si(stroke.rate);
  const double steady = drive / std::hypot(w * w - rate * rate, 2.0 * damping * w * rate);
  const double t = strokes * 2.0 * pi / rate;
  const double own = w * std::sqrt(1.0 - damping * damping);
  const std::complex<double> left = std::exp(std::complex<double>(-damping * w * t, (own - rate) * t));
  HandWave wave;
  wave.per_stroke = from_si<Length>(pi * drive / (w * w));
  wave.amplitude = from_si<Length>(steady * std::abs(1.0 - left));
  wave.steady = from_si<Length>(steady);
  wave.rate_ratio = rate / w;
  wave.steepness = k * si(wave.amplitude);
  wave.linear = wave.steepness <= 0.2 && si(wave.amplitude) <= 0.2 * h;
  return wave;
}

RimWave rim_wave(const WaveBasin& basin, const Length& amplitude, const Length& freeboard, const Length& brace_width) {
  require_basin(basin);
  require::not_negative("wave amplitude", amplitude);
  require::not_negative("freeboard", freeboard);
  require::within("brace width", brace_width, Length(), 0.5 * basin.length);
  const double a = si(amplitude), f = si(freeboard), k = pi / si(basin.length), b = si(basin.width);
  RimWave r;
  if (a <= f) return r;
  const double reach = std::acos(f / a) / k;
  const double beneath = std::min(reach, si(brace_width));
  const auto above = [&](double x) { return b * (a * std::sin(k * x) / k - f * x); };
  r.over_rim = amplitude - freeboard;
  r.reach = from_si<Length>(reach);
  r.over_level = from_si<Volume>(above(reach));
  r.under_brace = from_si<Volume>(above(beneath));
  r.past_brace = r.over_level - r.under_brace;
  return r;
}

}  // namespace theca::structure
