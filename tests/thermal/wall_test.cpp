#include "theca/thermal/wall.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <limits>

#include "support/near.hpp"
#include "theca/thermal/film.hpp"

using namespace theca;
using namespace theca::literals;
using namespace theca::thermal;
using theca::test::contains;
using theca::test::message_of;
using theca::test::near;
using theca::test::within;

namespace {
const std::vector<Layer> glass = {{.thickness = 12_mm, .conductivity = 1.0_W_mK}};
const std::vector<Layer> acrylic = {{.thickness = 12_mm, .conductivity = 0.19_W_mK}};

WallExposure in_the_hall() {
  return {.water = 78_degF,
          .inside_film = 100_W_m2K,
          .room = 70_degF,
          .surroundings = 70_degF,
          .pressure = 101.3_kPa_abs,
          .height = 14_in,
          .emissivity = 0.9};
}
}  // namespace

TEST_CASE("wall: the heat that enters leaves by convection and radiation, and every temperature lies in its place") {
  const WallHeat w = wall_heat(glass, in_the_hall());
  CHECK(near(si(w.flux), si(w.convection) + si(w.radiation), 1e-9));
  CHECK(std::abs(si(w.residual)) < 1e-7);
  CHECK(si(w.outside_surface) < si(w.inside_surface));
  CHECK(si(w.inside_surface) < si(78_degF));
  CHECK(si(w.outside_surface) > si(70_degF));
  // drop through the glass alone: q t / k
  CHECK(within(si(w.inside_surface) - si(w.outside_surface), si(w.flux) * 0.012, 1e-9));
  CHECK(w.iterations < 12);
}

TEST_CASE("wall: the outer film is the film of the outer surface it found") {
  const WallHeat w = wall_heat(glass, in_the_hall());
  CHECK(near(w.convective_film, vertical_film(w.outside_surface, 70_degF, 101.3_kPa_abs, 14_in).coefficient, 1e-9));
  CHECK(near(w.radiative_film, radiative_film(w.outside_surface, 70_degF, 0.9), 1e-12));
  // air and surroundings at one temperature: U is the flux over the whole difference
  CHECK(near(si(w.U) * (si(78_degF) - si(70_degF)), si(w.flux), 1e-9));
}

TEST_CASE("wall: bisection on the balance gives the same surface temperature as the iteration") {
  const WallExposure e = in_the_hall();
  double low = si(e.room), high = si(e.water);
  for (int i = 0; i < 80; ++i) {
    const double face = 0.5 * (low + high);
    const auto t = from_si<Temperature>(face);
    const double out = si(vertical_film(t, e.room, e.pressure, e.height).coefficient) * (face - si(e.room)) +
                       si(radiative_flux(t, e.surroundings, e.emissivity));
    (out < (si(e.water) - face) / (0.01 + 0.012) ? low : high) = face;
  }
  CHECK(within(si(wall_heat(glass, e).outside_surface), low, 1e-9));
}

TEST_CASE("wall: without radiation it would lose far less") {
  WallExposure mirror = in_the_hall();
  mirror.emissivity = 0.0;
  const double ratio = si(wall_heat(glass, mirror).flux) / si(wall_heat(glass, in_the_hall()).flux);
  CHECK(ratio < 0.5);
  CHECK(ratio > 0.3);
}

TEST_CASE("wall: cold surroundings draw heat through a wall between water and air of one temperature") {
  WallExposure e = in_the_hall();
  e.room = e.water;
  e.surroundings = 60_degF;
  const WallHeat w = wall_heat(glass, e);
  CHECK(si(w.flux) > 0.0);
  CHECK(si(w.convection) < 0.0);  // the air warms the chilled face
  CHECK(si(w.outside_surface) < si(w.inside_surface));
}

TEST_CASE("wall: equal temperatures all round carry no heat, and U is still defined") {
  WallExposure e = in_the_hall();
  e.room = e.surroundings = e.water;
  const WallHeat w = wall_heat(glass, e);
  CHECK(si(w.flux) == 0.0);
  CHECK(si(w.U) > 0.0);
}

TEST_CASE("wall: turning all differences round turns the flux round") {
  WallExposure summer = in_the_hall();
  summer.water = 70_degF;
  summer.room = summer.surroundings = 78_degF;
  // radiation is a little stronger about the warmer outer face
  CHECK(near(si(wall_heat(glass, summer).flux), -si(wall_heat(glass, in_the_hall()).flux), 0.02));
}

TEST_CASE("wall: a difference twice as large loses more than twice as much") {
  WallExposure doubled = in_the_hall();
  doubled.room = doubled.surroundings = 62_degF;
  CHECK(si(wall_heat(glass, doubled).flux) > 2.02 * si(wall_heat(glass, in_the_hall()).flux));
}

TEST_CASE("wall: leaving the films out makes glass look five times worse than acrylic; with films it is a third") {
  const WallComparison c = compare_walls(glass, acrylic, {.inside = 100_W_m2K, .outside = 8.3_W_m2K});
  CHECK(near(c.pane_only_ratio, 1.0 / 0.19, 1e-12));
  // 1/100 + t/k + 1/8.3 for both, by hand
  const double glass_R = 0.01 + 0.012 + 1.0 / 8.3, acrylic_R = 0.01 + 0.012 / 0.19 + 1.0 / 8.3;
  CHECK(near(c.ratio, acrylic_R / glass_R, 1e-12));
  CHECK(c.ratio < 1.4);
  CHECK(near(si(c.first_pane_only), 83.3333333, 1e-8));
  CHECK(si(c.first_pane_only) > 10.0 * si(c.first));
}

TEST_CASE("wall refuses impossible input by name") {
  const FixedFilms films{.inside = 100_W_m2K, .outside = 8.3_W_m2K};
  CHECK(contains(message_of<InvalidInput>([&] { transmittance({}, films); }), "layers"));
  CHECK(contains(message_of<InvalidInput>([&] { transmittance({{0_mm, 1_W_mK}}, films); }), "layer thickness"));
  CHECK(contains(message_of<InvalidInput>([&] {
                   pane_only_conductance({{1_mm, from_si<ThermalConductivity>(-1.0)}});
                 }),
                 "layer conductivity"));
  CHECK(contains(message_of<InvalidInput>([&] { transmittance(glass, {0_W_m2K, 8.3_W_m2K}); }), "inside film"));
  CHECK(contains(message_of<InvalidInput>([&] { transmittance(glass, {100_W_m2K, 0_W_m2K}); }), "outside film"));
  const auto with = [](auto change) {
    WallExposure e = in_the_hall();
    change(e);
    return message_of<InvalidInput>([&] { wall_heat(glass, e); });
  };
  CHECK(contains(with([](WallExposure& e) { e.water = 200_degC; }), "water temperature"));
  CHECK(contains(with([](WallExposure& e) { e.room = from_si<Temperature>(std::numeric_limits<double>::quiet_NaN()); }),
                 "room temperature"));
  CHECK(contains(with([](WallExposure& e) { e.surroundings = from_si<Temperature>(0.0); }), "surroundings"));
  CHECK(contains(with([](WallExposure& e) { e.emissivity = -0.1; }), "emissivity"));
  CHECK(contains(with([](WallExposure& e) { e.height = from_si<Length>(-0.1); }), "height"));
  CHECK(contains(with([](WallExposure& e) { e.inside_film = 0_W_m2K; }), "inside film"));
}
