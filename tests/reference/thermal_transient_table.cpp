// Runs the 12-tank sump system of thermal_transient_test.py for a week and prints, a line each: temperatures of every
// node at every hour ("T hour t1 t2 ..."), switchings ("S seconds unit on"), energies in J ("E name joule").
#include <cmath>
#include <iomanip>
#include <iostream>

#include "theca/thermal/transient.hpp"

using namespace theca;
using namespace theca::literals;
using namespace theca::thermal;

namespace {
constexpr std::size_t tanks = 12, sump = 12;

// Evaporation of 1.6 m2 by Carrier's equation, and natural convection of walls as dT^(5/4): the same formulas stand in
// the Python judge, written anew.
Power loss(const Temperature& water, const Temperature& room) {
  const double difference = si(water) - si(room);
  const double convection = 4.0 * difference * std::pow(difference * difference + 1e-4, 0.125);
  const double vapour = 0.98 * air::kernel::saturation_vapour_pressure(si(water)) -
                        0.55 * air::kernel::saturation_vapour_pressure(si(room));
  return from_si<Power>(convection + 1.6 * 0.5 * 0.089 * vapour);
}

TankLoop farm() {
  TankLoop loop;
  for (std::size_t i = 0; i < tanks; ++i) {
    LoopNode tank;
    tank.name = "tank";
    tank.capacity = from_si<HeatCapacity>(1.6e6 + 1e5 * double(i));
    tank.start = celsius(25.0 + 0.1 * double(i));
    tank.UA = from_si<ThermalConductance>(8.0 + 0.5 * double(i));
    tank.loss = loss;
    loop.nodes.push_back(tank);
    LoopFlow flow;
    flow.from = sump;
    flow.to = i;
    flow.exchange = from_si<ThermalConductance>(700.0 + 50.0 * double(i));
    flow.pump = "return pump";
    loop.flows.push_back(flow);
    LoopGain lights;
    lights.name = "lights";
    lights.node = i;
    lights.heat = from_si<Power>(90.0);
    lights.hours = DailyHours{.from = 9_h, .length = 10_h};
    loop.gains.push_back(lights);
  }
  LoopNode water;
  water.name = "sump";
  water.capacity = from_si<HeatCapacity>(1.5e6);
  water.start = celsius(25.5);
  water.UA = 12_W_K;
  loop.nodes.push_back(water);
  for (std::size_t i = 0; i < tanks; i += 3)
    loop.units.push_back(heater_unit("heater", i, 900_W, celsius(25.4), from_si<TemperatureDifference>(0.3)));
  loop.units.push_back(heater_unit("sump heater", sump, 1500_W, celsius(25.2), from_si<TemperatureDifference>(0.4)));
  loop.units.push_back(chiller_unit("chiller", sump, 2000_W, celsius(26.0), from_si<TemperatureDifference>(0.4), 3.0));
  LoopGain pump;
  pump.name = "pump";
  pump.node = sump;
  pump.heat = 200_W;
  loop.gains.push_back(pump);
  loop.courses = {{.mean = celsius(21.0),
                   .swings = {{.amplitude = from_si<TemperatureDifference>(3.0), .period = 24_h, .warmest = 15_h},
                              {.amplitude = from_si<TemperatureDifference>(4.0), .period = 168_h, .warmest = 120_h}}}};
  loop.incidents = {{.failure = Failure::power_cut, .from = 30_h, .to = 36_h},
                    {.failure = Failure::stuck_on, .name = "sump heater", .from = 100_h, .to = 110_h}};
  return loop;
}
}  // namespace

int main() {
  std::vector<Time> hours;
  for (int h = 0; h <= 168; ++h) hours.push_back(double(h) * units::hour);
  const TankLoop loop = farm();
  const LoopRun r = run_loop(loop, hours);
  std::cout << std::setprecision(15);
  for (std::size_t h = 0; h < hours.size(); ++h) {
    std::cout << "T " << h;
    for (const Temperature& t : r.temperatures[h]) std::cout << ' ' << si(t);
    std::cout << '\n';
  }
  for (const Switching& s : r.switchings) std::cout << "S " << si(s.time) << ' ' << s.unit << ' ' << s.on << '\n';
  for (std::size_t u = 0; u < r.units.size(); ++u) std::cout << "E " << u << ' ' << si(r.units[u].heat) << '\n';
  double lost = 0.0;
  for (const Energy& e : r.lost) lost += si(e);
  std::cout << "E lost " << lost << '\n';
}
