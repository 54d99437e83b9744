// What pumping costs, and the pipe size that costs least over its life.
#pragma once

#include <cstddef>
#include <vector>

#include "theca/hydraulics/pipe.hpp"
#include "theca/units.hpp"

namespace theca::farm {

/// How a pump runs and what its current costs.
struct Pumping {
  double pump_efficiency = 0.0;   ///< hydraulic over shaft power, > 0 to 1
  double motor_efficiency = 0.0;  ///< shaft over electric power, drive included, > 0 to 1
  Time running_per_year;          ///< 0 to 365 d
  EnergyPrice price;              ///< >= 0
};

struct PumpingCost {
  Power electric_power;  ///< while it runs
  Energy energy;         ///< per year
  MoneyRate cost;
};

/// Electric power, yearly energy and cost of lifting a flow by a head.
/// @param head  of the pump, or that part of it whose cost is asked for, e.g. one pipe's loss
/// @throws InvalidInput  flow or head negative, density not > 0, or a member of `pumping` out of its range
/// @source density g flow head over the efficiencies, textbook
PumpingCost pumping_cost(const VolumeFlow& flow, const Length& head, const Density& density, const Pumping& pumping);

/// A pipe size on offer.
struct PipeOffer {
  Length bore;
  Money installed_cost;  ///< of the whole length, with fittings and work, >= 0
};

/// What one size on offer costs.
struct PipeLifeCost {
  Length bore;
  Velocity velocity;
  Length head_loss;
  MoneyRate capital;  ///< installed cost spread over its life at the discount rate
  MoneyRate energy;   ///< to overcome the loss in this pipe
  MoneyRate total;
};

struct EconomicPipe {
  std::vector<PipeLifeCost> sizes;  ///< in the order of the offers
  std::size_t best = 0;             ///< place of the least total; of equal ones the first
};

/// Life-cycle cost of one pipe in each size on offer, and the cheapest.
///
/// Static head costs the same in every size and is not counted. The saving is real only if the pump is chosen, or
/// slowed, for the smaller head: the same pump on a wider pipe gives more flow instead.
/// @param pipe   its length, roughness and K; the bore is that of each offer in turn
/// @param flow   > 0
/// @param rate   discount rate per year, 0 to 1
/// @param years  life of the pipe, > 0
/// @throws InvalidInput  no offer, an impossible one, pipe, flow or water, or a member of `pumping` out of its range
/// @source annual capital by capital_recovery() plus energy by pumping_cost(), textbook; the least of the sum as in
///         Genereaux 1937 (from memory)
EconomicPipe economic_pipe(hydraulics::Pipe pipe, const std::vector<PipeOffer>& offers, const VolumeFlow& flow,
                           const KinematicViscosity& viscosity, const Density& density, const Pumping& pumping,
                           double rate, double years);

}  // namespace theca::farm
