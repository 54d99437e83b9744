#include "theca/structure/glass_failure.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "theca/require.hpp"

namespace theca::structure {
namespace {

using namespace theca::literals;

void require_possible(const SurfaceFlaws& flaws) {
  require::within("flaw modulus", flaws.modulus, 1.0, 50.0);
  require::positive("flaw scale", flaws.scale);
}

SurfaceFlaws flaws_of(double m, double k, const char* source) {
  return {.modulus = m, .scale = from_si<Pressure>(std::pow(k, -1.0 / m)), .source = source};
}

/// Mean over directions of (share of the larger stress)^m, by Simpson's rule: smooth, and zero to order m at the end.
double mean_share(double ratio, double m) {
  const double end = ratio >= 0.0 ? std::numbers::pi / 2.0 : std::atan(std::sqrt(-1.0 / ratio));
  constexpr int n = 64;
  const double h = end / n;
  double sum = 0.0;
  for (int i = 0; i <= n; ++i) {
    const double c = std::cos(h * i);
    const double share = std::fmax(0.0, c * c + ratio * (1.0 - c * c));
    sum += (i == 0 || i == n ? 1.0 : i % 2 == 1 ? 4.0 : 2.0) * std::pow(share, m);
  }
  return sum * h / 3.0 * 2.0 / std::numbers::pi;
}

void require_sample(const SurfaceStress& s) {
  require::positive("sample area", s.area);
  require::finite("principal_max", s.principal_max);
  require::finite("principal_min", s.principal_min);
  require::that(s.principal_min <= s.principal_max, "principal_min", s.principal_min, "at most principal_max");
}

struct Sample {
  Length place, length;
};
/// Gauss's two points in each of so many cells in all, and in at least two between any two lines.
std::vector<Sample> samples_along(const std::vector<Length>& lines, int cells) {
  std::vector<Sample> samples;
  const double gauss = 0.5 / std::sqrt(3.0);
  for (std::size_t k = 0; k + 1 < lines.size(); ++k) {
    const Length span = lines[k + 1] - lines[k];
    const int here = std::max(2, static_cast<int>(std::ceil(cells * (span / lines.back()).value() - 1e-9)));
    const Length cell = span / static_cast<double>(here);
    for (int i = 0; i < here; ++i)
      for (const double off : {-gauss, gauss}) samples.push_back({lines[k] + (i + 0.5 + off) * cell, 0.5 * cell});
  }
  return samples;
}

}  // namespace

SurfaceFlaws weathered_glass_flaws() { return flaws_of(7.0, 2.86e-53, "ASTM E1300: m = 7, k = 2.86e-53 N^-7 m^12"); }
SurfaceFlaws aged_glass_flaws() {
  return flaws_of(6.0, 7.19e-45, "Beason & Morgan 1984: m = 6, k = 7.19e-45 N^-6 m^10 (from memory)");
}

double biaxial_correction(double ratio, double modulus) {
  require::that(ratio <= 1.0 && std::isfinite(ratio), "principal stress ratio", ratio, "at most 1 and finite");
  require::within("flaw modulus", modulus, 1.0, 50.0);
  return std::pow(mean_share(ratio, modulus), 1.0 / modulus);
}

GlassFailure glass_failure(std::span<const SurfaceStress> samples, const Time& duration, const SurfaceFlaws& flaws) {
  require_possible(flaws);
  require::that(!samples.empty(), "number of samples", static_cast<double>(samples.size()), "at least 1");
  require::within("load duration", duration, 1.0 * units::second, 100.0 * units::year);
  const double m = flaws.modulus;
  const double factor = std::pow(in(duration, units::minute), 1.0 / 16.0);

  GlassFailure result;
  result.worst = samples.front();
  result.duration_factor = factor;
  double area = 0.0;
  double worst = 0.0;
  for (const SurfaceStress& s : samples) {
    require_sample(s);
    area += si(s.area);
    if (si(s.principal_max) <= 0.0) continue;
    const double share = mean_share(si(s.principal_min) / si(s.principal_max), m);
    const double risk = si(s.area) * share * std::pow(si(s.principal_max) * factor / si(flaws.scale), m);
    result.risk += risk;
    if (risk > worst) {
      worst = risk;
      result.worst = s;
    }
  }
  require::that(std::isfinite(result.risk), "risk of the stresses", result.risk, "finite");
  result.area = from_si<Area>(area);
  result.probability = -std::expm1(-result.risk);
  result.equivalent_stress = std::pow(result.risk / area, 1.0 / m) * flaws.scale;
  result.worst_share = result.risk > 0.0 ? worst / result.risk : 0.0;
  return result;
}

std::vector<SurfaceStress> sample_surface(const BentPanel& bent, PanelFace face, int cells) {
  require::within("cells", static_cast<double>(cells), 4.0, 200.0);
  const std::vector<Sample> along_x = samples_along(bent.lines_x, cells), along_y = samples_along(bent.lines_y, cells);
  std::vector<SurfaceStress> samples;
  samples.reserve(along_x.size() * along_y.size());
  for (const Sample& x : along_x)
    for (const Sample& y : along_y) {
      const PanelState state = bent.at(x.place, y.place);
      const FaceStress& stress = face == PanelFace::far ? state.far_face : state.loaded_face;
      samples.push_back({x.length * y.length, stress.principal_max, stress.principal_min});
    }
  return samples;
}

GlassFailure glass_failure(const BentPanel& bent, const Time& duration, const SurfaceFlaws& flaws, int cells) {
  std::vector<SurfaceStress> samples = sample_surface(bent, PanelFace::far, cells);
  const std::vector<SurfaceStress> wet = sample_surface(bent, PanelFace::loaded, cells);
  samples.insert(samples.end(), wet.begin(), wet.end());
  return glass_failure(samples, duration, flaws);
}

Pressure equivalent_strength(const Area& area, double probability, const SurfaceFlaws& flaws) {
  require_possible(flaws);
  require::positive("area", area);
  require::within("probability of breakage", probability, 1e-9, 0.5);
  return std::pow(-std::log1p(-probability) / si(area), 1.0 / flaws.modulus) * flaws.scale;
}

}  // namespace theca::structure
