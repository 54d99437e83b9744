#include "theca/thermal/checks.hpp"

#include <doctest/doctest.h>

#include "support/near.hpp"
#include "theca/thermal.hpp"

using namespace theca;
using namespace theca::literals;
using namespace theca::thermal;
using theca::test::contains;
using theca::test::message_of;
using theca::test::near;

namespace {
HeatBalance balance_in(Temperature room, RelativeHumidity humidity, std::vector<HeatGain> gains = {}) {
  const TankSurfaces tank{.name = "open vat",
                          .water_length = 3_m,
                          .water_width = 1_m,
                          .walls = {{.name = "all round",
                                     .length = 8_m,
                                     .height = 0.4_m,
                                     .layers = {{.thickness = 12_mm, .conductivity = 1.0_W_mK}}}},
                          .inside_film = 100_W_m2K,
                          .base = 3_m2,
                          .base_U = 1.5_W_m2K};
  return tank_balance(tank, {.temperature = 78_degF, .salinity = absolute_salinity(35_psu)},
                      {.air = {.temperature = room, .humidity = humidity}, .surroundings = room, .air_speed = 10_cm_s},
                      gains);
}
}  // namespace

TEST_CASE("heater check: fails below the loss, marginal just above, holds with the uncertainty covered") {
  const HeatBalance b = balance_in(70_degF, 50_rh);
  const double loss = si(b.total_loss);
  CHECK(heater_check(b, from_si<Power>(0.95 * loss)).verdict == Verdict::fails);
  CHECK(heater_check(b, from_si<Power>(1.05 * loss)).verdict == Verdict::marginal);
  const Check holds = heater_check(b, from_si<Power>(1.5 * loss));
  CHECK(holds.verdict == Verdict::holds);
  CHECK(near(holds.utilisation, 1.0 / 1.5, 1e-12));
  CHECK(near(holds.demand.si_value, loss, 1e-12));
  CHECK(contains(holds.caution, "residual-current protection"));
  CHECK_FALSE(holds.source.empty());
}

TEST_CASE("heater check: gains lower the need but not the uncertainty of the flows behind it") {
  const HeatBalance bare = balance_in(70_degF, 50_rh);
  const HeatBalance helped = balance_in(70_degF, 50_rh, {{"pump", 0.5 * bare.total_loss}});
  const Check c = heater_check(helped, 10_kW);
  CHECK(near(c.demand.si_value, 0.5 * si(bare.total_loss), 1e-12));
  CHECK(c.uncertainty > 2.0 * heater_check(bare, 10_kW).uncertainty);
}

TEST_CASE("chiller check: only what is left of the gains after losses, shown in Btu/h") {
  const HeatBalance b = balance_in(84_degF, 55_rh, {{"pumps and lights", 2_kW}});
  REQUIRE(si(b.cooling) > 0.0);
  const Check c = chiller_check(b, from_si<Power>(0.9 * si(b.cooling)));
  CHECK(c.verdict == Verdict::fails);
  CHECK(c.demand.shown_unit == "Btu/h");
  CHECK(near(c.demand.shown_value, si(b.cooling) / 0.29307107, 1e-7));
  CHECK(chiller_check(b, 20_kW).verdict == Verdict::holds);
  CHECK(contains(c.caution, "chiller"));
  CHECK_FALSE(contains(c.caution, "heater"));
  for (const char* model : {"ASHRAE", "Smith", "Shah", "analogy"}) CHECK(contains(c.source, model));
  CHECK(chiller_check(balance_in(70_degF, 50_rh), 0_W).verdict == Verdict::holds);  // nothing to cool
}

