#include "theca/farm/heat_economics.hpp"

#include <cmath>
#include <vector>

#include "support/near.hpp"
#include "theca/error.hpp"
#include "theca/farm/economics.hpp"

using namespace theca;
using namespace theca::farm;
using namespace theca::literals;
using theca::test::contains;
using theca::test::message_of;
using theca::test::near;
using theca::test::within;

namespace {
const AbsoluteSalinity salt = absolute_salinity(35_psu);
const TemperatureBand at_26{26_degC, 26_degC};
constexpr double days = 86400.0;

HeatPrice price() { return {.electricity = 0.15 * units::dollar_per_kilowatt_hour}; }

// Heat leaves by 100 W/K, nothing else.
HeatSeason plain(double celsius, double season_days, Power gain = Power()) {
  return {.day = {.system = {.sump_UA = 100_W_K,
                             .sump_room = from_si<Temperature>(273.15 + celsius),
                             .gains = {{"pump", gain}}},
                  .room = {.air = {.temperature = 21_degC, .humidity = 50_rh}, .surroundings = 21_degC}},
          .duration = season_days * units::day};
}

// A covered tank of which only one wall loses heat, by films as given: R0 = 1/100 + 0.012/1 + 1/8 m2 K/W.
HeatSeason one_wall(double celsius, double season_days) {
  const Temperature room = from_si<Temperature>(273.15 + celsius);
  thermal::TankSurfaces tank;
  tank.inside_film = 100.0 * units::watt_per_square_metre_kelvin;
  tank.walls = {{.name = "back",
                 .length = 2_m,
                 .height = 0.4_m,
                 .layers = {{.thickness = 12_mm, .conductivity = 1.0 * units::watt_per_metre_kelvin}},
                 .fixed_outside_film = 8.0 * units::watt_per_square_metre_kelvin}};
  return {.day = {.system = {.tanks = {{.tank = tank, .count = 1}}},
                  .room = {.air = {.temperature = room, .humidity = 50_rh}, .surroundings = room}},
          .duration = season_days * units::day};
}

HeatSeason open_tank(double celsius, double season_days) {
  HeatSeason season = one_wall(celsius, season_days);
  season.day.system.tanks[0].tank.water_length = 2_m;
  season.day.system.tanks[0].tank.water_width = 0.7_m;
  return season;
}

const thermal::Lid lid{.gap = 5_cm,
                       .layers = {{.thickness = 4_mm, .conductivity = 0.19 * units::watt_per_metre_kelvin}}};
}  // namespace

TEST_CASE("yearly heat: a cold and a hot season, by hand; heating and cooling do not cancel") {
  // 16 K below for 100 d and 4 K above for 50 d, 100 W/K.
  const YearlyHeat year = yearly_heat({plain(10.0, 100.0), plain(30.0, 50.0)}, salt, at_26, price());
  CHECK(near(si(year.heating), 1600.0 * 100.0 * days, 1e-12));
  CHECK(near(si(year.cooling), 400.0 * 50.0 * days, 1e-12));
  const double kilowatt_hours = (160000.0 + 20000.0 / 3.0) * 24.0 / 1000.0;
  CHECK(near(in(year.electricity, units::kilowatt_hour), kilowatt_hours, 1e-12));
  CHECK(near(in(year.cost, units::dollar_per_year), 0.15 * kilowatt_hours, 1e-12));
  CHECK(year.water == std::vector<Temperature>{26_degC, 26_degC});
}

TEST_CASE("yearly heat: between heaters and chillers the water floats where gains and losses meet, at no cost") {
  const TemperatureBand band{24_degC, 27_degC};
  // 500 W over 100 W/K stand 5 K over the room: 25 degC floats, 27.5 must be cooled, 23 heated.
  const YearlyHeat year = yearly_heat({plain(20.0, 100.0, 500_W), plain(22.5, 100.0, 500_W), plain(18.0, 100.0, 500_W)},
                                      salt, band, price());
  CHECK(within(in_celsius(year.water[0]), 25.0, 1e-6));
  CHECK(year.water[1] == 27_degC);
  CHECK(year.water[2] == 24_degC);
  CHECK(near(si(year.cooling), 50.0 * 100.0 * days, 1e-9));
  CHECK(near(si(year.heating), 100.0 * 100.0 * days, 1e-9));
}

TEST_CASE("bands: a wider spread saves what its degrees carry, never less than a narrower one") {
  const std::vector<HeatSeason> seasons{plain(10.0, 180.0), plain(30.0, 180.0)};
  const auto costs = band_costs(seasons, salt, {{26_degC, 26_degC}, {25_degC, 27_degC}, {24_degC, 28_degC}}, price());
  const double per_degree = 0.15 * 100.0 * 180.0 * 24.0 / 1000.0;  // heating; cooling a third of it
  for (int i = 0; i < 3; ++i)
    CHECK(within(in(costs[static_cast<std::size_t>(i)].saved, units::dollar_per_year),
                 i * per_degree * (1.0 + 1.0 / 3.0), 1e-9));
}

