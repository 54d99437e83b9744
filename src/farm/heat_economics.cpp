#include "theca/farm/heat_economics.hpp"

#include <algorithm>

#include "../root.hpp"
#include "theca/farm/economics.hpp"
#include "theca/require.hpp"

namespace theca::farm {

namespace {
using thermal::DesignDay;
using thermal::Lid;

void require_seasons(const std::vector<HeatSeason>& seasons) {
  require::that(!seasons.empty(), "number of seasons", 0.0, "1 or more");
  Time all{};
  for (const HeatSeason& season : seasons) {
    require::positive("duration of a season", season.duration);
    all += season.duration;
  }
  // Durations that add up to a year may do so by a rounding more; a year of 366 days is one.
  require::within("duration of all seasons", all, Time(), 366.0 * units::day);
}

void require_band(const TemperatureBand& band) {
  require::that(band.lowest <= band.highest, "lowest temperature of the band", si(band.lowest),
                "at most the highest, " + text(band.highest));
}

void require_price(const HeatPrice& price) {
  require::not_negative("price of electricity", price.electricity);
  require::positive("heater performance", price.heater_performance);
  require::positive("chiller performance", price.chiller_performance);
}

template <class Cost>
std::size_t cheapest(const std::vector<Cost>& list) {
  const auto best =
      std::min_element(list.begin(), list.end(), [](const Cost& a, const Cost& b) { return a.total < b.total; });
  return static_cast<std::size_t>(best - list.begin());
}

// The band's end that is held, or where the water floats between them.
thermal::Water held(const DesignDay& day, AbsoluteSalinity salinity, const TemperatureBand& band,
                    thermal::HeatBalance& balance) {
  const auto at = [&](const Temperature& t) { return thermal::Water{.temperature = t, .salinity = salinity}; };
  thermal::Water water = at(band.lowest);
  balance = thermal::system_balance(day.system, water, day.room);
  if (si(balance.net) >= 0.0) return water;
  water = at(band.highest);
  balance = thermal::system_balance(day.system, water, day.room);
  if (si(balance.net) <= 0.0) return water;
  const auto floats = thermal::settled_temperature(day.system, salinity, day.room, Power());
  if (!floats) throw NotConverged("temperature that the water floats at", si(balance.net), 0);
  water = at(std::clamp(*floats, band.lowest, band.highest));
  balance = thermal::system_balance(day.system, water, day.room);
  balance.heating = balance.cooling = Power();
  return water;
}

std::vector<HeatSeason> with_lids(std::vector<HeatSeason> seasons, const Lid& lid, double share) {
  for (HeatSeason& season : seasons)
    for (thermal::TankGroup& group : season.day.system.tanks) {
      group.tank.lid = lid;
      group.tank.lid->covered_share = share;
    }
  return seasons;
}
}  // namespace

YearlyHeat yearly_heat(const std::vector<HeatSeason>& seasons, AbsoluteSalinity salinity, const TemperatureBand& band,
                       const HeatPrice& price) {
  require_seasons(seasons);
  require_band(band);
  require_price(price);
  YearlyHeat year;
  for (const HeatSeason& season : seasons) {
    thermal::HeatBalance balance;
    year.water.push_back(held(season.day, salinity, band, balance).temperature);
    year.heating += balance.heating * season.duration;
    year.cooling += balance.cooling * season.duration;
    year.evaporated += balance.evaporation * season.duration;
  }
  year.electricity = year.heating / price.heater_performance + year.cooling / price.chiller_performance;
  year.cost = year.electricity * price.electricity / (1.0 * units::year);
  return year;
}

EconomicInsulation economic_insulation(const std::vector<HeatSeason>& seasons, AbsoluteSalinity salinity,
                                       const TemperatureBand& band, const HeatPrice& price,
                                       const std::vector<std::string>& walls, const ThermalConductivity& conductivity,
                                       const std::vector<InsulationOffer>& offers, double rate, double years) {
  require_seasons(seasons);
  require::that(!offers.empty(), "number of insulation offers", 0.0, "1 or more");
  require::that(!walls.empty(), "number of walls to insulate", 0.0, "1 or more");
  require::positive("conductivity", conductivity);
  const double recovery = capital_recovery_factor(rate, years);
  const auto insulated = [&](const Length& thickness) {
    std::vector<HeatSeason> with = seasons;
    for (const std::string& name : walls)
      for (HeatSeason& season : with) {
        bool found = false;
        for (thermal::TankGroup& group : season.day.system.tanks)
          for (thermal::WallPatch& wall : group.tank.walls) {
            if (wall.name != name) continue;
            found = true;
            if (thickness > Length()) wall.layers.push_back({.thickness = thickness, .conductivity = conductivity});
          }
        if (!found) throw InvalidInput("walls to insulate", '"' + name + '"', "names of wall patches in every season");
      }
    return with;
  };
  EconomicInsulation result;
  for (const InsulationOffer& offer : offers) {
    require::not_negative("thickness of insulation", offer.thickness);
    require::not_negative("installed cost of insulation", offer.installed_cost);
    InsulationLifeCost cost{.thickness = offer.thickness,
                            .heat = yearly_heat(insulated(offer.thickness), salinity, band, price),
                            .capital = recovery * units::per_year * offer.installed_cost};
    cost.total = cost.capital + cost.heat.cost;
    result.offers.push_back(cost);
  }
  result.best = cheapest(result.offers);
  return result;
}

EconomicLid economic_lid(const std::vector<HeatSeason>& seasons, AbsoluteSalinity salinity, const TemperatureBand& band,
                         const HeatPrice& price, const Lid& lid, const Money& cost_all,
                         const VolumePrice& make_up_price, const std::vector<double>& shares, double rate,
                         double years) {
  require::that(!shares.empty(), "number of shares", 0.0, "1 or more");
  require::not_negative("cost of lids over all", cost_all);
  require::not_negative("price of make-up water", make_up_price);
  const double recovery = capital_recovery_factor(rate, years);
  const Density fresh = 1000.0 * units::kilogram_per_cubic_metre;
  EconomicLid result;
  for (const double share : shares) {
    require::within("covered share", share, 0.0, 1.0);
    LidShareCost cost{.covered_share = share,
                      .heat = yearly_heat(with_lids(seasons, lid, share), salinity, band, price),
                      .capital = recovery * share * units::per_year * cost_all};
    cost.make_up = cost.heat.evaporated / fresh * make_up_price / (1.0 * units::year);
    cost.total = cost.capital + cost.heat.cost + cost.make_up;
    result.shares.push_back(cost);
  }
  result.best = cheapest(result.shares);
  return result;
}

std::optional<double> lid_share_for_evaporation(const DesignDay& day, const thermal::Water& water, const Lid& lid,
                                                const MassFlow& most) {
  require::not_negative("most evaporation", most);
  const auto over = [&](double share) {
    const DesignDay covered = with_lids({{.day = day, .duration = 1.0 * units::day}}, lid, share).front().day;
    return si(thermal::system_balance(covered.system, water, covered.room).evaporation) - si(most);
  };
  const double open = over(0.0), covered = over(1.0);
  if (open <= 0.0) return 0.0;
  if (covered > 0.0) return {};
  return theca::detail::root_between("lid share for evaporation", over, 0.0, 1.0, open, covered).at();
}

std::vector<BandCost> band_costs(const std::vector<HeatSeason>& seasons, AbsoluteSalinity salinity,
                                 const std::vector<TemperatureBand>& bands, const HeatPrice& price) {
  require::that(!bands.empty(), "number of bands", 0.0, "1 or more");
  std::vector<BandCost> result;
  for (const TemperatureBand& band : bands) {
    BandCost cost{.band = band, .heat = yearly_heat(seasons, salinity, band, price)};
    cost.saved = (result.empty() ? cost.heat.cost : result.front().heat.cost) - cost.heat.cost;
    result.push_back(cost);
  }
  return result;
}

}  // namespace theca::farm
