// Water in motion against other methods and printed figures: masses and heights, damping by quadrature, growth in time.
#include <algorithm>
#include <cmath>

#include "support/near.hpp"
#include "theca/structure/earthquake.hpp"
#include "theca/structure/hand_waves.hpp"

using namespace theca;
using namespace theca::literals;
using namespace theca::structure;
using test::near;
using test::within;

namespace {
constexpr double pi = 3.14159265358979323846;
}

TEST_CASE("water masses and heights: tank 20 m long, water 5 m [IITK-GSDMA Guidelines 2007, example, from memory]") {
  // Printed to three figures: m_i/m 0.288, m_c/m 0.695, h_i/h 0.375, h_c/h 0.524. The document is named in the
  // library's sources, its pages were not at hand: the figures are from memory.
  const WaterModel m = housner_water(20_m, 5_m, 1000000_kg);
  CHECK(within(si(m.impulsive.mass) / 1e6, 0.288, 5e-4));
  CHECK(within(si(m.convective[0].mass) / 1e6, 0.695, 5e-4));
  CHECK(within(si(m.impulsive.height_walls) / 5.0, 0.375, 5e-4));
  CHECK(within(si(m.convective[0].height_walls) / 5.0, 0.524, 5e-4));
  // Including base pressure, by hand: 0.866 x 4 = 3.464, tanh 0.998043: 1.735396 - 0.125; and with 3.16 / 4 = 0.79:
  // cosh 1.328616, sinh 0.874748: 1 + 0.681384 / 0.691051
  CHECK(near(si(m.impulsive.height_whole) / 5.0, 1.610396, 2e-5));
  CHECK(near(si(m.convective[0].height_whole) / 5.0, 1.986011, 2e-5));
}

TEST_CASE(
    "impulsive mass and heights: direct series of the pressure with no pressure at the surface [potential flow]") {
  for (const double ratio : {0.6, 1.0, 2.5, 6.0}) {
    CAPTURE(ratio);
    // h = 1, rho = b = 1: p = sum c_j cos(l z) sinh(l (L/2 - x)) / (l cosh(l L/2)), l = (2j-1) pi/2, c_j = +-2/l.
    const double length = ratio;
    double force = 0.0, walls = 0.0, base = 0.0;
    for (int j = 1; j < 4000; ++j) {
      const double l = (2 * j - 1) * 0.5 * pi, sign = j % 2 == 1 ? 1.0 : -1.0, t = std::tanh(0.5 * l * length);
      force += 4.0 / (l * l * l) * t;
      walls += 4.0 * sign / (l * l) * t * (sign / l - 1.0 / (l * l));
      // Moment of the pressure on the base about the middle: 2 integral of u sinh(l u) / cosh over half the length.
      base += 4.0 * sign / (l * l) * (0.5 * length / l - t / (l * l));
    }
    const WaterModel m = potential_flow_water(length * 1.0_m, 1_m, ratio * 1_kg, 200);
    CHECK(near(si(m.impulsive.mass), force, 2e-4));  // 200 modes leave out about 1e-5 of the water
    CHECK(near(si(m.impulsive.mass) * si(m.impulsive.height_walls), walls, 3e-4));
    CHECK(near(si(m.impulsive.mass) * si(m.impulsive.height_whole), walls + base, 3e-4));
  }
}

TEST_CASE(
    "Housner beside potential flow: swinging mass and heights to 3 %, impulsive mass to 11 %, its height to 15 %") {
  for (const double ratio : {0.8, 1.5, 3.0, 6.0}) {
    CAPTURE(ratio);
    const WaterModel h = housner_water(ratio * 1_m, 1_m, 1000_kg), p = potential_flow_water(ratio * 1_m, 1_m, 1000_kg);
    CHECK(near(h.convective[0].mass, p.convective[0].mass, 0.03));
    CHECK(near(h.convective[0].height_walls, p.convective[0].height_walls, 0.03));
    CHECK(near(h.convective[0].height_whole, p.convective[0].height_whole, 0.03));
    CHECK(near(h.periods[0], p.periods[0], 0.01));
    CHECK(near(h.impulsive.height_walls, p.impulsive.height_walls, 0.15));
    CHECK(near(h.impulsive.mass, p.impulsive.mass, 0.11));
  }
}

TEST_CASE("base shear and moments worked by hand: root of the sum of squares") {
  WaterModel w;
  w.impulsive = {100_kg, 0.2_m, 0.4_m};
  w.convective = {{60_kg, 0.3_m, 0.5_m}};
  // g 10: push (100 + 50) x 5 = 750 N, swing 60 x 1 = 60 N; rise 1 m, solid 50 kg at 1.3 m
  const ShakingLoad s =
      shaking_load(w, {{50_kg, 1.3_m}}, {.impulsive = 0.5, .convective = 0.1}, 1_m, from_si<Acceleration>(10.0));
  CHECK(near(si(s.impulsive_shear), 750.0, 1e-12));
  CHECK(near(si(s.convective_shear), 60.0, 1e-12));
  CHECK(near(si(s.base_shear), std::hypot(750.0, 60.0), 1e-12));
  CHECK(near(si(s.wall_moment), std::hypot(500 * 0.2 + 250 * 0.3, 60 * 0.3), 1e-12));
  CHECK(near(si(s.overturning), std::hypot(500 * 1.4 + 250 * 1.3, 60 * 1.5), 1e-12));
}

