// Glass failure prediction model against its closed forms.
#include "theca/structure/glass_failure.hpp"

#include <array>
#include <cmath>
#include <limits>
#include <vector>

#include "support/near.hpp"
#include "theca/materials/glass.hpp"

using namespace theca;
using namespace theca::literals;
using namespace theca::structure;
using theca::test::contains;
using theca::test::message_of;
using theca::test::near;

namespace {
SurfaceStress piece(double area_m2, double max_MPa, double min_MPa) {
  return {from_si<Area>(area_m2), max_MPa * units::megapascal, min_MPa * units::megapascal};
}
constexpr Time minute = 1.0 * units::minute;
}  // namespace

TEST_CASE("Uniform equal biaxial tension has the risk k A sigma^m [closed form]") {
  const std::array<SurfaceStress, 2> both{piece(0.7, 12.0, 12.0), piece(0.7, 12.0, 12.0)};
  const GlassFailure f = glass_failure(both, minute);
  const double risk = 2.86e-53 * 1.4 * std::pow(12e6, 7.0);
  CHECK(near(f.risk, risk, 1e-10));
  CHECK(near(f.probability, 1.0 - std::exp(-risk), 1e-9));
  CHECK(near(f.equivalent_stress, 12_MPa, 1e-10));
  CHECK(near(f.worst_share, 0.5, 1e-12));
  const GlassFailure aged = glass_failure(both, minute, aged_glass_flaws());
  CHECK(near(aged.risk, 7.19e-45 * 1.4 * std::pow(12e6, 6.0), 1e-10));
}

TEST_CASE("The biaxial correction has its closed values [integrals of cosine powers]") {
  CHECK(near(biaxial_correction(1.0, 7.0), 1.0, 1e-12));
  // 2/pi int cos^14 = 13!!/14!!
  CHECK(near(biaxial_correction(0.0, 7.0), std::pow(135135.0 / 645120.0, 1.0 / 7.0), 1e-10));
  // Pure shear: 2/pi int_0^(pi/4) cos^7(2 t) dt = 1/pi x 16/35
  CHECK(near(biaxial_correction(-1.0, 7.0), std::pow(16.0 / 35.0 / 3.14159265358979324, 1.0 / 7.0), 1e-6));
  CHECK(biaxial_correction(0.5, 7.0) > biaxial_correction(0.0, 7.0));
}

TEST_CASE("Risk adds over area, goes with the seventh power of stress and 7/16 of duration") {
  const std::array<SurfaceStress, 1> one{piece(1.0, 10.0, 3.0)};
  const std::array<SurfaceStress, 1> twice{piece(1.0, 20.0, 6.0)};
  const std::array<SurfaceStress, 2> with_compression{piece(1.0, 10.0, 3.0), piece(1.0, -2.0, -30.0)};
  CHECK(near(glass_failure(twice, minute).risk / glass_failure(one, minute).risk, 128.0, 1e-10));
  CHECK(near(glass_failure(with_compression, minute).risk, glass_failure(one, minute).risk, 1e-12));
  CHECK(near(glass_failure(one, 16.0 * minute).risk / glass_failure(one, minute).risk, std::pow(16.0, 7.0 / 16.0),
             1e-10));
}

TEST_CASE("Equivalent strength is the inverse of the probability") {
  const Area area = from_si<Area>(2.0);
  const Pressure s = equivalent_strength(area, 0.008);
  const std::array<SurfaceStress, 1> all{{{area, s, s}}};
  CHECK(near(glass_failure(all, minute).probability, 0.008, 1e-10));
}

TEST_CASE("A panel's risk agrees with a finer sampling of it and both faces share it alike") {
  Panel panel{.width = 1.2_m, .height = 0.6_m, .thickness = 12_mm, .material = materials::float_glass()};
  panel.top = hinged();
  const BentPanel bent = bend(panel, uniform(3_kPa));
  const GlassFailure coarse = glass_failure(bent, minute, weathered_glass_flaws(), 12);
  const GlassFailure fine = glass_failure(bent, minute, weathered_glass_flaws(), 40);
  CHECK(near(coarse.risk, fine.risk, 1e-3));
  CHECK(near(fine.area.value(), 2.0 * 0.72, 1e-12));
  CHECK(fine.equivalent_stress < bent.max_tension);
  CHECK(fine.equivalent_stress > 0.4 * bent.max_tension);
  double wet = 0.0;
  for (const SurfaceStress& s : sample_surface(bent, PanelFace::loaded, 12)) wet = std::fmax(wet, si(s.principal_max));
  double dry = 0.0;
  for (const SurfaceStress& s : sample_surface(bent, PanelFace::far, 12)) dry = std::fmax(dry, si(s.principal_max));
  CHECK(near(dry, si(bent.max_tension), 0.02));
  CHECK(wet < dry);
}

TEST_CASE("A hand's small hot spot is sampled as finely as it is bent") {
  const Panel panel{.width = 1.2_m, .height = 0.45_m, .thickness = 10_mm, .material = materials::float_glass()};
  const BentPanel bent = bend_under(panel, {uniform(0_Pa), {{0.6_m, 0.435_m, 30_mm, 30_mm, 400_N}}, {}});
  const GlassFailure coarse = glass_failure(bent, minute, weathered_glass_flaws(), 24);
  const GlassFailure fine = glass_failure(bent, minute, weathered_glass_flaws(), 200);
  CHECK(near(coarse.risk, fine.risk, 2e-3));  // 24 even cells would miss a tenth of it
  CHECK(near(coarse.area.value(), 2.0 * 0.54, 1e-12));
}

TEST_CASE("Samples that cannot be are refused by name") {
  const auto refused = [](const SurfaceStress& s) {
    const std::array<SurfaceStress, 1> one{s};
    return message_of<InvalidInput>([&] { glass_failure(one, minute); });
  };
  CHECK(contains(refused(piece(0.0, 1.0, 0.0)), "sample area"));
  CHECK(contains(refused(piece(1.0, std::numeric_limits<double>::quiet_NaN(), 0.0)), "principal_max"));
  CHECK(contains(refused(piece(1.0, 1.0, 2.0)), "principal_min"));
  const std::array<SurfaceStress, 1> good{piece(1.0, 1.0, 0.0)};
  CHECK(contains(message_of<InvalidInput>([&] { glass_failure(good, from_si<Time>(0.5)); }), "load duration"));
  CHECK(contains(message_of<InvalidInput>([] { glass_failure(std::vector<SurfaceStress>{}, minute); }), "samples"));
  CHECK(contains(message_of<InvalidInput>([] { biaxial_correction(1.5, 7.0); }), "ratio"));
  CHECK(contains(message_of<InvalidInput>([] { biaxial_correction(0.5, 0.5); }), "flaw modulus"));
  CHECK(contains(message_of<InvalidInput>([] { equivalent_strength(from_si<Area>(1.0), 1.5); }), "probability"));
  CHECK(contains(message_of<InvalidInput>([] { equivalent_strength(from_si<Area>(-1.0)); }), "area"));
  SurfaceFlaws none = weathered_glass_flaws();
  none.scale = from_si<Pressure>(0.0);
  CHECK(contains(message_of<InvalidInput>([&] { glass_failure(good, minute, none); }), "flaw scale"));
}