TEST_CASE("unit checks: stuck and dead units by how far the water settles from its set point") {
  const UnitCriteria c{.set_point = {.temperature = 26_degC, .salinity = absolute_salinity(35_psu)},
                       .lowest = 22_degC,
                       .highest = 29_degC,
                       .sizes = {500_W}};
  UnitSplit split{.kind = UnitKind::heater, .units = 2, .one_dead = 23_degC, .one_stuck = 28_degC};
  const Check stuck = stuck_unit_check(split, c);
  CHECK(near(stuck.utilisation, 2.0 / 3.0, 1e-9));
  CHECK(near(stuck.demand.shown_value, 3.6, 1e-9));
  CHECK(stuck.verdict == Verdict::holds);
  CHECK(near(dead_unit_check(split, c).utilisation, 0.75, 1e-9));
  split.one_stuck = 30_degC;
  CHECK(stuck_unit_check(split, c).verdict == Verdict::fails);
  split.one_stuck = std::nullopt;
  CHECK(stuck_unit_check(split, c).verdict == Verdict::fails);
  split.one_dead = 26_degC;  // the others hold the set point
  CHECK(dead_unit_check(split, c).utilisation == 0.0);
  // Chillers fail towards the other side.
  split.kind = UnitKind::chiller;
  split.one_dead = 28_degC;
  split.one_stuck = 21_degC;
  CHECK(near(dead_unit_check(split, c).utilisation, 2.0 / 3.0, 1e-9));
  CHECK(near(stuck_unit_check(split, c).utilisation, 1.25, 1e-9));
  CHECK(contains(stuck_unit_check(split, c).caution, "refrigerant"));
  UnitCriteria level = c;
  level.highest = 26_degC;
  CHECK(contains(message_of<InvalidInput>([&] { dead_unit_check(split, level); }), "highest temperature"));
}

TEST_CASE("dehumidifier check: in US pints a day; nothing needed holds") {
  const MassFlow pints_88 = fresh_water(from_si<VolumeFlow>(88.0 * si(units::us_pint.size) / 86400.0));
  const Check c = dehumidifier_check(from_si<MassFlow>(60.0 / 86400.0), pints_88);
  CHECK(c.verdict == Verdict::fails);
  CHECK(near(c.capacity.shown_value, 88.0, 1e-12));
  CHECK(near(c.demand.shown_value, 60.0 / 0.473176473, 1e-8));
  CHECK(dehumidifier_check(from_si<MassFlow>(-1e-4), pints_88).verdict == Verdict::holds);
}

TEST_CASE("dehumidifier check: the high end of the need is its uncertainty, 25 % without one") {
  const MassFlow capacity = 100_kg / 1_d;
  const auto check = [&](double need, double high) {
    return dehumidifier_check(need / 86400.0 * units::kilogram_per_second, capacity, "hall",
                              high / 86400.0 * units::kilogram_per_second);
  };
  CHECK(check(70, 90).verdict == Verdict::holds);
  CHECK(near(check(60, 90).uncertainty, 0.5, 1e-12));
  CHECK(check(70, 101).verdict == Verdict::marginal);
  CHECK(check(-20, 90).verdict == Verdict::holds);
  CHECK(check(-20, 101).verdict == Verdict::marginal);
  CHECK(check(101, 101).verdict == Verdict::fails);
  CHECK(dehumidifier_check(81_kg / 1_d, capacity).verdict == Verdict::marginal);
  CHECK(dehumidifier_check(79_kg / 1_d, capacity).verdict == Verdict::holds);
  CHECK(contains(message_of<InvalidInput>([&] { check(70, 60); }), "required high"));
}

TEST_CASE("room humidity check: 60 % limit") {
  CHECK(room_humidity_check(65_rh, 60_rh).verdict == Verdict::fails);
  CHECK(room_humidity_check(59_rh, 60_rh).verdict == Verdict::marginal);
  CHECK(room_humidity_check(50_rh, 60_rh).verdict == Verdict::holds);
}

