#include "theca/hydraulics/checks.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include "theca/hydraulics/intake.hpp"
#include "theca/hydraulics/standpipe.hpp"
#include "theca/hydraulics/turnover.hpp"
#include "theca/require.hpp"

namespace theca::hydraulics {

namespace {
// Relative uncertainty of the models: how far each law and the measurements of its kind usually lie apart. Estimates of
// the trade (common practice, no source), but for pipes: Moody 1944 gives 5 % for the factor of smooth ones (from
// memory).
constexpr double pipe_uncertainty = 0.05;
constexpr double weir_and_drain_uncertainty = 0.15;
constexpr double turnover_uncertainty = 0.15;
constexpr double geometry_uncertainty = 0.05;
constexpr double intake_uncertainty = 0.15;
constexpr double jet_uncertainty = 0.30;
constexpr double surge_uncertainty = 0.20;
constexpr double npsh_uncertainty = 0.10;
constexpr double efficiency_uncertainty = 0.10;

constexpr const char* flood_caution =
    "Water that overflows reaches electrics and neighbours, and a full sump can drown a child: cover it. Keep plugs, "
    "splices and outlets above any level the water can reach, with drip loops and residual-current protection on every "
    "circuit. Local plumbing and electrical codes come first.";
constexpr const char* dry_run_caution =
    "A pump that draws air or runs against a blocked line overheats; residual-current protection on its circuit, drip "
    "loop, and no wet-handed work on live gear. A licensed electrician installs.";

std::string lost_flow_caution() {
  return std::string("A tank that loses its flow loses its heat and oxygen: have an alarm. ") + flood_caution;
}

// The last of a level's rise may take longer than can be told: the drain then takes all but the last digit of the flow.
std::string wait(const Time& time) {
  return std::isfinite(si(time)) ? text(measure(time, units::minute)) : "longer than can be told";
}

// A value that is to lie in a range, against the end that is nearer to being missed: the geometric mean of the two
// divides the side of too little from that of too much.
Check range_check(CheckText words, const Measure& value, const Measure& least, const Measure& most,
                  double uncertainty) {
  const bool too_little_is_nearer = value.si_value * value.si_value < least.si_value * most.si_value;
  words.where += too_little_is_nearer ? ", against the least" : ", against the most";
  return too_little_is_nearer ? make_check(std::move(words), least, value, uncertainty)
                              : make_check(std::move(words), value, most, uncertainty);
}

std::string at(std::string_view what, std::size_t header, std::size_t branch) {
  return std::string(what) + " " + std::to_string(branch + 1) + " of header " + std::to_string(header + 1);
}
}  // namespace

Check pipe_velocity_check(std::string_view where, const Velocity& velocity, const Velocity& limit) {
  require::not_negative("velocity", velocity);
  require::positive("velocity limit", limit);
  return make_check({.name = "hydraulics: pipe velocity",
                     .question = "Does the water in the supply pipe stay at or below the velocity limit?",
                     .where = std::string(where),
                     .source = "continuity; the limit is the caller's (5 ft/s: common practice, no source)",
                     .caution = "Fast water wears fittings and hammers when a valve shuts: a joint that fails floods "
                                "the room at the pump's full flow."},
                    measure(velocity, units::foot_per_second), measure(limit, units::foot_per_second),
                    pipe_uncertainty);
}

Check pipe_velocity_check(const ManifoldFlow& flow, const Velocity& limit) {
  Velocity fastest = flow.main_velocity;
  std::string where = "main";
  const auto take = [&](const Velocity& v, const std::string& place) {
    if (v > fastest) {
      fastest = v;
      where = place;
    }
  };
  for (std::size_t h = 0; h < flow.headers.size(); ++h) {
    for (std::size_t b = 0; b < flow.headers[h].header_velocities.size(); ++b)
      take(flow.headers[h].header_velocities[b], at("pipe", h, b));
    for (std::size_t b = 0; b < flow.headers[h].branch_velocities.size(); ++b)
      take(flow.headers[h].branch_velocities[b], at("branch", h, b));
  }
  return pipe_velocity_check(where, fastest, limit);
}

Check branch_balance_check(const ManifoldFlow& flow, double allowed_imbalance) {
  require::positive("allowed imbalance", allowed_imbalance);
  require::that(!flow.headers.empty(), "number of headers", 0.0, "1 or more");
  double worst = 0.0;
  std::string where;
  for (std::size_t h = 0; h < flow.headers.size(); ++h) {
    for (std::size_t b = 0; b < flow.headers[h].imbalance.size(); ++b) {
      const double i = flow.headers[h].imbalance[b];
      if (std::abs(i) < worst) continue;
      worst = std::abs(i);
      where = at("branch", h, b) + (i < 0.0 ? ", below the mean" : ", above the mean");
    }
  }
  return make_check({.name = "hydraulics: branch balance",
                     .question = "Does every tank get its share of the return flow?",
                     .where = where,
                     .source = "Darcy-Weisbach, Colebrook 1939, constant K of tees",
                     .caution = "Constant K misjudges the shares along long headers: set balancing valves by "
                                "measurement. A valve that is shut sends its flow to the other tanks' drains."},
                    measure(worst * units::one, units::percent),
                    measure(allowed_imbalance * units::one, units::percent), pipe_uncertainty);
}

Check tank_flow_check(std::string_view where, const VolumeFlow& needed, const VolumeFlow& given) {
  require::not_negative("needed flow", needed);
  require::not_negative("given flow", given);
  return make_check({.name = "hydraulics: tank flow",
                     .question = "Does the tank get the return flow that it needs?",
                     .where = std::string(where),
                     .source = "Darcy-Weisbach, Colebrook 1939; the need is the caller's",
                     .caution = lost_flow_caution()},
                    measure(needed, units::gph), measure(given, units::gph), pipe_uncertainty);
}

Check turnover_check(std::string_view where, const VolumeFlow& flow, const Volume& volume, const Frequency& least) {
  require::not_negative("least turnover", least);
  return make_check({.name = "hydraulics: turnover",
                     .question = "Is the water renewed often enough?",
                     .where = std::string(where),
                     .source = "flow over volume; the least turnover is the caller's",
                     .caution = lost_flow_caution()},
                    measure(least, units::per_hour), measure(turnover(flow, volume), units::per_hour),
                    turnover_uncertainty);
}

Check pump_margin_check(std::string_view where, const PumpCurve& pump, const VolumeFlow& flow,
                        const Length& system_head) {
  require::not_negative("system head", system_head);
  return make_check({.name = "hydraulics: pump margin",
                     .question = "Can the pump give the head that the pipes ask for at this flow?",
                     .where = std::string(where),
                     .source = "pump curve as given; Darcy-Weisbach, Colebrook 1939",
                     .caution = dry_run_caution},
                    measure(system_head, units::foot), measure(head(pump, flow), units::foot), pipe_uncertainty);
}

Check drain_back_check(const DrainBack& back, const Volume& spare) {
  require::not_negative("drain-back", back.total);
  require::not_negative("spare volume", spare);
  return make_check({.name = "hydraulics: power-off drain-back",
                     .question = "Does the sump hold what runs back when the return pump stops?",
                     .where = "sump",
                     .source = "geometry: surface times fall of level, plus content of pipes",
                     .caution = std::string("Do not trust check valves to hold back drain-back; keep siphon breaks "
                                            "clear of growth. ") +
                                flood_caution},
                    measure(back.total, units::us_gallon), measure(spare, units::us_gallon), geometry_uncertainty);
}

Check standpipe_check(std::string_view where, const VolumeFlow& flow, const Length& bore, double water_fraction) {
  require::not_negative("flow", flow);
  const std::string share = number(100.0 * water_fraction, 3) + " %";
  return make_check({.name = "hydraulics: standpipe",
                     .question = "Does the standpipe carry the tank's flow as a ring of water with air in its core, no "
                                 "more than " +
                                 share + " full?",
                     .where = std::string(where) + ", " + share + " of the section water",
                     .source = "Wyly & Eaton 1961, NBS Monograph 31, measured on 3 and 4 in stacks; bores below 3 in "
                               "are an extrapolation",
                     .caution = flood_caution},
                    measure(flow, units::gph), measure(stack_capacity(bore, water_fraction), units::gph),
                    weir_and_drain_uncertainty);
}

Check emergency_drain_check(std::string_view where, const VolumeFlow& flow,
                            const std::optional<EmergencyDrain>& drain) {
  require::not_negative("flow", flow);
  CheckText words{
      .name = "hydraulics: emergency drain",
      .question = "If the main drain is blocked, does the emergency drain take the tank's whole flow?",
      .where = std::string(where),
      .source =
          "rim: weir and orifice; pipe: Wyly & Eaton 1961, NBS Monograph 31, measured on 3 and 4 in stacks; "
          "bores below 3 in are an extrapolation",
      .caution =
          std::string("Anything that blocks one drain can block the other: screen and inspect both. ") + flood_caution};
  VolumeFlow capacity;
  if (!drain) {
    words.where += ", no emergency drain";
  } else {
    require::finite("rim", drain->rim);
    require::finite("highest level", drain->highest_level);
    require::that(drain->highest_level > drain->rim, "highest level", drain->highest_level,
                  "above the rim, " + text(drain->rim));
    const RimFlow rim = standpipe_rim_flow(drain->bore, drain->highest_level - drain->rim);
    capacity = emergency_drain_flow(*drain, drain->highest_level);
    words.where += capacity < rim.flow                  ? ", pipe governs"
                   : rim.control == RimControl::orifice ? ", rim governs as an orifice"
                                                        : ", rim governs as a weir";
  }
  return make_check(std::move(words), measure(flow, units::gph), measure(capacity, units::gph),
                    weir_and_drain_uncertainty);
}

Check blocked_drain_check(std::string_view where, const BlockedTank& tank, const std::optional<EmergencyDrain>& drain) {
  const BlockedDrainOutcome outcome = blocked_drain(tank, drain);
  CheckText words{
      .name = "hydraulics: blocked drain",
      .question = "If the main drain is blocked and the pump runs on, does the water stay off the floor?",
      .where = std::string(where),
      .source = "balance of volumes; emergency drain: rim as weir and orifice, Wyly & Eaton 1961, NBS Monograph 31",
      .caution = std::string("Nothing here replaces a high-level switch that stops the pump. ") + flood_caution};
  if (!drain) words.where += ", no emergency drain at work";
  if (!outcome.overflows && !outcome.pump_runs_dry)
    words.where += ", the level settles at " + text(measure(outcome.final_level, units::inch));
  if (outcome.time_to_overflow)
    words.where += ", over the rim after " + wait(*outcome.time_to_overflow) + ", then " +
                   text(measure(outcome.on_floor, units::us_gallon)) + " on the floor";
  if (outcome.time_to_dry) words.where += ", pump draws air after " + wait(*outcome.time_to_dry);
  const Volume room = tank.surface * (tank.tank_rim - tank.running_level);
  return make_check(std::move(words), measure(outcome.held + outcome.on_floor, units::us_gallon),
                    measure(room, units::us_gallon), weir_and_drain_uncertainty);
}

Check restart_check(std::string_view where, const Length& lowest_level, const Length& draws_air_below) {
  require::finite("lowest level", lowest_level);
  require::not_negative("level below which the pump draws air", draws_air_below);
  const Length missing = std::max(-lowest_level, Length());
  const std::string empty =
      missing > Length() ? ", empty with " + text(measure(missing, units::inch)) + " of water still missing" : "";
  return make_check({.name = "hydraulics: restart",
                     .question = "Does the sump keep the intake under water when the return pump starts again?",
                     .where = std::string(where) + empty,
                     .source = "balance of volumes; Francis 1855, weir",
                     .caution = dry_run_caution},
                    measure(draws_air_below + missing, units::inch), measure(lowest_level + missing, units::inch),
                    weir_and_drain_uncertainty);
}

Check water_hammer_check(std::string_view where, const Pressure& working, const Surge& surge, const Pressure& rating) {
  require::not_negative("working pressure", working);
  require::not_negative("surge", surge.rise);
  require::positive("pressure rating", rating);
  return make_check(
      {.name = "hydraulics: water hammer",
       .question = "Does the pipe's rating cover the working pressure plus the surge of a shutting valve?",
       .where = std::string(where) + (surge.sudden ? ", shut at once" : ", shut slowly"),
       .source = "Joukowsky 1898, Korteweg 1878; slow closing Michaud 1878",
       .caution = "A joint that fails floods the room at the pump's full flow. Ratings are for cold pipe "
                  "and fall with warmth; repeated surges tire plastic. Local plumbing codes come first."},
      measure(working + surge.rise, units::psi), measure(rating, units::psi), surge_uncertainty);
}

Check gravity_main_check(std::string_view where, const VolumeFlow& flow, const GravityMain& main, double filling) {
  require::not_negative("flow", flow);
  require::positive("filling", filling);
  require::within("filling", filling, 0.0, 1.0);
  return make_check({.name = "hydraulics: gravity main",
                     .question = "Does the sloping drain carry the whole return flow with air above the water?",
                     .where = std::string(where),
                     .source = "Manning 1891, uniform flow",
                     .caution = flood_caution},
                    measure(flow, units::gph), measure(flow_at_depth(main, filling * main.bore).flow, units::gph),
                    weir_and_drain_uncertainty);
}

Check submergence_check(std::string_view where, const Length& inlet_diameter, const VolumeFlow& flow,
                        const Length& submergence) {
  require::not_negative("submergence", submergence);
  const Length standard = critical_submergence(inlet_diameter, flow);
  // Gordon counts from the top of the opening, the standard from its centre. A sump's water comes from one side.
  const Length gordon =
      critical_submergence_gordon(inlet_diameter, flow, Approach::asymmetrical) + 0.5 * inlet_diameter;
  const double spread = std::abs(si(gordon) / si(standard) - 1.0);
  return make_check(
      {.name = "hydraulics: intake submergence",
       .question = "Does the pump's intake lie deep enough to draw no air?",
       .where = std::string(where) + ", by Gordon's rule " + text(measure(gordon, units::inch)) + " would do",
       .source = "ANSI/HI 9.8, S = D (1 + 2.3 Fr), errs on the deep side for small pumps; uncertainty by "
                 "Gordon 1970, water from one side, at least 15 %",
       .caution = dry_run_caution},
      measure(standard, units::inch), measure(submergence, units::inch), std::max(intake_uncertainty, spread));
}

Check operating_region_check(std::string_view where, const VolumeFlow& flow, const VolumeFlow& best_flow,
                             const OperatingRegion& region) {
  const Operation lies = operation(region, flow, best_flow);
  const auto percent = [](double share) { return number(100.0 * share, 3); };
  return range_check(
      {.name = "hydraulics: pump operating region",
       .question = "Does the pump run where its maker allows it to run all the time?",
       .where = std::string(where) + ", at " + percent(si(flow) / si(best_flow)) +
                " % of the flow of best efficiency, " + (lies == Operation::preferred ? "within" : "outside") +
                " the preferred " + percent(region.preferred_low) + " to " + percent(region.preferred_high) + " %",
       .source = "ANSI/HI 9.6.3 (from memory); the allowable region is the maker's",
       .caution = dry_run_caution},
      measure(flow, units::gph), measure(region.allowable_low * best_flow, units::gph),
      measure(region.allowable_high * best_flow, units::gph), pipe_uncertainty);
}

Check npsh_check(std::string_view where, const Length& available, const Length& required, double ratio) {
  require::finite("available NPSH", available);
  require::not_negative("required NPSH", required);
  require::that(ratio > 1.0 && std::isfinite(ratio), "NPSH ratio", ratio, "above 1");
  const Length missing = std::max(-available, Length());
  return make_check({.name = "hydraulics: pump NPSH",
                     .question = "Does the suction leave the pump pressure enough to run without cavitation?",
                     .where = std::string(where) + ", " + number(ratio) + " x the required NPSH of " +
                              text(measure(required, units::foot)),
                     .source = "definition of NPSH; ratio: ANSI/HI 9.6.1 asks 1.1 to 1.3 of small pumps (from memory)",
                     .caution = dry_run_caution},
                    measure(ratio * required + missing, units::foot), measure(available + missing, units::foot),
                    npsh_uncertainty);
}

Check pump_power_check(std::string_view where, const Power& drawn, const Power& rated) {
  require::not_negative("power drawn", drawn);
  require::positive("rated power", rated);
  return make_check(
      {.name = "hydraulics: pump power",
       .question = "Does the return pump draw no more than its rated power?",
       .where = std::string(where) + ", " + text(measure(drawn * units::year.size, units::kilowatt_hour)) +
                " in a year of running all the time",
       .source = "density g flow head over the stated efficiency",
       .caution = dry_run_caution},
      measure(drawn, units::watt), measure(rated, units::watt), efficiency_uncertainty);
}

namespace {
constexpr const char* circulation_caution =
    "Circulation pumps stand in the water with mains beside it: residual-current protection, drip loops, and power off "
    "before hands go in.";

Check velocity_range(const CheckText& words, const Velocity& velocity, const Velocity& least, const Velocity& most,
                     double uncertainty) {
  require::not_negative("velocity", velocity);
  require::not_negative("least velocity", least);
  require::positive("most velocity", most);
  require::that(least <= most, "least velocity", least, "at most the most velocity, " + text(most));
  return range_check(words, measure(velocity, units::centimetre_per_second),
                     measure(least, units::centimetre_per_second), measure(most, units::centimetre_per_second),
                     uncertainty);
}
}  // namespace

Check water_velocity_check(std::string_view where, const Velocity& velocity, const Velocity& least,
                           const Velocity& most) {
  return velocity_range({.name = "hydraulics: water velocity",
                         .question = "Does the water move within the wanted range at this place?",
                         .where = std::string(where),
                         .source = "round turbulent jet, Rajaratnam 1976; the range is the caller's",
                         .caution = circulation_caution},
                        velocity, least, most, jet_uncertainty);
}

Check gyre_check(std::string_view where, const GyreTank& tank, const Jet& jet, int jets, const Velocity& least,
                 const Velocity& most) {
  return velocity_range({.name = "hydraulics: gyre",
                         .question = "Does the water go round the tank within the wanted range of speed?",
                         .where = std::string(where),
                         .source = "balance of momentum over the loop, textbook; the range is the caller's",
                         .caution = circulation_caution},
                        gyre_speed(tank, jet, jets), least, most, gyre_speed_error);
}

}  // namespace theca::hydraulics
