#include "theca/light/luminaire.hpp"

#include <limits>

#include "demo_luminaire.hpp"
#include "support/near.hpp"

using namespace theca;
using namespace theca::light;
using namespace theca::literals;
using test::contains;
using test::message_of;
using test::near;

TEST_CASE("photon_efficacy: 190.9 umol/s from 84 W is 2.273 umol/J [by hand]") {
  // half a unit of the last digit of 190.9 is 2.6e-4 of it
  CHECK(near(in(photon_efficacy(test::demo_luminaire()), units::umol_per_joule), 190.9 / 84.0, 3e-4));
}

TEST_CASE("evenly_spaced: half a space at each end, on the centre line") {
  const auto row = evenly_spaced(test::demo_luminaire(), 4, 96_in, 30_in, 12_in);
  REQUIRE(row.size() == 4);
  CHECK(near(row[0].x, 12_in, 1e-14));
  CHECK(near(row[1].x, 36_in, 1e-14));
  CHECK(near(row[3].x, 84_in, 1e-14));
  for (const auto& placed : row) {
    CHECK(near(placed.y, 15_in, 1e-14));
    CHECK(placed.mounting_height == 12_in);
  }
}

TEST_CASE("fits_in_row: apertures may touch but not overlap, lengthwise or turned across") {
  const Luminaire lamp = test::demo_luminaire();  // 18 x 6 in
  CHECK(fits_in_row(lamp, 5, 90_in));
  CHECK_FALSE(fits_in_row(lamp, 6, 90_in));
  CHECK(fits_in_row(lamp, 15, 90_in, 90_deg));
  CHECK_FALSE(fits_in_row(lamp, 16, 90_in, 90_deg));
  CHECK(fits_in_row(lamp, 1, 10_in));
  // at 45 deg the strips of width 6 in lie 6 sqrt(2) = 8.49 in apart along the tank: 10 in 90, not 11
  CHECK(fits_in_row(lamp, 10, 90_in, 45_deg));
  CHECK_FALSE(fits_in_row(lamp, 11, 90_in, 45_deg));
  CHECK(contains(message_of<InvalidInput>([&] { evenly_spaced(lamp, 6, 90_in, 30_in, 12_in); }), "count"));
}

TEST_CASE("a luminaire dimmed to 0.4 sends 0.4 of its photons and takes 0.4 of its power") {
  const PlacedLuminaire placed{
      .luminaire = test::demo_luminaire(), .x = 1_m, .y = 1_m, .mounting_height = 1_m, .dimming = 0.4};
  CHECK(near(photon_flux(placed), 0.4 * photon_flux(placed.luminaire.intensity), 1e-15));
  CHECK(near(electrical_power(placed), 33.6_W, 1e-15));
}

TEST_CASE("luminaire and its place: bad input is refused by name") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const auto lamp_refused = [](auto change) {
    Luminaire lamp = test::demo_luminaire();
    change(lamp);
    return message_of<InvalidInput>([&] { photon_efficacy(lamp); });
  };
  CHECK(contains(lamp_refused([](auto& l) { l.aperture_length = -1.0 * 1_in; }), "aperture length"));
  CHECK(contains(lamp_refused([&](auto& l) { l.aperture_width = from_si<Length>(nan); }), "aperture width"));
  CHECK(contains(lamp_refused([](auto& l) { l.points_along = 0; }), "points along"));
  CHECK(contains(lamp_refused([](auto& l) { l.points_across = 101; }), "points across"));
  CHECK(contains(lamp_refused([](auto& l) { l.power = Power(); }), "power"));
  CHECK(contains(lamp_refused([](auto& l) { l.ageing_factor = 1.1; }), "ageing factor"));
  CHECK(contains(lamp_refused([](auto& l) { l.ageing_factor = 0.0; }), "ageing factor"));

  const auto place_refused = [](auto change) {
    PlacedLuminaire placed{.luminaire = test::demo_luminaire(), .x = 1_m, .y = 1_m, .mounting_height = 1_m};
    change(placed);
    return message_of<InvalidInput>([&] { require_valid(placed); });
  };
  CHECK(contains(place_refused([&](auto& p) { p.x = from_si<Length>(nan); }), "luminaire x"));
  CHECK(contains(place_refused([](auto& p) { p.y = 20000_m; }), "luminaire y"));
  CHECK(contains(place_refused([](auto& p) { p.mounting_height = Length(); }), "mounting height"));
  CHECK(contains(place_refused([](auto& p) { p.dimming = 0.0; }), "dimming"));
  CHECK(contains(place_refused([](auto& p) { p.dimming = 1.01; }), "dimming"));
  CHECK(contains(place_refused([](auto& p) { p.tilt = 91_deg; }), "luminaire tilt"));
  CHECK(contains(place_refused([&](auto& p) { p.tilt_azimuth = from_si<Angle>(nan); }), "luminaire tilt azimuth"));
  CHECK(contains(place_refused([](auto& p) { p.tilt = 60_deg, p.mounting_height = 20_cm; }), "above the water"));
  CHECK(contains(place_refused([&](auto& p) { p.heading = from_si<Angle>(nan); }), "luminaire heading"));

  const Luminaire lamp = test::demo_luminaire();
  CHECK(contains(message_of<InvalidInput>([&] { evenly_spaced(lamp, 0, 96_in, 30_in, 12_in); }), "count"));
  CHECK(contains(message_of<InvalidInput>([&] { evenly_spaced(lamp, 1, Length(), 30_in, 12_in); }), "tank length"));
  CHECK(contains(message_of<InvalidInput>([&] { evenly_spaced(lamp, 1, 96_in, -1.0 * 1_in, 12_in); }), "tank width"));
  CHECK(contains(message_of<InvalidInput>([&] { evenly_spaced(lamp, 1, 96_in, 30_in, Length()); }), "mounting height"));
  CHECK(contains(message_of<InvalidInput>([&] { fits_in_row(lamp, 1, 96_in, from_si<Angle>(nan)); }), "heading"));
}
