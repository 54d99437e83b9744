// An invented farm of many tanks for the benchmark of the batch; bench/thermal/batch_numpy.py builds the same one.
#pragma once

#include <cmath>

#include "theca/thermal.hpp"

namespace theca::bench {

inline thermal::TankSurfaces open_tank(const Length& length, const Length& width, const Length& depth) {
  thermal::TankSurfaces tank{.name = "open tank",
                             .water_length = length,
                             .water_width = width,
                             .inside_film = from_si<ThermalTransmittance>(100.0),
                             .base = length * width,
                             .base_U = from_si<ThermalTransmittance>(1.5),
                             .evaporation_activity = 0.65};
  for (const Length& side : {length, length, width, width})
    tank.walls.push_back(
        {.name = "wall",
         .length = side,
         .height = depth,
         .layers = {{.thickness = from_si<Length>(0.012), .conductivity = from_si<ThermalConductivity>(1.0)}}});
  return tank;
}

/// Two halls over a year in hours, 20 tanks to a sump, of two types in turn; heater and chiller in the sump.
inline thermal::Batch many_tanks(int systems, double days) {
  using namespace thermal;
  Batch batch;
  const auto m = [](double x) { return from_si<Length>(x); };
  batch.types = {open_tank(m(2.4), m(0.74), m(0.36)),
                 open_tank(m(1.2), m(0.6), m(0.45)),
                 {.name = "sump", .base = from_si<Area>(6.0), .base_U = from_si<ThermalTransmittance>(3.0)}};
  for (int r = 0; r < 2; ++r) {
    RoomSeries room{.name = "hall", .interval = from_si<Time>(3600.0), .air_speed = from_si<Velocity>(0.1)};
    for (int hour = 0; hour <= static_cast<int>(std::ceil(days * 24.0)); ++hour) {
      const double season = std::cos(2.0 * M_PI * (hour / 8760.0 - 0.55)),
                   clock = std::cos(2.0 * M_PI * (hour - 15) / 24.0);
      const double air = 22.0 + r + 4.5 * season + 1.5 * clock;
      room.air.push_back(celsius(air));
      room.surroundings.push_back(celsius(air - 0.5 + 0.8 * season));
      room.humidity.push_back(RelativeHumidity(0.58 + 0.08 * season - 0.04 * clock));
    }
    batch.rooms.push_back(room);
  }
  for (int s = 0; s < systems; ++s) {
    BatchSystems& y = batch.systems;
    y.room.push_back(s % 2);
    y.sump_room.push_back(s % 2);
    y.sump_type.push_back(2);
    y.sump_water.push_back(from_si<Volume>(0.8));
    y.sump_start.push_back(celsius(25.5));
    y.gain.push_back(from_si<Power>(400.0));
    y.heater.push_back(from_si<Power>(8000.0));
    y.chiller.push_back(from_si<Power>(6000.0));
    y.heater_set_point.push_back(celsius(25.0));
    y.chiller_set_point.push_back(celsius(26.5));
    y.spread.push_back(from_si<TemperatureDifference>(0.6));
    y.lights_from.push_back(from_si<Time>(3600.0 * (8 + s % 3)));
    y.lights_length.push_back(from_si<Time>(3600.0 * 10));
    for (int i = 0; i < 20; ++i) {
      const int n = 20 * s + i;
      const double water = (i % 2 == 0 ? 0.62 : 0.31) * (1.0 + 0.02 * std::sin(n));
      batch.tanks.system.push_back(s);
      batch.tanks.type.push_back(i % 2);
      batch.tanks.water.push_back(from_si<Volume>(water));
      batch.tanks.turnover.push_back(from_si<VolumeFlow>((i % 2 == 0 ? 4.0 : 6.0) / 3600.0 * water));
      batch.tanks.light.push_back(from_si<Power>((i % 2 == 0 ? 150.0 : 80.0) * (1.0 + 0.1 * std::cos(n))));
      batch.tanks.start.push_back(celsius(25.5));
    }
  }
  batch.duration = from_si<Time>(days * 86400.0);
  batch.water_low = celsius(20.0);
  batch.water_high = celsius(31.0);
  batch.cold_limit = celsius(24.5);
  batch.warm_limit = celsius(27.0);
  return batch;
}

}  // namespace theca::bench
