// Cost of pumping, and the pipe that costs least over its life.
#include "theca/farm/pipe_economics.hpp"

#include <cmath>
#include <limits>

#include "support/near.hpp"
#include "theca/error.hpp"
#include "theca/farm/economics.hpp"

namespace {
using namespace theca;
using namespace theca::farm;
using theca::test::contains;
using theca::test::message_of;
using theca::test::near;

constexpr double pi = 3.14159265358979323846;
constexpr auto m = units::metre;
constexpr auto kg_m3 = units::kilogram_per_cubic_metre;
constexpr auto m2_s = units::square_metre_per_second;
constexpr auto m3_s = units::cubic_metre_per_second;
const double not_a_number = std::numeric_limits<double>::quiet_NaN();

Pumping pumping(double price_kWh = 0.15) {
  return {.pump_efficiency = 0.6,
          .motor_efficiency = 0.85,
          .running_per_year = 8000.0 * units::hour,
          .price = price_kWh * units::dollar_per_kilowatt_hour};
}

hydraulics::Pipe pipe(double length_m, double roughness_m = 0.0, double K = 0.0) {
  return {.bore = {}, .length = length_m * m, .roughness = roughness_m * m, .minor_loss_K = K};
}

// Bores from `low_m` to `high_m`, each 0.1 % over the last, at a cost of B d^n per metre, d in m.
std::vector<PipeOffer> power_law(double low_m, double high_m, double length_m, double B, double n) {
  std::vector<PipeOffer> offers;
  for (double d = low_m; d < high_m; d *= 1.001)
    offers.push_back({d * m, B * std::pow(d, n) * length_m * units::dollar});
  return offers;
}
}  // namespace

TEST_CASE("pumping cost: power, energy and money of 1 L/s by 10 m, worked by hand") {
  // 1000 9.80665 0.001 10 = 98.0665 W of water, over 0.6 0.85 = 192.287 W, 8000 h = 1538.3 kWh, at 0.15 = 230.75.
  const PumpingCost c = pumping_cost(1e-3 * m3_s, 10.0 * m, 1000.0 * kg_m3, pumping());
  CHECK(near(si(c.electric_power), 98.0665 / 0.51, 1e-14));
  CHECK(near(in(c.energy, units::kilowatt_hour), 8.0 * 98.0665 / 0.51, 1e-14));
  CHECK(near(in(c.cost, units::dollar_per_year), 0.15 * 8.0 * 98.0665 / 0.51, 1e-14));
}

TEST_CASE("economic pipe: laminar flow, where the best bore has a closed form") {
  // Loss 128 nu L Q / (pi g d^4) (Hagen-Poiseuille), cost B d^n L: the derivative of the sum is 0 at
  // d = (4 A / (n B r))^(1/(4+n)) with A d^-4 the energy cost per metre and year.
  const double Q = 2e-5, nu = 1e-5, B = 80.0, n = 1.5, L = 30.0;
  const Pumping p = pumping();
  const double recovery = capital_recovery(0.08, 12.0);
  const double A = 1000.0 * 128.0 * nu * Q * Q / pi / 0.51 * 8.0 * 0.15;
  const double d = std::pow(4.0 * A / (n * B * recovery), 1.0 / (4.0 + n));
  REQUIRE(4.0 * Q / (pi * d * nu) < 1500.0);
  const EconomicPipe e =
      economic_pipe(pipe(L), power_law(0.5 * d, 2.0 * d, L, B, n), Q * m3_s, nu * m2_s, 1000.0 * kg_m3, p, 0.08, 12.0);
  CHECK(near(si(e.sizes[e.best].bore), d, 6e-4));  // half a step
  CHECK(near(si(e.sizes[e.best].velocity), Q / (0.25 * pi * d * d), 1.2e-3));
  // At the optimum n shares of capital equal 4 of energy.
  CHECK(near(n * si(e.sizes[e.best].capital), 4.0 * si(e.sizes[e.best].energy), 3.5e-3));
}

