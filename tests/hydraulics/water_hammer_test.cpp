// Water hammer: limits, closing time and impossible input. Worked examples are in tests/published.
#include "theca/hydraulics/water_hammer.hpp"

#include "support/near.hpp"

using namespace theca;
using namespace theca::hydraulics;
using test::contains;
using test::message_of;
using test::near;

namespace {
const ElasticPipe pvc{.bore = 1.5_in,
                      .wall = 0.15_in,
                      .modulus = 400000.0 * units::psi,
                      .bulk_modulus = 300000.0 * units::psi,
                      .density = 1025.0 * units::kilogram_per_cubic_metre};
const Velocity v = 5.0 * units::foot_per_second;
}  // namespace

TEST_CASE("water hammer: in a rigid pipe the wave runs at the speed of sound in water [limit E -> infinity]") {
  ElasticPipe rigid = pvc;
  rigid.modulus = 1e9 * units::gigapascal;
  CHECK(near(si(wave_speed(rigid)), std::sqrt(si(pvc.bulk_modulus) / 1025.0), 2e-8));  // K D/(E e) is 2e-8
}

TEST_CASE("water hammer: slow closing meets sudden closing at the pipe's period") {
  const Time period = pipe_period(pvc, 20_m);
  CHECK(valve_surge(pvc, 20_m, v, period).sudden);
  const Surge slow = valve_surge(pvc, 20_m, v, 1.000001 * period);
  CHECK_FALSE(slow.sudden);
  CHECK(near(slow.rise, joukowsky_pressure(pvc, v), 2e-6));
  CHECK(near(valve_surge(pvc, 20_m, v, 10.0 * period).rise, 0.1 * joukowsky_pressure(pvc, v), 1e-12));
}

TEST_CASE("water hammer: the least closing time gives just the limit") {
  const Pressure limit = 20.0 * units::psi;
  const Time t = least_closing_time(pvc, 20_m, v, limit);
  CHECK(near(valve_surge(pvc, 20_m, v, t).rise, limit, 1e-12));
  CHECK(si(least_closing_time(pvc, 20_m, v, 10.0 * units::megapascal)) == 0.0);
}

TEST_CASE("water hammer: impossible input is named") {
  const auto with = [](auto change) {
    ElasticPipe p = pvc;
    change(p);
    return message_of<InvalidInput>([&] { wave_speed(p); });
  };
  CHECK(contains(with([](ElasticPipe& p) { p.bore = Length(); }), "bore"));
  CHECK(contains(with([](ElasticPipe& p) { p.wall = 0.5_in; }), "wall"));
  CHECK(contains(with([](ElasticPipe& p) { p.modulus = Pressure(); }), "modulus"));
  CHECK(contains(with([](ElasticPipe& p) { p.bulk_modulus = -1.0 * units::pascal; }), "bulk modulus"));
  CHECK(contains(with([](ElasticPipe& p) { p.density = Density(); }), "density"));
  CHECK(contains(with([](ElasticPipe& p) { p.restraint = 2.0; }), "restraint"));
  CHECK(contains(message_of<InvalidInput>([] { pipe_period(pvc, Length()); }), "length"));
  CHECK(contains(message_of<InvalidInput>([] { joukowsky_pressure(pvc, -1.0 * v); }), "velocity change"));
  CHECK(contains(message_of<InvalidInput>([] { valve_surge(pvc, 1_m, v, -1.0 * units::second); }), "closing time"));
  CHECK(contains(message_of<InvalidInput>([] { least_closing_time(pvc, 1_m, v, Pressure()); }), "limit"));
}
