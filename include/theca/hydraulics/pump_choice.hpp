// Which pump with which bore of main gives every tank its flow without water that runs too fast.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "theca/hydraulics/duty_point.hpp"
#include "theca/hydraulics/manifold.hpp"
#include "theca/hydraulics/pump_performance.hpp"
#include "theca/units.hpp"

namespace theca::hydraulics {

/// A pump on offer.
struct CandidatePump {
  std::string name;
  PumpCurve curve;
  std::vector<EfficiencyPoint> efficiency{};  ///< none if not measured
  std::optional<double> cost{};               ///< >= 0, in the currency of all costs
};

/// A bore on offer for the main.
struct CandidateBore {
  std::string name;
  Length bore;
  std::optional<double> cost{};  ///< of the whole main in this bore, >= 0
};

/// What comes first among the pairs that do: the least power given to the water, the least power that the pump draws,
/// or the least cost of pump and main.
enum class PumpRanking { hydraulic_power, power_drawn, cost };

struct FlowNeed {
  VolumeFlow least_flow{};         ///< of the pump, >= 0
  VolumeFlow least_branch_flow{};  ///< of every branch of a manifold, >= 0; one of the two flows > 0
  Velocity largest_velocity;       ///< in any pipe, > 0; 5 ft/s is common practice, no source
  Density density;                 ///< of the water, > 0
  PumpRanking ranking = PumpRanking::hydraulic_power;
};

/// A pump with a bore of main, and where they run, valves open.
struct PumpChoice {
  std::string pump;
  std::string bore;
  VolumeFlow flow;  ///< of the pump
  Length head;
  VolumeFlow least_branch_flow;  ///< of the branch that gets least; `flow` for a line
  Velocity fastest;              ///< in any pipe
  Length surplus_head;  ///< that a valve in the main takes up when it brings the flows down to what is asked for
  Power hydraulic_power;
  std::optional<Power> power_drawn{};  ///< where the pump's efficiency is known at this flow
  std::optional<double> cost{};        ///< of pump and main, where both are known
};

/// All pairs of a pump and a bore of the main that give the wanted flow within the velocity limit, best first. A pair
/// whose power drawn or cost is not known comes after those where it is, by hydraulic power.
///
/// All valves are open: a pump too strong for the velocity limit, or that runs off the end of its curve, is left out
/// although a throttled one might do. The pipes' K stay as given whatever the bore; fittings of a wider main have a
/// little less.
/// @param main  which pipe of the line takes the bores, counted from 0
/// @throws InvalidInput   no pump or bore, an impossible one (named), impossible line, water or need
/// @throws OutOfValidity  no pair does; says which comes nearest, and how near
/// @throws NotConverged   as duty_point()
/// @source duty_point(), hydraulic_power()
std::vector<PumpChoice> choose_pump(const PipeLine& line, int main, const std::vector<CandidatePump>& pumps,
                                    const std::vector<CandidateBore>& bores, const FlowNeed& need,
                                    const KinematicViscosity& viscosity);

/// The same for a manifold: the limit holds in main, headers and branches.
/// @throws InvalidInput   no pump or bore, an impossible one (named), impossible manifold, water or need
/// @throws OutOfValidity  no pair does; says which comes nearest, and how near
/// @throws NotConverged   as solve()
/// @source solve(), hydraulic_power()
std::vector<PumpChoice> choose_pump(const Manifold& manifold, const std::vector<CandidatePump>& pumps,
                                    const std::vector<CandidateBore>& bores, const FlowNeed& need,
                                    const KinematicViscosity& viscosity);

}  // namespace theca::hydraulics