TEST_CASE("wave damping: dissipation summed over walls, bottom and film [quadrature of the velocity field]") {
  const WaveBasin b{1.2_m, 0.5_m, 0.3_m, 1025_kg_m3, from_si<KinematicViscosity>(1e-6)};
  const double l = 1.2, w = 0.5, h = 0.3, nu = 1e-6, k = pi / l, om = std::sqrt(9.80665 * k * std::tanh(k * h));
  const int n = 400;
  double squares = 0.0, film = 0.0;  // of u over surfaces at amplitude 1, in units of om^2
  const auto u = [&](double x, double z) { return std::cosh(k * z) / std::sinh(k * h) * std::sin(k * x); };
  const auto v = [&](double x, double z) { return std::sinh(k * z) / std::sinh(k * h) * std::cos(k * x); };
  for (int i = 0; i < n; ++i) {
    const double x = (i + 0.5) * l / n, zi = (i + 0.5) * h / n;
    squares += w * l / n * std::pow(u(x, 0.0), 2) + 2.0 * w * h / n * std::pow(v(0.0, zi), 2);
    film += w * l / n * std::pow(u(x, h), 2);
    for (int j = 0; j < n; ++j) {
      const double z = (j + 0.5) * h / n;
      squares += 2.0 * l / n * h / n * (std::pow(u(x, z), 2) + std::pow(v(x, z), 2));
    }
  }
  const double layer = 0.5 * std::sqrt(nu * om / 2.0) * om * om / (2.0 * om * 0.25 * 9.80665 * w * l);
  const double bulk = 2.0 * nu * k * k / om;
  CHECK(near(wave_damping(b, Surface::clean), layer * squares + bulk, 1e-5));
  CHECK(near(wave_damping(b, Surface::film), layer * (squares + film) + bulk, 1e-5));
}

TEST_CASE("hand-driven wave: amplitude after strokes against the equation of motion stepped in time [Runge-Kutta]") {
  const WaveBasin b{1.2_m, 0.5_m, 0.3_m, 1025_kg_m3, from_si<KinematicViscosity>(1e-6)};
  const double l = 1.2, h = 0.3, k = pi / l, om = std::sqrt(9.80665 * k * std::tanh(k * h));
  for (const double ratio : {1.0, 1.02, 0.95}) {
    CAPTURE(ratio);
    Stroke s;
    s.amplitude = 0.1_m;
    s.rate = from_si<Frequency>(ratio * om / (2 * pi));
    s.blade = from_si<Area>(0.005);
    s.place = 0.6_m;
    s.height = 0.2_m;
    const double drag = 8.0 / (3.0 * pi) * 0.5 * 1025.0 * 2.0 * 0.005 * std::pow(ratio * om * 0.1, 2);
    const double motion = std::cosh(k * 0.2) / std::sinh(k * h);
    const double drive = drag * motion / (1025.0 * 0.5 * l / (2.0 * k * std::tanh(k * h)));
    const double zeta = 0.01, rate = ratio * om;
    const auto acceleration = [&](double t, double a, double v) {
      return drive * std::sin(rate * t) - 2.0 * zeta * om * v - om * om * a;
    };
    const int strokes = 12, steps = 400;
    const double dt = 2.0 * pi / rate / steps;
    double a = 0.0, v = 0.0, peak = 0.0;
    for (int i = 0; i < strokes * steps; ++i) {
      const double t = i * dt;
      const double k1 = acceleration(t, a, v), v2 = v + 0.5 * dt * k1;
      const double k2 = acceleration(t + 0.5 * dt, a + 0.5 * dt * v, v2), v3 = v + 0.5 * dt * k2;
      const double k3 = acceleration(t + 0.5 * dt, a + 0.5 * dt * v2, v3), v4 = v + dt * k3;
      const double k4 = acceleration(t + dt, a + dt * v3, v4);
      a += dt / 6.0 * (v + 2.0 * v2 + 2.0 * v3 + v4);
      v += dt / 6.0 * (k1 + 2.0 * k2 + 2.0 * k3 + k4);
      if (i >= (strokes - 1) * steps) peak = std::max(peak, std::abs(a));
    }
    // The peak lies up to half a stroke before the end, where the envelope is up to a twentieth off.
    const HandWave wave = hand_wave(b, s, zeta, strokes);
    CHECK(near(si(wave.amplitude), peak, 0.05));
    if (ratio == 1.0) CHECK(near(si(wave.per_stroke), pi * drive / (om * om), 1e-9));
  }
}

TEST_CASE("wave over a rim: volume summed over short lengths, and the brace's share") {
  const WaveBasin b{1.2_m, 0.5_m, 0.3_m, 1025_kg_m3, from_si<KinematicViscosity>(1e-6)};
  const RimWave r = rim_wave(b, 60_mm, 30_mm, 100_mm);
  double all = 0.0, under = 0.0;
  const int n = 120000;
  for (int i = 0; i < n; ++i) {
    const double x = (i + 0.5) * 1.2 / n, above = std::max(0.0, 0.06 * std::cos(pi * x / 1.2) - 0.03);
    all += 0.5 * above * 1.2 / n;
    if (x < 0.1) under += 0.5 * above * 1.2 / n;
  }
  CHECK(near(si(r.over_level), all, 1e-7));
  CHECK(near(si(r.under_brace), under, 1e-7));
  CHECK(near(si(r.past_brace), all - under, 1e-6));
  CHECK(near(r.reach, 0.4_m, 1e-12));  // cos 60 deg
  CHECK(rim_wave(b, 30_mm, 30_mm).over_level == Volume());
}
