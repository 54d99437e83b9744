#include "theca/farm/pipe_economics.hpp"

#include <algorithm>
#include <string>

#include "theca/farm/economics.hpp"
#include "theca/hydraulics/pump_performance.hpp"
#include "theca/require.hpp"

namespace theca::farm {

PumpingCost pumping_cost(const VolumeFlow& flow, const Length& head, const Density& density, const Pumping& pumping) {
  require::positive("pump efficiency", pumping.pump_efficiency);
  require::within("pump efficiency", pumping.pump_efficiency, 0.0, 1.0);
  require::positive("motor efficiency", pumping.motor_efficiency);
  require::within("motor efficiency", pumping.motor_efficiency, 0.0, 1.0);
  require::within("running time per year", pumping.running_per_year, 0.0 * units::year, 1.0 * units::year);
  PumpingCost result;
  result.electric_power =
      hydraulics::hydraulic_power(flow, head, density) / (pumping.pump_efficiency * pumping.motor_efficiency);
  result.energy = result.electric_power * pumping.running_per_year;
  result.cost = energy_cost(result.electric_power, in(pumping.running_per_year, units::year), pumping.price);
  return result;
}

EconomicPipe economic_pipe(hydraulics::Pipe pipe, const std::vector<PipeOffer>& offers, const VolumeFlow& flow,
                           const KinematicViscosity& viscosity, const Density& density, const Pumping& pumping,
                           double rate, double years) {
  require::that(!offers.empty(), "number of pipe offers", 0.0, "1 or more");
  require::positive("flow", flow);
  const double recovery = capital_recovery_factor(rate, years);
  EconomicPipe result;
  for (const PipeOffer& offer : offers) {
    require::positive("bore", offer.bore);
    require::not_negative("installed cost of bore " + text(offer.bore), offer.installed_cost);
    pipe.bore = offer.bore;
    PipeLifeCost size;
    size.bore = offer.bore;
    size.velocity = hydraulics::velocity(pipe, flow);
    size.head_loss = hydraulics::head_loss(pipe, flow, viscosity);
    size.capital = recovery * units::per_year * offer.installed_cost;
    size.energy = pumping_cost(flow, size.head_loss, density, pumping).cost;
    size.total = size.capital + size.energy;
    result.sizes.push_back(size);
  }
  const auto best = std::min_element(result.sizes.begin(), result.sizes.end(),
                                     [](const PipeLifeCost& a, const PipeLifeCost& b) { return a.total < b.total; });
  result.best = static_cast<std::size_t>(best - result.sizes.begin());
  return result;
}

}  // namespace theca::farm
