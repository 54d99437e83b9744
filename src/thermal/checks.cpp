#include "theca/thermal/checks.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "theca/require.hpp"
#include "theca/seawater/range.hpp"

namespace theca::thermal {

namespace {

constexpr double heat_tolerance = 0.20;         // of every heat flow
constexpr double evaporation_tolerance = 0.25;  // of evaporation and what follows from it
constexpr double humidity_tolerance = 0.03;     // of relative humidity
constexpr double co2_tolerance = 0.25;          // people differ by body and work (common practice, no source)

constexpr NamedUnit<unit::volume_flow> us_pint_per_day{from_si<VolumeFlow>(units::us_pint.size.value() / 86400.0),
                                                       "US_pint/d"};

constexpr const char* heater_caution =
    "Electricity near water: residual-current protection on every circuit, drip loops; a heater out of water can "
    "start a fire. A licensed electrician installs.";
constexpr const char* chiller_caution =
    "Electricity near water: residual-current protection on every circuit, drip loops. A chiller gives its heat and "
    "its compressor's to the room it stands in, and one that has stopped or leaks refrigerant cools nothing: have an "
    "alarm, and let a licensed technician open the refrigerant circuit. A licensed electrician installs.";
constexpr const char* evaporation_source =
    "evaporation: mean of ASHRAE (Carrier 1918), Smith, Loef & Jones 1998, Shah 2014 and the heat and mass analogy "
    "(Chilton & Colburn 1934)";

// A needed power is a difference of heat flows, each of them uncertain: what they leave open, relative to the need.
double power_uncertainty(const HeatBalance& balance, const Power& need) {
  double flows = si(balance.total_gain);
  for (const HeatPath& path : balance.losses) flows += std::abs(si(path.power));
  const double models_open =
      std::max(si(balance.total_loss_high - balance.total_loss), si(balance.total_loss - balance.total_loss_low));
  const double open = std::max(heat_tolerance * flows, models_open);
  return si(need) > 0.0 ? open / si(need) : heat_tolerance;
}

VolumeFlow as_fresh_water(const MassFlow& flow) { return flow / (1000.0 * units::kilogram_per_cubic_metre); }

// A need for water with its high end against what is there, in the unit of a grower. A negative need counts as nothing
// needed; where only the high end passes the capacity the check is marginal, also over a need of nothing.
Check water_check(CheckText words, const MassFlow& need, const MassFlow& high, const VolumeFlow& capacity,
                  const NamedUnit<unit::volume_flow>& shown) {
  const VolumeFlow needed = std::max(VolumeFlow(), as_fresh_water(need));
  const VolumeFlow most = std::max(VolumeFlow(), as_fresh_water(high));
  const double open = si(needed) > 0.0 ? si(most) / si(needed) - 1.0 : 0.0;
  Check check = make_check(std::move(words), measure(needed, shown), measure(capacity, shown),
                           std::max(open, evaporation_tolerance));
  if (check.verdict == Verdict::holds && most > capacity) check.verdict = Verdict::marginal;
  return check;
}

// How far a failure takes the water from its set point, towards warm or cold, against how far it may go.
Check failed_unit_check(CheckText words, const std::optional<Temperature>& settled, bool towards_warm,
                        const UnitCriteria& c) {
  const Temperature limit = towards_warm ? c.highest : c.lowest;
  const double sign = towards_warm ? 1.0 : -1.0;
  const double allowed = sign * si(limit - c.set_point.temperature);
  require::that(allowed > 0.0, towards_warm ? "highest temperature" : "lowest temperature",
                from_si<TemperatureDifference>(allowed), "on its side of the set point");
  const Temperature end = towards_warm ? seawater::highest_temperature : seawater::lowest_temperature;
  const double moved =
      settled ? sign * si(*settled - c.set_point.temperature) : sign * si(end - c.set_point.temperature) + 1.0;
  return make_check(std::move(words),
                    measure(from_si<TemperatureDifference>(std::max(moved, 0.0)), units::degF_difference),
                    measure(from_si<TemperatureDifference>(allowed), units::degF_difference), heat_tolerance);
}

Measure percent(RelativeHumidity humidity) { return measure(100.0 * humidity.ratio, "%"); }

}  // namespace

Check heater_check(const HeatBalance& balance, const Power& installed, std::string where) {
  return make_check({.name = "thermal: heater",
                     .question = "Can the heaters hold the water temperature in the coldest design case?",
                     .where = std::move(where),
                     .source = std::string("heat balance by named paths; ") + evaporation_source,
                     .caution = heater_caution},
                    measure(balance.heating, units::watt), measure(installed, units::watt),
                    power_uncertainty(balance, balance.heating));
}

Check chiller_check(const HeatBalance& balance, const Power& installed, std::string where) {
  return make_check({.name = "thermal: chiller",
                     .question = "Can the chiller hold the water temperature in the hottest design case?",
                     .where = std::move(where),
                     .source = std::string("heat balance by named paths; ") + evaporation_source,
                     .caution = chiller_caution},
                    measure(balance.cooling, units::Btu_per_hour), measure(installed, units::Btu_per_hour),
                    power_uncertainty(balance, balance.cooling));
}

Check stuck_unit_check(const UnitSplit& split, const UnitCriteria& criteria, std::string where) {
  const bool heats = split.kind == UnitKind::heater;
  return failed_unit_check(
      {.name = heats ? "thermal: heater stuck on" : "thermal: chiller stuck on",
       .question = heats ? "Does the water stay under its limit with one heater stuck on, on a warm day?"
                         : "Does the water stay over its limit with one chiller stuck on, on a cold day?",
       .where = std::move(where),
       .source = std::string("settled temperature of the heat balance; ") + evaporation_source,
       .caution = heats ? heater_caution : chiller_caution},
      split.one_stuck, heats, criteria);
}

Check dead_unit_check(const UnitSplit& split, const UnitCriteria& criteria, std::string where) {
  const bool heats = split.kind == UnitKind::heater;
  return failed_unit_check(
      {.name = heats ? "thermal: heater dead" : "thermal: chiller dead",
       .question = heats ? "Does the water stay over its limit with one heater dead, on the coldest day?"
                         : "Does the water stay under its limit with one chiller dead, on the hottest day?",
       .where = std::move(where),
       .source = std::string("settled temperature of the heat balance; ") + evaporation_source,
       .caution = heats ? heater_caution : chiller_caution},
      split.one_dead, !heats, criteria);
}

Check dehumidifier_check(const MassFlow& required, const MassFlow& capacity, std::string where,
                         const std::optional<MassFlow>& required_high) {
  require::finite("required", required);
  require::not_negative("capacity", capacity);
  const MassFlow high = required_high.value_or(required);
  require::finite("required high", high);
  require::that(high >= required, "required high", high, "not below the need it is the high end of");
  return water_check(
      {.name = "thermal: dehumidifier",
       .question = "Can the dehumidifiers keep the room at its humidity limit?",
       .where = std::move(where),
       .source = "moisture balance of the room; ASHRAE Handbook Fundamentals, chapter 1",
       .caution = "Rated removal is stated for warm, moist air and falls in a cooler or drier room. Lasting "
                  "damp rots timber and feeds mould, and salt air corrodes wiring."},
      required, high, as_fresh_water(capacity), us_pint_per_day);
}

Check room_humidity_check(RelativeHumidity settled, RelativeHumidity limit, std::string where) {
  require::within("settled humidity", settled, RelativeHumidity(0.0), RelativeHumidity(1.0));
  require::within("humidity limit", limit, RelativeHumidity(0.0), RelativeHumidity(1.0));
  return make_check({.name = "thermal: room humidity",
                     .question = "Does the room settle at or below its humidity limit?",
                     .where = std::move(where),
                     .source = "moisture balance of the room; ASHRAE Handbook Fundamentals, chapter 1",
                     .caution = "Lasting damp rots timber and feeds mould, and salt air corrodes wiring."},
                    percent(settled), percent(limit), humidity_tolerance);
}

Check window_condensation_check(const Condensation& condensation, std::string where) {
  return make_check(
      {.name = "thermal: window condensation",
       .question = "Does the window stay dry on the inside?",
       .where = std::move(where),
       .source = "T_in - U R_film (T_in - T_out) against the dew point; Hyland & Wexler 1983",
       .caution = "Frame and pane edges are colder than the middle of the pane and may be wet while it is "
                  "dry."},
      percent(condensation.at_surface), percent(RelativeHumidity(1.0)), humidity_tolerance);
}

Check surface_condensation_check(const SurfaceMoisture& surface, std::string where) {
  return make_check({.name = "thermal: condensation, " + surface.name,
                     .question = "Does the surface stay dry?",
                     .where = std::move(where) + ", " + surface.name,
                     .source = "surface temperature against the dew point; Hyland & Wexler 1983",
                     .caution = "Corners, fixings and what is hidden behind furniture are colder than the middle of a "
                                "surface. Water on a floor is slippery, and in fittings a danger to life."},
                    percent(surface.air_at.at_surface), percent(RelativeHumidity(1.0)), humidity_tolerance);
}

Check mould_check(const SurfaceMoisture& surface, std::string where) {
  return make_check({.name = "thermal: mould, " + surface.name,
                     .question = "Is the surface dry enough to keep mould away?",
                     .where = std::move(where) + ", " + surface.name,
                     .source = "ISO 13788:2012, 5.3: monthly mean humidity at the surface under 80 % (from memory)",
                     .caution = "Mould harms those who breathe its spores. Corners and thermal bridges are colder than "
                                "the middle of a surface; behind furniture air hardly moves."},
                    percent(surface.air_at.at_surface), percent(RelativeHumidity(0.8)), humidity_tolerance);
}

Check co2_check(double level, double limit, double outside, std::string where) {
  require::within("CO2 outside", outside, 0.0, 0.1);
  require::within("CO2", level, outside, 0.1);
  require::within("CO2 limit", limit, outside, 0.1);
  return make_check(
      {.name = "thermal: carbon dioxide",
       .question = "Is the air in the hall fresh enough for those who work there?",
       .where = std::move(where) + ", over " + number(1e6 * outside) + " ppm outside",
       .source = "balance of a well mixed room; ASHRAE Standard 62.1, appendix on CO2",
       .caution = "Gas from a CO2 cylinder can kill within minutes: it gathers low, and needs an alarm of "
                  "its own. The building code says how much fresh air people must have."},
      measure(1e6 * (level - outside), "ppm"), measure(1e6 * (limit - outside), "ppm"), co2_tolerance);
}

Check make_up_water_check(const MassFlow& evaporation, const MassFlow& high, const VolumeFlow& supply,
                          std::string where) {
  require::finite("evaporation", evaporation);
  require::finite("high", high);
  require::that(high >= evaporation, "high", high, "not below the evaporation it is the high end of");
  require::not_negative("supply", supply);
  return water_check(
      {.name = "thermal: make-up water",
       .question = "Does the fresh water supply replace what evaporates?",
       .where = std::move(where),
       .source = evaporation_source,
       .caution = "A make-up line that sticks open floods the room and dilutes the water: limit what it can "
                  "deliver."},
      evaporation, high, supply, units::gallon_per_day);
}

Check power_cut_check(const Time& cut, const Temperature& start, const Temperature& after, const Temperature& limit,
                      std::string where) {
  require::positive("cut", cut);
  require::positive("start temperature", start);
  require::positive("temperature after the cut", after);
  require::positive("limit", limit);
  const double allowed = si(limit) - si(start);
  require::that(allowed != 0.0, "limit", limit, "another temperature than that at the start, " + text(start));
  const double direction = allowed > 0.0 ? 1.0 : -1.0;
  const double towards_limit = direction * (si(after) - si(start));
  constexpr double rounding = 1e-6;  // K
  require::that(towards_limit >= -rounding, "temperature after the cut", after,
                "on the limit's side of the start, " + text(start) +
                    ": water that moves the other way is judged against a limit on that side");
  const auto change = from_si<TemperatureDifference>(std::max(0.0, towards_limit));
  return make_check({.name = "thermal: power cut",
                     .question = "Does the water stay within its temperature limit until power returns?",
                     .where = std::move(where) + ", power cut of " + number(in(cut, units::hour)) + " h",
                     .source = "lumped heat capacity with the loss recomputed as the water cools",
                     .caution = "Oxygen runs out sooner than warmth in a stocked tank without circulation."},
                    measure(change, units::degF_difference),
                    measure(from_si<TemperatureDifference>(std::abs(allowed)), units::degF_difference), heat_tolerance);
}

}  // namespace theca::thermal
