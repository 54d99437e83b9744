#include "theca/farm/chemistry.hpp"

#include "theca/seawater.hpp"

namespace theca::farm {

MineralDemand mineral_demand(const Area& area, const MassFlux& rate) {
  require::not_negative("live area", area);
  require::not_negative("calcification rate", rate);
  const MassFlow carbonate = area * rate;
  const AmountFlow calcium = carbonate / calcium_carbonate_molar_mass;
  return {carbonate, equivalents_per_calcium_carbonate * calcium, calcium};
}

namespace {
void require_demand(const MineralDemand& demand) {
  require::not_negative("alkalinity demand", demand.alkalinity);
  require::not_negative("calcium demand", demand.calcium);
}
}  // namespace

Concentration alkalinity_drop(const MineralDemand& demand, const Volume& water, const Time& time) {
  require_demand(demand);
  require::positive("water volume", water);
  require::not_negative("time", time);
  return demand.alkalinity * time / water;
}

Density calcium_drop(const MineralDemand& demand, const Volume& water, const Time& time) {
  require_demand(demand);
  require::positive("water volume", water);
  require::not_negative("time", time);
  return demand.calcium * calcium_molar_mass * time / water;
}

Density calcium_for_alkalinity(const Concentration& alkalinity) {
  require::not_negative("alkalinity", alkalinity);
  return alkalinity / equivalents_per_calcium_carbonate * calcium_molar_mass;
}

Doses doses(const MineralDemand& demand) {
  require_demand(demand);
  return {demand.alkalinity * sodium_bicarbonate_per_equivalent, demand.alkalinity * sodium_carbonate_per_equivalent,
          demand.calcium * calcium_chloride_dihydrate_molar_mass};
}

Concentration alkalinity_after_dosing_failure(const Concentration& start, const MineralDemand& demand,
                                              const Volume& water, const Time& time) {
  require::not_negative("alkalinity at the start", start);
  const Concentration drop = alkalinity_drop(demand, water, time);
  if (si(drop) > si(start))
    throw OutOfValidity("linear fall of alkalinity at constant demand",
                        "the fall of " + text(drop) + " passes the " + text(start) + " there are");
  return start - drop;
}

Mass salt_mass(const Volume& water, PracticalSalinity salinity, const Density& density) {
  require::positive("water volume", water);
  require::within("practical salinity", salinity.value, 0.0, 42.0);
  require::positive("density", density);
  return absolute_salinity(salinity).mass_fraction() * (water * density);
}

Mass salt_mass(const Volume& water, PracticalSalinity salinity, const Temperature& temperature) {
  require::within("practical salinity", salinity.value, 0.0, 42.0);
  return salt_mass(water, salinity, seawater::density(temperature, absolute_salinity(salinity)));
}

int changes_for(double share, double left) {
  require::that(share > 0.0 && share < 1.0, "share changed", share, "between 0 and 1");
  require::that(left > 0.0 && left < 1.0, "share left", left, "between 0 and 1");
  const double changes = std::log(left) / std::log1p(-share);
  require::that(changes < 1e9, "share changed", share, "large enough that a billion changes suffice");
  return static_cast<int>(std::ceil(changes * (1.0 - 1e-12)));  // 0.5 twice leaves exactly 0.25
}

}  // namespace theca::farm
