#include "theca/light/intensity.hpp"

#include <cmath>
#include <limits>
#include <numbers>

#include "demo_luminaire.hpp"
#include "support/near.hpp"

using namespace theca;
using namespace theca::light;
using namespace theca::literals;
using std::numbers::pi;
using test::contains;
using test::message_of;
using test::near;

TEST_CASE("photon_flux: the demo table adds up to 190.9 umol/s [stated with the table, one decimal]") {
  CHECK(test::within(in(photon_flux(test::demo_table()), units::umol_per_second), 190.9, 0.05));
}

TEST_CASE("photon_flux: equal intensity everywhere fills 2 pi or 4 pi sr [closed form]") {
  const PhotonIntensity i0 = 3_umol_s_sr;
  CHECK(near(photon_flux(TabulatedIntensity{.angles = {0_deg, 90_deg}, .values = {i0, i0}}),
             from_si<PhotonFlux>(2.0 * pi * si(i0)), 1e-14));
  CHECK(near(photon_flux(TabulatedIntensity{.angles = {0_deg, 35_deg, 180_deg}, .values = {i0, i0, i0}}),
             from_si<PhotonFlux>(4.0 * pi * si(i0)), 1e-14));
  CHECK(near(photon_flux(CosineLobe{.on_axis = i0, .exponent = 0.0}), from_si<PhotonFlux>(2.0 * pi * si(i0)), 1e-14));
}

TEST_CASE("photon_flux: a triangle from the axis to 90 deg gives 2 pi I0 (1 - 2/pi) [closed form]") {
  // Int (1 - 2 theta/pi) sin(theta) d theta from 0 to pi/2 = 1 - 2/pi
  const auto table = TabulatedIntensity{.angles = {0_deg, 90_deg}, .values = {1_umol_s_sr, 0_umol_s_sr}};
  CHECK(near(in(photon_flux(table), units::umol_per_second), 2.0 * pi - 4.0, 1e-14));
}

TEST_CASE("photon_flux: a fine table of cos^3 has the flux of the lobe [closed form against table]") {
  TabulatedIntensity table;
  for (int i = 0; i <= 900; ++i) {
    table.angles.push_back(0.1 * i * units::degree);
    table.values.push_back(std::max(0.0, std::pow(std::cos(si(table.angles.back())), 3)) * 80_umol_s_sr);
  }
  const CosineLobe lobe{.on_axis = 80_umol_s_sr, .exponent = 3.0};
  CHECK(near(photon_flux(lobe), 2.0 * pi / 4.0 * 80_umol_s, 1e-14));
  // Chords lie off the curve by at most |I''| step^2 / 8, here 3 (0.1 deg)^2 / 8 = 1.1e-6 of the axial value.
  CHECK(near(photon_flux(table), photon_flux(lobe), 2e-6));
}

TEST_CASE("intensity_at: linear between the angles, exact at them, nothing above the horizontal for a lobe") {
  const auto table = test::demo_table();
  for (std::size_t i = 0; i < table.angles.size(); ++i)
    CHECK(test::within(intensity_at(table, table.angles[i]), table.values[i], 1e-12_umol_s_sr));
  CHECK(near(intensity_at(table, 25_deg), 81_umol_s_sr, 1e-13));
  CHECK(near(intensity_at(table, 82.5_deg), 1.5_umol_s_sr, 1e-12));
  const CosineLobe lobe{.on_axis = 10_umol_s_sr, .exponent = 2.0};
  CHECK(near(intensity_at(lobe, 60_deg), 2.5_umol_s_sr, 1e-14));
  CHECK(si(intensity_at(lobe, 120_deg)) == 0.0);
}

TEST_CASE("cosine_lobe: half the axial intensity at half the beam angle, and the flux asked for [definition]") {
  for (const Angle& beam : {10_deg, 60_deg, 120_deg, 170_deg}) {
    const CosineLobe lobe = cosine_lobe(150_umol_s, beam);
    CHECK(near(intensity_at(lobe, 0.5 * beam), 0.5 * lobe.on_axis, 1e-12));
    CHECK(near(photon_flux(lobe), 150_umol_s, 1e-14));
  }
  CHECK(near(cosine_lobe(150_umol_s, 120_deg).exponent, 1.0, 1e-12));  // Lambertian: cos 60 deg = 1/2
}

TEST_CASE(
    "beam_cone: half at half the beam angle, a tenth at half the field angle, and the flux asked for [definition]") {
  for (const double beam : {20.0, 60.0, 90.0}) {
    const TabulatedIntensity cone = beam_cone(150_umol_s, beam * units::degree, 1.6 * beam * units::degree);
    const PhotonIntensity on_axis = intensity_at(cone, Angle());
    CHECK(near(photon_flux(cone), 150_umol_s, 1e-13));
    // All angles asked for are nodes of the table.
    CHECK(near(intensity_at(cone, 0.5 * beam * units::degree), 0.5 * on_axis, 1e-9));
    CHECK(near(intensity_at(cone, 0.8 * beam * units::degree), 0.1 * on_axis, 1e-9));
  }
  // Field angle sqrt(ln 10 / ln 2) times the beam angle is a bell curve: narrow, it holds I0 pi half^2 / ln 2.
  const TabulatedIntensity bell = beam_cone(150_umol_s, 4_deg, std::sqrt(std::log(10.0) / std::log(2.0)) * 4_deg);
  const double half = si(2_deg);
  CHECK(
      near(si(intensity_at(bell, Angle())), 150e-6 * std::log(2.0) / (pi * half * half), 3e-3));  // chords of 0.25 deg
}

