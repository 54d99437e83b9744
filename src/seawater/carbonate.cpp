#include "theca/seawater/carbonate.hpp"

#include <cmath>

#include "../root.hpp"
#include "theca/require.hpp"
#include "theca/seawater/density.hpp"
#include "theca/seawater/vapour_pressure.hpp"

namespace theca::seawater {
namespace {

constexpr double lowest_ph = 4.0, highest_ph = 11.0;
constexpr double pascal_per_atm = 101325.0;

/// Constants, alkalinity and calcium per mass of seawater.
struct PerMass {
  kernel::CarbonateConstants<double> constants;
  double alkalinity, calcium;  ///< mol/kg
  double density_kg_m3;
};

PerMass per_mass(const CarbonateWater& water) {
  constexpr const char* correlation = "carbonic acid, Lueker et al. 2000";
  require::valid(correlation, "temperature", water.temperature, celsius(2.0), celsius(35.0));
  require::valid(correlation, "practical salinity", water.salinity.value, 19.0, 41.8);
  require::positive("alkalinity", water.alkalinity);
  if (water.calcium) require::positive("calcium", *water.calcium);
  PerMass p{};
  p.constants = kernel::carbonate_constants(si(water.temperature), water.salinity.value);
  p.density_kg_m3 = si(density(water.temperature, absolute_salinity(water.salinity)));
  p.alkalinity = si(water.alkalinity) / p.density_kg_m3;
  p.calcium = water.calcium ? si(*water.calcium) / p.density_kg_m3 : p.constants.calcium;
  return p;
}

double carbonate_alkalinity(const PerMass& p, double h) {
  const auto& k = p.constants;
  return p.alkalinity - k.borate * k.kb / (k.kb + h) - k.kw / h + h;
}

CarbonateSystem system_at(const PerMass& p, double ph) {
  const auto& k = p.constants;
  const double h = std::pow(10.0, -ph);
  const double bicarbonate = carbonate_alkalinity(p, h) / (1.0 + 2.0 * k.k2 / h);
  const double carbonate = bicarbonate * k.k2 / h;
  const double carbon_dioxide = bicarbonate * h / k.k1;
  const auto per_volume = [&p](double mol_kg) { return from_si<Concentration>(mol_kg * p.density_kg_m3); };
  return {.ph = ph,
          .carbon_dioxide = per_volume(carbon_dioxide),
          .bicarbonate = per_volume(bicarbonate),
          .carbonate = per_volume(carbonate),
          .inorganic_carbon = per_volume(bicarbonate + carbonate + carbon_dioxide),
          .carbon_dioxide_pressure = from_si<Pressure>(carbon_dioxide / k.k0 / k.fugacity_share * pascal_per_atm),
          .aragonite_saturation = p.calcium * carbonate / k.aragonite,
          .calcite_saturation = p.calcium * carbonate / k.calcite};
}

/// The pH at which `excess`, which falls as pH rises, is zero.
template <class Excess>
double ph_where(std::string_view argument, const std::string& value, const Excess& excess) {
  const double at_low = excess(lowest_ph), at_high = excess(highest_ph);
  if (!(at_low >= 0.0 && at_high <= 0.0))
    throw InvalidInput(argument, value, "with this alkalinity, one that gives a pH from 4 to 11");
  return theca::detail::root_between("pH of seawater", excess, lowest_ph, highest_ph, at_low, at_high).at();
}

}  // namespace

CarbonateSystem carbonate_at_ph(const CarbonateWater& water, double ph) {
  require::within("pH", ph, 7.0, 9.0);
  const PerMass p = per_mass(water);
  if (const double left = carbonate_alkalinity(p, std::pow(10.0, -ph)); !(left > 0.0))
    throw InvalidInput("alkalinity", text(water.alkalinity),
                       "more than borate and hydroxide take at this pH, " +
                           text(water.alkalinity - from_si<Concentration>(left * p.density_kg_m3)));
  return system_at(p, ph);
}

CarbonateSystem carbonate_under_air(const CarbonateWater& water, double carbon_dioxide,
                                    const AbsolutePressure& pressure) {
  require::within("mole fraction of CO2 in dry air", carbon_dioxide, 50e-6, 0.05);
  require::within("air pressure", above_vacuum(pressure), 50.0 * units::kilopascal, 120.0 * units::kilopascal);
  const PerMass p = per_mass(water);
  const double dry_air = si(pressure) - si(vapour_pressure(water.temperature, absolute_salinity(water.salinity)));
  const auto& k = p.constants;
  const double dissolved = k.k0 * k.fugacity_share * carbon_dioxide * dry_air / pascal_per_atm;
  // dissolved CO2 at a pH less what the air holds there
  const auto excess = [&](double ph) {
    const double h = std::pow(10.0, -ph);
    return carbonate_alkalinity(p, h) / (1.0 + 2.0 * k.k2 / h) * h / k.k1 - dissolved;
  };
  return system_at(p, ph_where("alkalinity", text(water.alkalinity), excess));
}

CarbonateSystem carbonate_with_carbon(const CarbonateWater& water, const Concentration& inorganic_carbon) {
  require::positive("inorganic carbon", inorganic_carbon);
  const PerMass p = per_mass(water);
  const double carbon = si(inorganic_carbon) / p.density_kg_m3;
  const auto& k = p.constants;
  // alkalinity wanted less alkalinity that this carbon gives at a pH: falls as pH rises
  const auto excess = [&](double ph) {
    const double h = std::pow(10.0, -ph);
    return carbonate_alkalinity(p, h) - carbon * k.k1 * (h + 2.0 * k.k2) / (h * h + k.k1 * h + k.k1 * k.k2);
  };
  return system_at(p, ph_where("inorganic carbon", text(inorganic_carbon), excess));
}

}  // namespace theca::seawater
