#include "theca/thermal/wall.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>

#include "support/near.hpp"
#include "theca/thermal/film.hpp"
#include "theca/thermal/radiation.hpp"

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

TEST_CASE("wall: films as given are the hand calculation 1/(1/h_i + t/k + 1/h_o)") {
  WallExposure e = in_the_hall();
  e.outside_film = 8.3_W_m2K;
  const WallHeat w = wall_heat(acrylic, e);
  CHECK(near(w.U, transmittance(acrylic, {.inside = 100_W_m2K, .outside = 8.3_W_m2K}), 1e-12));
  CHECK(near(si(w.flux), si(w.U) * 8.0 / 1.8, 1e-9));
  CHECK(si(w.radiation) == 0.0);
  CHECK(near(w.flux_low, w.flux, 1e-12));
}

TEST_CASE("wall: layers of every kind in one wall, temperatures falling from face to face, one flux through all") {
  const std::vector<Layer> built = {
      {12_mm, 1.0_W_mK}, air_gap(16_mm), {6_mm, 1.0_W_mK}, {20_mm, 0.035_W_mK}, {9_mm, 0.13_W_mK}};
  const WallHeat w = wall_heat(built, in_the_hall());
  REQUIRE(w.faces.size() == 6);
  CHECK(std::abs(si(w.residual)) < 1e-8);
  for (std::size_t i = 0; i + 1 < w.faces.size(); ++i) CHECK(w.faces[i] > w.faces[i + 1]);
  CHECK(near(si(w.faces[3] - w.faces[4]), si(w.flux) * 0.020 / 0.035, 1e-9));
  const double gap = si(gap_conductance({}, 16_mm, w.faces[1], w.faces[2], GapHeat::sideways, 101.3_kPa_abs));
  CHECK(near(gap * si(w.faces[1] - w.faces[2]), si(w.flux), 1e-8));
  CHECK(near(si(w.U) * si(78_degF - 70_degF), si(w.flux), 1e-8));
}

TEST_CASE("wall: perfect insulation loses nothing, a pane thin as vacuum leaves the two films in series") {
  const WallHeat closed =
      wall_heat({{.thickness = 1_m, .conductivity = from_si<ThermalConductivity>(1e-9)}}, in_the_hall());
  CHECK(std::abs(si(closed.flux)) < 1e-8);
  CHECK(near(si(closed.outside_surface), si(70_degF), 1e-9));
  CHECK(near(si(closed.inside_surface), si(78_degF), 1e-9));
  const WallHeat bare = wall_heat({{.thickness = from_si<Length>(1e-9), .conductivity = 1.0_W_mK}}, in_the_hall());
  CHECK(near(si(bare.inside_surface), si(bare.outside_surface), 1e-9));
  const double films = 1.0 / (1.0 / 100.0 + 1.0 / (si(bare.convective_film) + si(bare.radiative_film)));
  CHECK(near(si(bare.flux), films * 8.0 / 1.8, 1e-7));
}

TEST_CASE("wall: more insulation always loses less, a hotter tank or a colder room always more") {
  double last = 1e9;
  for (double millimetres = 1.0; millimetres < 200.0; millimetres *= 1.5) {
    const double flux = si(wall_heat({glass[0], {millimetres * units::millimetre, 0.035_W_mK}}, in_the_hall()).flux);
    CHECK(flux < last);
    last = flux;
  }
  last = -1e9;
  for (int i = 0; i < 40; ++i) {
    WallExposure e = in_the_hall();
    e.room = e.surroundings = celsius(38.0 - i);
    const double flux = si(wall_heat(glass, e).flux);
    CHECK(flux > last);
    last = flux;
  }
}