TEST_CASE("economic pipe: turbulent smooth flow against the closed form on Blasius' friction factor") {
  // f = 0.3164 Re^-1/4 gives a loss per metre of C d^-4.75, C = 0.3164 (4/(pi nu))^-0.25 Q^1.75 8/(pi^2 g). Blasius
  // leaves the smooth law by up to 3 % at Re 1e4 to 1e5, its slope by 0.02 of 4.75: together 1 % of d.
  const double Q = 1e-3, nu = 1.05e-6, B = 900.0, n = 1.4, L = 40.0;
  const double C = 0.3164 * std::pow(4.0 / (pi * nu), -0.25) * std::pow(Q, 1.75) * 8.0 / (pi * pi * 9.80665);
  const double A = 1025.0 * 9.80665 * Q * C / 0.51 * 8.0 * 0.15;  // energy cost per metre and year: A d^-4.75
  const double d = std::pow(4.75 * A / (n * B * capital_recovery(0.1, 15.0)), 1.0 / (4.75 + n));
  const double reynolds = 4.0 * Q / (pi * d * nu);
  REQUIRE(reynolds > 1e4);
  REQUIRE(reynolds < 1e5);
  const EconomicPipe e = economic_pipe(pipe(L), power_law(0.5 * d, 2.0 * d, L, B, n), Q * m3_s, nu * m2_s,
                                       1025.0 * kg_m3, pumping(), 0.1, 15.0);
  CHECK(near(si(e.sizes[e.best].bore), d, 0.01));
}

TEST_CASE("economic pipe: the sum of each size, and the least of them") {
  const std::vector<PipeOffer> offers = {
      {26.6_mm, 110_USD}, {35.1_mm, 150_USD}, {40.9_mm, 185_USD}, {52.5_mm, 260_USD}};
  const auto run = [&](double price) {
    return economic_pipe(pipe(20.0, 1.5e-6, 6.0), offers, 1.5e-3 * m3_s, 1.05e-6 * m2_s, 1025.0 * kg_m3, pumping(price),
                         0.05, 10.0);
  };
  const EconomicPipe e = run(0.15);
  for (std::size_t i = 0; i < offers.size(); ++i) {
    const PipeLifeCost& s = e.sizes[i];
    CHECK(s.bore == offers[i].bore);
    hydraulics::Pipe p = pipe(20.0, 1.5e-6, 6.0);
    p.bore = s.bore;
    CHECK(near(s.head_loss, hydraulics::head_loss(p, 1.5e-3 * m3_s, 1.05e-6 * m2_s), 1e-14));
    CHECK(near(si(s.energy), si(pumping_cost(1.5e-3 * m3_s, s.head_loss, 1025.0 * kg_m3, pumping()).cost), 1e-14));
    // 5 % over 10 years: 0.12950 per year, a table of engineering economics (from memory).
    CHECK(near(in(s.capital, units::dollar_per_year), 0.12950 * in(offers[i].installed_cost, units::dollar), 5e-5));
    CHECK(near(s.total, s.capital + s.energy, 1e-15));
    CHECK(e.sizes[e.best].total <= s.total);
  }
  // Dear current pays wider pipe, free current the cheapest one.
  CHECK(run(0.0).best == 0);
  CHECK(run(100.0).best == 3);
  for (double price = 0.01; price < 1.0; price *= 1.3) CHECK(run(price).best <= run(1.3 * price).best);
}

TEST_CASE("economic pipe: impossible input is refused by name") {
  const auto refuses = [](const std::vector<PipeOffer>& offers, const Pumping& p, const VolumeFlow& flow, double rate,
                          const char* words) {
    CHECK(contains(message_of<InvalidInput>([&] {
                     (void)economic_pipe(pipe(10.0), offers, flow, 1e-6 * m2_s, 1000.0 * kg_m3, p, rate, 10.0);
                   }),
                   words));
  };
  const std::vector<PipeOffer> one = {{25_mm, 100_USD}};
  const std::vector<PipeOffer> negative = {{25_mm, -1.0 * units::dollar}}, none = {{0_mm, 100_USD}};
  refuses({}, pumping(), 1e-3 * m3_s, 0.05, "number of pipe offers");
  refuses(negative, pumping(), 1e-3 * m3_s, 0.05, "installed cost of bore 0.025 m");
  refuses(none, pumping(), 1e-3 * m3_s, 0.05, "bore");
  refuses(one, pumping(), 0.0 * m3_s, 0.05, "flow");
  refuses(one, pumping(), 1e-3 * m3_s, -0.05, "discount rate");
  refuses(one, pumping(-0.1), 1e-3 * m3_s, 0.05, "energy price");
  Pumping p = pumping();
  p.pump_efficiency = 1.2;
  refuses(one, p, 1e-3 * m3_s, 0.05, "pump efficiency");
  p = pumping();
  p.motor_efficiency = 0.0;
  refuses(one, p, 1e-3 * m3_s, 0.05, "motor efficiency");
  p = pumping();
  p.running_per_year = 9000.0 * units::hour;
  refuses(one, p, 1e-3 * m3_s, 0.05, "running time per year");
  p.running_per_year = not_a_number * units::hour;
  refuses(one, p, 1e-3 * m3_s, 0.05, "running time per year");
}
