// Filling and draining time against closed forms and fine steps.
#include "theca/hydraulics/draining_time.hpp"

#include <cmath>

#include "support/near.hpp"

using namespace theca;
using namespace theca::hydraulics;
using test::contains;
using test::message_of;
using test::near;

namespace {
const Outlet outlet{.tank_surface = 1.0 * units::square_metre, .opening = 5.0 * units::square_centimetre};
const KinematicViscosity water = 1e-6 * units::square_metre_per_second;
const Pipe drain_pipe{
    .bore = 25.0 * units::millimetre, .length = 6_m, .roughness = 1.5 * units::micrometre, .minor_loss_K = 2.0};
}  // namespace

TEST_CASE("draining: with water running in, either way [fine steps of A dh/dt = Q - C a sqrt(2 g h)]") {
  const VolumeFlow q = 0.5 * units::litre_per_second;
  // Midpoint rule in h over 200000 slices: error about 1e-9 away from the settling head of 0.137 m.
  const auto stepped = [&](double from, double to) {
    const int n = 200000;
    double t = 0.0;
    for (int i = 0; i < n; ++i) {
      const double h = from + (to - from) * (i + 0.5) / n;
      t += (to - from) / n / (si(q) - 0.61 * 5e-4 * std::sqrt(2.0 * 9.80665 * h));
    }
    return t;
  };
  CHECK(near(si(level_change_time(outlet, q, 0.5_m, 0.2_m)), stepped(0.5, 0.2), 1e-7));
  CHECK(near(si(level_change_time(outlet, q, 0.01_m, 0.1_m)), stepped(0.01, 0.1), 1e-7));
  CHECK(near(level_change_time(outlet, 1e-12 * units::litre_per_second, 0.5_m, 0.2_m),
             draining_time(outlet, 0.5_m, 0.2_m), 1e-9));
  CHECK(level_change_time(outlet, VolumeFlow(), 0.5_m, Length()) == draining_time(outlet, 0.5_m, Length()));
  CHECK(near(si(settling_head(outlet, q)), std::pow(5e-4 / (0.61 * 5e-4), 2) / (2.0 * 9.80665), 1e-12));
}

TEST_CASE("draining: a smooth pipe without length is an orifice [C = 1/sqrt(1 + K)]") {
  Pipe stub = drain_pipe;
  stub.length = Length();
  const Outlet same{.tank_surface = 1.0 * units::square_metre,
                    .opening = bore_area(drain_pipe.bore),
                    .coefficient = 1.0 / std::sqrt(3.0)};
  CHECK(near(draining_time(same.tank_surface, stub, 0.8_m, 0.1_m, water), draining_time(same, 0.8_m, 0.1_m), 1e-8));
}

TEST_CASE("draining: the flow through a pipe spends just its head") {
  for (const double h : {1e-4, 0.01, 0.3, 2.0}) {
    CAPTURE(h);
    const VolumeFlow q = gravity_flow(drain_pipe, h * units::metre, water);
    const double u = si(velocity(drain_pipe, q));
    CHECK(near(si(head_loss(drain_pipe, q, water)) + u * u / (2.0 * 9.80665), h, 1e-9));
  }
  CHECK(si(gravity_flow(drain_pipe, Length(), water)) == 0.0);
}

TEST_CASE("draining: through laminar pipe the level falls as an exponential [Hagen-Poiseuille]") {
  const Pipe fine{.bore = 2.0 * units::millimetre, .length = 10_m, .roughness = Length()};
  // Re stays below 10, where the velocity head is 1e-5 of friction.
  const double k = 9.80665 * 3.14159265358979 * std::pow(0.002, 4) / (128.0 * 1e-6 * 10.0);
  CHECK(near(si(draining_time(1.0 * units::square_metre, fine, 0.01_m, 0.005_m, water)), std::log(2.0) / k, 1e-3));
}

TEST_CASE("draining: impossible input is named") {
  CHECK(contains(message_of<InvalidInput>([] { draining_time({Area(), Area()}, 1_m, 0_m); }), "tank surface"));
  CHECK(contains(message_of<InvalidInput>([] {
                   draining_time({1.0 * units::square_metre, 0.2 * units::square_metre}, 1_m, 0_m);
                 }),
                 "opening"));
  CHECK(contains(message_of<InvalidInput>([] { draining_time(outlet, 1_m, 1.1_m); }), "to"));
  CHECK(contains(message_of<InvalidInput>([] { draining_time(outlet, -1.0 * units::metre, 0_m); }), "from"));
  CHECK(contains(
      message_of<OutOfValidity>([] { level_change_time(outlet, 0.5 * units::litre_per_second, 0.5_m, 0.1_m); }),
      "does not reach it"));
  CHECK(contains(
      message_of<OutOfValidity>([] { level_change_time(outlet, 0.5 * units::litre_per_second, 0.5_m, 0.6_m); }),
      "to ="));
  CHECK(contains(message_of<InvalidInput>([] { settling_head(outlet, -1.0 * units::gpm); }), "inflow"));
  CHECK(contains(message_of<InvalidInput>([] { gravity_flow(drain_pipe, -1.0 * units::metre, water); }), "head"));
  CHECK(contains(message_of<InvalidInput>([] { draining_time(1_m2, Pipe{}, 1_m, 1_m, water); }), "bore"));
  CHECK(contains(message_of<InvalidInput>([] { draining_time(1_m2, drain_pipe, 1_m, 1_m, KinematicViscosity()); }),
                 "viscosity"));
  CHECK(
      contains(message_of<InvalidInput>([] { draining_time(Area(), drain_pipe, 1_m, 0.5_m, water); }), "tank surface"));
  CHECK(contains(message_of<InvalidInput>([] { filling_time(1.0 * units::litre, VolumeFlow()); }), "flow"));
  CHECK(near(si(filling_time(100.0 * units::litre, 1.0 * units::litre_per_second)), 100.0, 1e-12));
}

TEST_CASE("draining time: a level a rounding away from where it settles is refused or finite, never infinite") {
  const Outlet round{.tank_surface = 1.0 * units::square_metre, .opening = 1e-3 * units::square_metre};
  const VolumeFlow inflow = 1.0 * units::litre_per_second;
  const double settles = si(settling_head(round, inflow));
  for (const double from : {2.0, 0.0})
    for (const double to : {std::nextafter(settles, from), settles * (1.0 + 1e-15), settles * (1.0 - 1e-15)}) {
      double seconds = 0.0;
      try {
        seconds = si(level_change_time(round, inflow, from * units::metre, to * units::metre));
      } catch (const OutOfValidity&) {
      }
      CHECK(std::isfinite(seconds));
      CHECK(seconds >= 0.0);
    }
}