TEST_CASE("wall: the inner film of still and of stirred water is found too, and hardly matters beside the outer one") {
  WallExposure still = in_the_hall();
  still.inside_film = std::nullopt;
  WallExposure stirred = still;
  stirred.water_speed = 10_cm_s;
  const WallHeat a = wall_heat(glass, still), b = wall_heat(glass, stirred);
  CHECK(near(a.inside_film,
             water_film(a.inside_surface, 78_degF, still.salinity, Facing::sideways, 14_in, {}).coefficient, 1e-7));
  CHECK(si(b.inside_film) > 2.0 * si(a.inside_film));
  CHECK(si(a.inside_film) > 50.0);  // still water, half a kelvin: 100 to 200 W/m2K (textbook order of magnitude)
  CHECK(si(b.flux) > si(a.flux));
  CHECK(si(b.flux) < 1.10 * si(a.flux));
}

TEST_CASE("wall: a fan along the outside raises the loss, and the spread of the films holds the central value") {
  WallExposure fan = in_the_hall();
  fan.air_speed = 2_m_s;
  const WallHeat calm = wall_heat(glass, in_the_hall()), blown = wall_heat(glass, fan);
  CHECK(si(blown.flux) > 1.2 * si(calm.flux));
  CHECK(calm.flux_low < calm.flux);
  CHECK(calm.flux < calm.flux_high);
}

TEST_CASE("base on legs: warm underside loses less by convection than the same pane upright or facing up") {
  WallExposure base = in_the_hall();
  base.height = 30_in;
  base.length = 96_in;
  base.facing = Facing::down;
  WallExposure lid = base;
  lid.facing = Facing::up;
  CHECK(si(wall_heat(glass, base).convective_film) < si(wall_heat(glass, in_the_hall()).convective_film));
  CHECK(si(wall_heat(glass, base).convective_film) < 0.5 * si(wall_heat(glass, lid).convective_film));
}

TEST_CASE("wall: ten thousand random walls all converge, with heat in equal to heat out and no face outside the span") {
  std::mt19937 random(7);
  const auto between = [&](double low, double high) {
    return low + (high - low) * std::generate_canonical<double, 53>(random);
  };
  int most = 0;
  for (int i = 0; i < 10000; ++i) {
    std::vector<Layer> layers;
    for (int n = 1 + int(between(0.0, 4.0)); n > 0; --n)
      layers.push_back(between(0.0, 1.0) < 0.4
                           ? air_gap(between(2.0, 60.0) * units::millimetre)
                           : Layer{between(1.0, 60.0) * units::millimetre,
                                   std::pow(10.0, between(-1.6, 0.1)) * units::watt_per_metre_kelvin});
    WallExposure e{.water = celsius(between(5.0, 38.0)),
                   .room = celsius(between(1.0, 39.0)),
                   .surroundings = celsius(between(1.0, 39.0)),
                   .height = between(0.1, 0.6) * units::metre,
                   .emissivity = between(0.0, 1.0),
                   .facing = Facing(int(between(0.0, 3.0))),
                   .length = between(0.2, 1.0) * units::metre,
                   .air_speed = between(0.0, 1.0) < 0.5 ? 0_m_s : between(0.0, 3.0) * units::metre_per_second,
                   .water_speed = between(0.0, 1.0) < 0.5 ? 0_m_s : between(0.0, 0.3) * units::metre_per_second};
    const WallHeat w = wall_heat(layers, e);
    REQUIRE(std::abs(si(w.residual)) < 1e-5);
    const double low = std::min({si(e.water), si(e.room), si(e.surroundings)});
    const double high = std::max({si(e.water), si(e.room), si(e.surroundings)});
    for (const Temperature& face : w.faces) REQUIRE((si(face) >= low && si(face) <= high));
    most = std::max(most, w.iterations);
  }
  CHECK(most <= 30);
}

TEST_CASE("trap, no radiation: the walls lose some 60 % less") {
  WallExposure mirror = in_the_hall();
  mirror.emissivity = 0.0;
  const double left = si(wall_heat(glass, mirror).flux) / si(wall_heat(glass, in_the_hall()).flux);
  CHECK(left > 0.35);
  CHECK(left < 0.48);
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