TEST_CASE(
    "insulation that pays: thickness from the derivative of cost, sqrt of price over price [economic thickness]") {
  // Cost per area a c t + p tau dT/(R0 + t/k) is least where R0 + t/k = sqrt(p tau dT/(k a c)); textbook of heat
  // transfer.
  const double k = 0.035, per_metre = 900.0, area = 0.8, dT = 12.0;
  const double R0 = 0.01 + 0.012 + 0.125, years = 10.0, rate = 0.05;
  std::vector<InsulationOffer> offers;
  for (int mm = 0; mm <= 100; ++mm)
    offers.push_back({mm * units::millimetre, area * per_metre * mm * 1e-3 * units::dollar});
  const auto best = [&](double season_days) {
    const EconomicInsulation e = economic_insulation({one_wall(14.0, season_days)}, salt, at_26, price(), {"back"},
                                                     k * units::watt_per_metre_kelvin, offers, rate, years);
    return in(e.offers[e.best].thickness, units::millimetre);
  };
  for (const double season_days : {120.0, 365.0}) {
    const double yearly = 0.15 / 3.6e6 * season_days * days * dT;
    const double t = k * (std::sqrt(yearly / (k * capital_recovery_factor(rate, years) * per_metre)) - R0);
    REQUIRE(t > 0.002);
    CHECK(within(best(season_days), 1000.0 * t, 1.0));  // offers are 1 mm apart
  }
  CHECK(best(1.0) == 0.0);
}

TEST_CASE("insulation: what it saves in winter it costs in summer, and a name that no tank has is refused") {
  const std::vector<InsulationOffer> offers{{Length(), Money()}, {50_mm, Money()}};
  HeatSeason summer = one_wall(20.0, 100.0);
  summer.day.system.gains = {{"lights", 500_W}};
  const EconomicInsulation e = economic_insulation({summer}, salt, at_26, price(), {"back"},
                                                   0.035 * units::watt_per_metre_kelvin, offers, 0.05, 10.0);
  CHECK(e.best == 0);
  CHECK(e.offers[1].heat.cooling > e.offers[0].heat.cooling);
  CHECK(contains(message_of<InvalidInput>([&] {
                   (void)economic_insulation({summer}, salt, at_26, price(), {"front"},
                                             0.035 * units::watt_per_metre_kelvin, offers, 0.05, 10.0);
                 }),
                 "front"));
}

TEST_CASE("lids: the share that keeps evaporation to a limit leaves open what evaporates, and no more") {
  const thermal::DesignDay day = open_tank(20.0, 1.0).day;
  const thermal::Water water{.temperature = 26_degC, .salinity = salt};
  const MassFlow open = thermal::system_balance(day.system, water, day.room).evaporation;
  for (const double left : {0.0, 0.2, 0.75})
    CHECK(within(*lid_share_for_evaporation(day, water, lid, left * open), 1.0 - left, 1e-9));
  CHECK(*lid_share_for_evaporation(day, water, lid, 2.0 * open) == 0.0);
  CHECK_THROWS_AS(lid_share_for_evaporation(day, water, lid, -open), InvalidInput);
}

TEST_CASE("lids: free ones pay the more the more they cover in the cold, dear ones do not pay at all") {
  const std::vector<HeatSeason> winter{open_tank(15.0, 180.0)};
  const std::vector<double> shares{0.0, 0.25, 0.5, 0.75, 1.0};
  const auto best = [&](Money cost) {
    const EconomicLid e =
        economic_lid(winter, salt, at_26, price(), lid, cost, from_si<VolumePrice>(1.0), shares, 0.05, 10.0);
    for (std::size_t i = 1; i < shares.size(); ++i) {
      CHECK(e.shares[i].heat.cost < e.shares[i - 1].heat.cost);
      CHECK(e.shares[i].make_up < e.shares[i - 1].make_up);
    }
    return e.shares[e.best].covered_share;
  };
  CHECK(best(Money()) == 1.0);
  CHECK(best(1e6 * units::dollar) == 0.0);
}

TEST_CASE("heat economics refuses impossible input by name") {
  const auto refused = [](auto&& call, const char* words) { CHECK(contains(message_of<InvalidInput>(call), words)); };
  refused([] { (void)yearly_heat({}, salt, at_26, price()); }, "number of seasons");
  refused([] { (void)yearly_heat({plain(10.0, 300.0), plain(10.0, 100.0)}, salt, at_26, price()); }, "duration");
  refused([] { (void)yearly_heat({plain(10.0, 0.0)}, salt, at_26, price()); }, "duration of a season");
  refused([] { (void)yearly_heat({plain(10.0, 10.0)}, salt, {27_degC, 26_degC}, price()); }, "band");
  HeatPrice none = price();
  none.chiller_performance = 0.0;
  refused([&] { (void)yearly_heat({plain(10.0, 10.0)}, salt, at_26, none); }, "chiller performance");
  refused([] { (void)band_costs({plain(10.0, 10.0)}, salt, {}, price()); }, "number of bands");
}
