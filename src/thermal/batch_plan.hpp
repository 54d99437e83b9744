// A batch in raw numbers, made ready to run: degC, W, J/K, s.
#pragma once

#include <cstddef>
#include <vector>

#include "exchange.hpp"
#include "loss_curve.hpp"
#include "theca/thermal/batch.hpp"

namespace theca::thermal::detail {

/// Tanks of one system with the same rate of exchange: they differ from their mean by what decays at that rate.
struct EqualTanks {
  std::size_t first = 0, last = 0;  ///< bodies
  double rate = 0.0;                ///< 1/s
  double capacity = 0.0;            ///< of all, J/K
};

struct PlannedSystem {
  std::size_t first = 0, sump = 0;  ///< bodies: tanks from `first`, then the sump
  std::vector<EqualTanks> groups;   ///< the last holds the sump alone
  ExchangeModes modes;
  double leak = 0.0;  ///< W/K, the part of the sump's loss that follows its temperature within a step
  double gain = 0.0, heater = 0.0, chiller = 0.0;
  double heater_on = 0.0, heater_off = 0.0, chiller_on = 0.0, chiller_off = 0.0;
  double lights_from = 0.0, lights_length = 0.0;
};

/// A room's state at the nodes of the run.
struct PlannedRoom {
  double interval = 0.0;
  std::vector<double> air, surroundings_less_air, humidity;
  RoomState at(double time) const;
};

/// A type of tank in a room.
struct PlannedCurve {
  std::size_t table = 0, room = 0;
};

struct BatchPlan {
  std::vector<LossTable> tables;
  std::vector<PlannedRoom> rooms;
  std::vector<PlannedCurve> curves;
  std::vector<PlannedSystem> systems;
  // Bodies of water: the tanks of a system by group, then its sump.
  std::vector<std::size_t> curve;
  std::vector<double> capacity, light, start;
  std::vector<int> tank;  ///< -1: a sump

  double step = 0.0;
  long steps = 0;
  double water_low = 0.0, water_high = 0.0, cold_limit = 0.0, warm_limit = 0.0;
  std::vector<int> traced;
};

}  // namespace theca::thermal::detail