TEST_CASE("window check: dry at 45 %, wet at 60 % in winter") {
  const Pane window{.U = 0.48 * units::Btu_per_hour_ft2_degF,
                    .inside_film = 0.68 / (1.0 * units::Btu_per_hour_ft2_degF)};
  const auto at = [&](RelativeHumidity rh) {
    return window_condensation_check(condensation(window, {.temperature = 70_degF, .humidity = rh}, 14_degF));
  };
  CHECK(at(45_rh).verdict == Verdict::holds);
  CHECK(at(60_rh).verdict == Verdict::fails);
  CHECK(near(at(60_rh).demand.shown_value, 60.0 * at(45_rh).demand.shown_value / 45.0, 1e-9));
}

TEST_CASE("make-up water check: the high end of evaporation is its uncertainty") {
  const VolumeFlow supply = 80.0 * units::gallon_per_day;
  const auto gallons = [](double n) { return fresh_water(n * units::gallon_per_day); };
  CHECK(make_up_water_check(gallons(30), gallons(40), supply).verdict == Verdict::holds);
  CHECK(make_up_water_check(gallons(60), gallons(81), supply).verdict == Verdict::marginal);
  CHECK(make_up_water_check(gallons(81), gallons(90), supply).verdict == Verdict::fails);
  CHECK(make_up_water_check(gallons(0), gallons(0), supply).verdict == Verdict::holds);
  CHECK(make_up_water_check(-gallons(5), gallons(10), supply).verdict == Verdict::holds);
  CHECK(make_up_water_check(-gallons(5), gallons(81), supply).verdict == Verdict::marginal);
  CHECK(contains(message_of<InvalidInput>([&] { make_up_water_check(gallons(1), gallons(1), -supply); }), "supply"));
  CHECK(contains(message_of<InvalidInput>([&] { make_up_water_check(gallons(60), gallons(50), supply); }), "high"));
}

TEST_CASE("power cut check: cooling and warming limits, and the wrong side of the start is refused") {
  CHECK(power_cut_check(6_h, 78_degF, 72_degF, 74_degF).verdict == Verdict::fails);
  CHECK(power_cut_check(6_h, 78_degF, 76_degF, 74_degF).verdict == Verdict::holds);
  CHECK(near(power_cut_check(6_h, 78_degF, 76_degF, 74_degF).utilisation, 0.5, 1e-9));
  CHECK(power_cut_check(6_h, 78_degF, 83_degF, 82_degF).verdict == Verdict::fails);
  CHECK(power_cut_check(6_h, 78_degF, 78_degF, 74_degF).utilisation == 0.0);
  CHECK(contains(message_of<InvalidInput>([] { power_cut_check(6_h, 78_degF, 79_degF, 74_degF); }), "after the cut"));
  CHECK(contains(message_of<InvalidInput>([] { power_cut_check(6_h, 78_degF, 77_degF, 82_degF); }), "after the cut"));
  CHECK(contains(power_cut_check(6_h, 78_degF, 76_degF, 74_degF).where, "6 h"));
  CHECK(contains(message_of<InvalidInput>([] { power_cut_check(6_h, 78_degF, 76_degF, 78_degF); }), "limit"));
  CHECK(contains(message_of<InvalidInput>([] { power_cut_check(0_h, 78_degF, 76_degF, 74_degF); }), "cut"));
}

TEST_CASE("checks refuse impossible input by name") {
  const HeatBalance b = balance_in(70_degF, 50_rh);
  CHECK(contains(message_of<InvalidInput>([&] { heater_check(b, from_si<Power>(-1.0)); }), "capacity"));
  CHECK(contains(message_of<InvalidInput>([&] { chiller_check(b, from_si<Power>(-1.0)); }), "capacity"));
  CHECK(contains(message_of<InvalidInput>([] { dehumidifier_check(from_si<MassFlow>(0.0), from_si<MassFlow>(-1.0)); }),
                 "capacity"));
  CHECK(contains(message_of<InvalidInput>([] { room_humidity_check(RelativeHumidity(1.5), 60_rh); }),
                 "settled humidity"));
}