TEST_CASE(
    "reflector_cone: pi I0 sin^2 of the cut-off is its flux; at 89 deg it is nearly a Lambertian emitter [closed]") {
  for (const double deg : {15.0, 30.0, 60.0, 89.0}) {
    const TabulatedIntensity cone = reflector_cone(150_umol_s, deg * units::degree);
    CHECK(near(photon_flux(cone), 150_umol_s, 1e-13));
    const double s = std::sin(deg * pi / 180.0);
    CHECK(near(pi * si(intensity_at(cone, Angle())) * s * s, 150e-6, 2e-5));  // chords of 1/200 of the cut-off
    CHECK(si(intensity_at(cone, (deg + 0.5) * units::degree)) == 0.0);
  }
}

TEST_CASE("angular intensity: bad input is refused by name") {
  const auto refused = [](auto change) {
    auto table = test::demo_table();
    change(table);
    return message_of<InvalidInput>([&] { photon_flux(table); });
  };
  const double nan = std::numeric_limits<double>::quiet_NaN();
  CHECK(contains(refused([](auto& t) { t.angles.pop_back(); }), "number of values"));
  CHECK(contains(refused([](auto& t) { t = {}; }), "number of angles"));
  CHECK(contains(refused([](auto& t) { t.angles[0] = 1_deg; }), "angles[0]"));
  CHECK(contains(refused([](auto& t) { t.angles[3] = t.angles[2]; }), "angles[3]"));
  CHECK(contains(refused([&](auto& t) { t.angles[4] = from_si<Angle>(nan); }), "angles[4]"));
  CHECK(contains(refused([](auto& t) { t.angles.back() = 89_deg; }), "last angle"));
  CHECK(contains(refused([](auto& t) { t.angles.back() = 181_deg; }), "last angle"));
  CHECK(contains(refused([](auto& t) { t.values[5] = -1.0 * 1_umol_s_sr; }), "values[5]"));
  CHECK(contains(refused([&](auto& t) { t.values[5] = from_si<PhotonIntensity>(nan); }), "values[5]"));
  CHECK(contains(refused([](auto& t) { t.values.assign(10, PhotonIntensity()); }), "largest value"));

  CHECK(contains(message_of<InvalidInput>([] { photon_flux(CosineLobe{PhotonIntensity(), 1.0}); }), "on_axis"));
  CHECK(contains(message_of<InvalidInput>([] { photon_flux(CosineLobe{1_umol_s_sr, -0.5}); }), "exponent"));
  CHECK(contains(message_of<InvalidInput>([&] { photon_flux(CosineLobe{1_umol_s_sr, nan}); }), "exponent"));
  CHECK(contains(message_of<InvalidInput>([] { intensity_at(test::demo_table(), 91_deg); }), "angle from nadir"));
  CHECK(contains(message_of<InvalidInput>([] { intensity_at(test::demo_table(), -1.0 * 1_deg); }), "angle from nadir"));
  CHECK(contains(message_of<InvalidInput>([] { cosine_lobe(PhotonFlux(), 60_deg); }), "flux"));
  CHECK(contains(message_of<InvalidInput>([] { beam_cone(1_umol_s, 1_deg, 60_deg); }), "beam angle"));
  CHECK(contains(message_of<InvalidInput>([] { beam_cone(1_umol_s, 60_deg, 60_deg); }), "field angle"));
  CHECK(contains(message_of<InvalidInput>([] { reflector_cone(1_umol_s, 90_deg); }), "cut-off"));
  CHECK(contains(message_of<InvalidInput>([] { cosine_lobe(1_umol_s, 180_deg); }), "beam angle"));
  CHECK(contains(message_of<InvalidInput>([] { cosine_lobe(1_umol_s, 1_deg); }), "beam angle"));
}

TEST_CASE("web intensity: a table turned into a web and scaled to its photon flux is the same source") {
  const TabulatedIntensity table = test::demo_table();
  WebIntensity form;
  form.web.horizontal = {0_deg, 90_deg, 360_deg};
  form.web.vertical = table.angles;
  for (int plane = 0; plane < 3; ++plane)
    for (const PhotonIntensity& value : table.values) form.web.intensities.push_back(7e6 * si(value) * units::candela);
  form.flux = photon_flux(table);
  CHECK(photon_flux(form) == form.flux);
  for (const double deg : {0.0, 12.0, 33.0, 71.0, 89.0})
    CHECK(near(intensity_at(form, deg * units::degree, 200_deg), intensity_at(table, deg * units::degree), 1e-12));
  form.flux = from_si<PhotonFlux>(0.0);
  CHECK_THROWS_AS(require_valid(form), InvalidInput);
  form.flux = from_si<PhotonFlux>(1e6);
  CHECK_THROWS_AS(require_valid(form), InvalidInput);
}
