#include "theca/farm/checks.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "theca/require.hpp"

namespace theca::farm {

namespace {

constexpr Length tape = 1.0 * units::inch;  // what a room and a person can be measured to

const char* const reach_caution =
    "People differ: measure the ones who work there. Nobody climbs on a tank rim or leans on a brace; glass fails "
    "without warning.";
const char* const back_caution =
    "An estimate for a healthy adult who lifts with both hands, standing, on a dry floor; wet floors, spilling water "
    "and earlier injuries lower it. More than the limit needs a pump or a second person.";
const char* const electric_caution =
    "Electricity near salt water kills: residual-current protection on every circuit, drip loops, nothing spliced "
    "below the water level. A licensed electrician installs; local codes come first.";
const char* const conductor_caution =
    "Says nothing on whether the conductor may carry the current: a licensed electrician chooses it, with its "
    "protection. ";
const char* const generator_caution =
    "A generator runs outdoors, away from doors and windows: its exhaust kills. It is connected through a transfer "
    "switch only; feeding back into the grid kills those who work on the lines. ";
const char* const battery_caution =
    "Batteries burn and some give off hydrogen: fuse them at their terminals, air the room, keep them out of the salt "
    "spray. Test the real running time every year. ";
const char* const exit_caution = "Local building and fire codes come first; keep the way out dry and clear.";
const char* const chemical_caution =
    "Dry salts for alkalinity and calcium raise dust, and dissolving them gives off heat: add them to water, slowly, "
    "follow the label, and protect eyes and hands. ";
const char* const animal_caution =
    "Figures for living things vary by a factor of two: keep ranges and watch the animals.";

}  // namespace

Check reach_check(const std::string& where, const Body& body, const RackSection& section, OpenSides sides,
                  const Stance& stance, const Angle& bend_limit) {
  const ArmNeeded needed = arm_needed(body, section, sides, stance, bend_limit);
  const Reach got = reach_up_to(body, section, sides, stance, bend_limit);
  return make_check(
      {.name = "farm: reach",
       .question = "Can the whole rack be reached over the rim with the trunk bent by at most " +
                   number(in(bend_limit, units::degree), 3) + " degrees?",
       .where = where + ": worst point " + number(in(needed.worst, units::inch), 3) + " in from the face; " +
                number(100.0 * got.share, 3) + " % of the width is reached",
       .source =
           "Arm sphere about the shoulder, drawn tight over the rim; trunk limits of ISO 11226:2000 (from memory); "
           "body from the input, defaults Pheasant 1996",
       .caution = reach_caution},
      measure(needed.arm, units::inch), measure(body.shoulder_grip, units::inch), tape / needed.arm);
}

namespace {
Check work_height_check(const std::string& where, const WorkHeight& height, const Length& tolerance,
                        const std::string& band_source) {
  require::positive("tolerance", tolerance);
  const double below = in(height.hands_below_elbow, units::inch);
  return make_check({.name = "farm: work height",
                     .question = "Are the hands near the recommended height?",
                     .where = where + ": hands " + number(below < 0.0 ? -below : below, 3) + " in " +
                              (below < 0.0 ? "above" : "below") + " the elbow",
                     .source = band_source + "; tolerance from the input",
                     .caution = reach_caution},
                    measure(height.outside_band, units::inch), measure(tolerance, units::inch), 0.0);
}
}  // namespace

Check work_height_check(const std::string& where, const Body& body, const Length& hands_height, WorkKind kind,
                        const Length& tolerance) {
  return work_height_check(where, work_height(body, hands_height, kind), tolerance,
                           "Pheasant & Haslegrave 2006: precision 5 to 10 cm above the elbow, light work 5 to 10 cm "
                           "below, heavy work 10 to 25 cm below");
}

Check work_height_check(const std::string& where, const Body& body, const Length& hands_height,
                        const WorkHeightBand& band, const Length& tolerance) {
  return work_height_check(where, work_height(body, hands_height, band), tolerance,
                           "band from the input, " + number(in(band.least_below_elbow, units::inch), 3) + " to " +
                               number(in(band.most_below_elbow, units::inch), 3) +
                               " in below the elbow (negative: above)");
}

Check aisle_check(const Strip& narrowest, const Length& required) {
  require::positive("required aisle width", required);
  require::positive("aisle width", narrowest.width);
  return make_check({.name = "farm: aisle",
                     .question = "Is the narrowest aisle wide enough?",
                     .where = narrowest.name,
                     .source = "Exit access 28 in: 29 CFR 1910.36(g)(2); accessible route 36 in: ADA Standards 2010, "
                               "403.5.1",
                     .caution = exit_caution},
                    measure(required, units::inch), measure(narrowest.width, units::inch), tape / required);
}

Check room_fit_check(const std::string& where, const Fit& fit) {
  require::positive("length used", fit.used);
  require::positive("length available", fit.available);
  return make_check({.name = "farm: room fit",
                     .question = "Do the tanks, gaps and aisles fit the room?",
                     .where = where,
                     .source = "Sum of the strips",
                     .caution = "Measure the room at several places; doors, pipes and the bulge of walls take more."},
                    measure(fit.used, units::inch), measure(fit.available, units::inch), tape / fit.used);
}

Check head_clearance_check(const std::string& where, const Body& body, const Length& underside) {
  head_clearance(body, underside);  // refuses impossible input
  const Length stature = shod_stature(body);
  return make_check({.name = "farm: head clearance",
                     .question = "Does the head clear the fixture over the tank?",
                     .where = where,
                     .source = "Stature plus shoes from the input; defaults Pheasant 1996",
                     .caution = "Fixtures hang permanently clear of the head; nobody shifts them for a task. " +
                                std::string(electric_caution)},
                    measure(stature, units::inch), measure(underside, units::inch), tape / stature);
}

Check headroom_check(const std::string& where, const Length& underside, const Length& required) {
  require::not_negative("underside", underside);
  require::positive("required headroom", required);
  return make_check({.name = "farm: headroom",
                     .question = "Is there headroom under projections on the way out?",
                     .where = where,
                     .source = "29 CFR 1910.36(g)(1): 6 ft 8 in under projections",
                     .caution = exit_caution},
                    measure(required, units::inch), measure(underside, units::inch), tape / required);
}

Check lifting_check(const std::string& where, const Mass& load, const Lift& lift, LiftingConstants constants) {
  require::positive("load", load);
  const WeightLimits limits = recommended_weight_limits(lift, constants);
  const bool destination = limits.at_destination < limits.at_origin;
  return make_check({.name = "farm: lifting",
                     .question = "Is the load at most the recommended weight limit?",
                     .where = where + (destination ? ", at the destination" : ", at the origin"),
                     .source = "Revised NIOSH lifting equation: Waters et al. 1993; DHHS (NIOSH) 94-110",
                     .caution = back_caution},
                    measure(load, units::pound),
                    measure(destination ? limits.at_destination : limits.at_origin, units::pound), 0.05);
}

Check circuit_check(const std::string& where, const CircuitLoad& load, const Voltage& voltage, const Current& breaker,
                    double power_factor, double continuous_factor) {
  require::positive("breaker rating", breaker);
  const Current rating = required_rating(load, voltage, power_factor, continuous_factor);
  return make_check({.name = "farm: circuit",
                     .question = "Does the breaker carry the load that is always on?",
                     .where = where,
                     .source = "NFPA 70 210.19(A)(1), 210.20(A): 125 % of the continuous load plus the rest; here " +
                               number(100.0 * continuous_factor, 4) + " % of the continuous load",
                     .caution = electric_caution},
                    measure(rating, units::ampere), measure(breaker, units::ampere), 0.02);
}

namespace {
Check drop_check(CheckText words, double share, double limit) {
  require::positive("drop limit", limit);
  words.caution = std::string(conductor_caution) + electric_caution;
  return make_check(std::move(words), measure(from_si<Quantity<unit::none>>(share), units::percent),
                    measure(from_si<Quantity<unit::none>>(limit), units::percent), 0.1);
}
const char* const drop_source =
    "Ohm's law with NFPA 70 chapter 9 table 8 or IEC 60228; limits of the informational note to NFPA 70 210.19, advice "
    "and no requirement";
}  // namespace

Check voltage_drop_check(const std::string& where, const VoltageDrop& branch, double limit) {
  return drop_check({.name = "farm: voltage drop",
                     .question = "Does the load get its voltage at the end of its cable?",
                     .where = where + ": " + number(in(branch.at_load, units::volt), 4) + " V at the load",
                     .source = drop_source},
                    branch.share, limit);
}

Check total_voltage_drop_check(const std::string& where, const VoltageDrop& feeder, const VoltageDrop& branch,
                               double limit) {
  return drop_check({.name = "farm: voltage drop with feeder",
                     .question = "Does the load get its voltage behind feeder and branch circuit?",
                     .where = where,
                     .source = drop_source},
                    feeder.share + branch.share, limit);
}

Check battery_check(const std::string& where, const Time& outage, const Time& lasts) {
  require::positive("outage", outage);
  require::positive("time that the battery lasts", lasts);
  return make_check(
      {.name = "farm: backup battery",
       .question = "Does the battery last through the power cut, at the end of its life?",
       .where = where,
       .source = "Energy over inverter efficiency, depth of discharge and ageing (factors as in IEEE 485)",
       .caution = std::string(battery_caution) + electric_caution},
      measure(outage, units::hour), measure(lasts, units::hour), 0.2);
}

Check generator_check(const std::string& where, const GeneratorRating& asked, const Power& rated,
                      const Power& rated_apparent) {
  require::positive("rated power", rated);
  require::that(rated_apparent >= rated && std::isfinite(si(rated_apparent)), "rated apparent power", rated_apparent,
                "at least the rated real power, " + text(rated));
  const bool apparent = asked.apparent / rated_apparent >= asked.real / rated;
  return make_check({.name = "farm: generator",
                     .question = "Does the generator carry and start what must not stop?",
                     .where = where + (!apparent ? ", real power running"
                                                 : (asked.start_governs ? ", VA while motors start" : ", VA running")),
                     .source = "Sum of running loads and start surges; loading, derating and surge from the input",
                     .caution = std::string(generator_caution) + electric_caution},
                    measure(apparent ? asked.apparent : asked.real, units::kilowatt),
                    measure(apparent ? rated_apparent : rated, units::kilowatt), 0.2);
}

Check alkalinity_swing_check(const std::string& where, const MineralDemand& demand, const Volume& water,
                             const Time& between_doses, const Concentration& largest_swing) {
  require::positive("largest swing", largest_swing);
  return make_check({.name = "farm: alkalinity swing",
                     .question = "Does alkalinity stay even between doses?",
                     .where = where + ", " + number(in(between_doses, units::hour), 3) + " h between doses",
                     .source = "2 eq per mole of CaCO3 (stoichiometry; 2.06 +- 0.19, Murillo et al. 2014); limit from "
                               "the input",
                     .caution = std::string(chemical_caution) + animal_caution},
                    measure(alkalinity_drop(demand, water, between_doses), units::dKH),
                    measure(largest_swing, units::dKH), 0.2);
}

Check dosing_failure_check(const std::string& where, const Concentration& start, const MineralDemand& demand,
                           const Volume& water, const Time& failure, const Concentration& lowest) {
  require::not_negative("alkalinity at the start", start);
  require::positive("lowest alkalinity", lowest);
  const CheckText words{.name = "farm: dosing failure",
                        .question = "Does alkalinity stay above the lowest level while the dosing is off?",
                        .where = where + ", off for " + number(in(failure, units::day), 3) + " d",
                        .source =
                            "Constant demand, 2 eq per mole of CaCO3: an upper bound on the fall; level from the "
                            "input",
                        .caution = std::string(chemical_caution) + animal_caution};
  const Concentration drop = alkalinity_drop(demand, water, failure);
  const Concentration left = std::max(start - drop, from_si<Concentration>(0.0));
  // 20 % of the fall, over the level left; a level that is used up fails whatever the uncertainty.
  const double uncertainty = si(left) > 0.0 ? 0.2 * si(drop) / si(left) : 0.0;
  return make_check(words, measure(lowest, units::dKH), measure(left, units::dKH), uncertainty);
}

Check oxygen_check(const std::string& where, const StillTank& tank, const Density& start, const Density& limit,
                   const Time& power_cut) {
  require::positive("power cut", power_cut);
  const auto lasts = time_to_limit(tank, start, limit);
  return make_check(
      {.name = "farm: oxygen in a power cut",
       .question = "Does the oxygen last as long as the power cut?",
       .where = where + (lasts ? "" : "; the level never falls to the limit, shown as one year"),
       .source = "V dC/dt = kL A (Cs - C) - R, exact; saturation Garcia & Gordon 1992; limit from the "
                 "input",
       .caution = std::string("A battery air pump per tank buys time: mount it above the water, so that nothing "
                              "siphons back into it. ") +
                  electric_caution + " " + animal_caution},
      measure(power_cut, units::hour), measure(lasts.value_or(units::year.size), units::hour), 0.5);
}

namespace {
CheckText quarantine_words(const char* hold_source) {
  return {.name = "farm: quarantine",
          .question = "Are there slots enough to hold new stock for the whole time?",
          .where = "quarantine",
          .source = std::string("Little 1961: slots = arrivals x hold; ") + hold_source,
          .caution = std::string("An average: arrivals in batches need more. Dips against pests: air the room, protect "
                                 "eyes and hands, follow the label. ") +
                     animal_caution};
}

Check quarantine_check(const Frequency& arrivals, const Time& hold, double slots, const char* hold_source) {
  require::not_negative("slots", slots);
  CheckText words = quarantine_words(hold_source);
  words.where += ", hold " + number(in(hold, units::day), 3) + " d";
  return make_check(std::move(words), measure(quarantine_slots(arrivals, hold), "slots"), measure(slots, "slots"), 0.1);
}
}  // namespace

Check quarantine_check(const Frequency& arrivals, const Time& hold, double slots) {
  return quarantine_check(arrivals, hold, slots, "hold from the input");
}

Check quarantine_check(const Frequency& arrivals, const Temperature& water, double slots) {
  constexpr const char* hold_source = "hold of one pest generation, Barton et al. 2019";
  try {
    return quarantine_check(arrivals, generation_time(water), slots, hold_source);
  } catch (const OutOfValidity& e) {
    return outside_validity(quarantine_words(hold_source), e.what());
  }
}

Check grazer_check(const std::string& where, const Grazing& grazing) {
  return make_check({.name = "farm: grazers",
                     .question = "Do the grazers keep up with the algae?",
                     .where = where + ": " + number(grazing.needed, 3) + " grazers take all that grows",
                     .source = "Algal production Paddack et al. 2006; consumption from the input",
                     .caution = animal_caution},
                    measure(grazing.production, units::gram_per_day), measure(grazing.consumption, units::gram_per_day),
                    1.0);
}

Check labour_check(std::span<const Task> tasks, const Time& hired_per_week, double utilisation_limit) {
  require::positive("hours hired per week", hired_per_week);
  require::that(utilisation_limit > 0.0 && utilisation_limit <= 1.0, "utilisation limit", utilisation_limit,
                "> 0 to 1");
  return make_check({.name = "farm: labour",
                     .question = "Do the hired hours cover the work of a week?",
                     .where = number(100.0 * labour_utilisation(tasks, hired_per_week), 3) +
                              " % of the hired hours; limit " + number(100.0 * utilisation_limit, 3) + " %",
                     .source = "Sum of the tasks",
                     .caution = "Time your own tasks; neglected tanks breed pests."},
                    measure(weekly_work(tasks), units::hour), measure(utilisation_limit * hired_per_week, units::hour),
                    0.02);
}

Check cost_check(const Economics& economics, const Money& price, double uncertainty) {
  require::not_negative("price", price);
  return make_check(
      {.name = "farm: cost per fragment",
       .question = "Does a sold fragment earn what it costs?",
       .where = "whole farm",
       .source = "Running cost plus capital at the discount rate, over fragments sold",
       .caution = std::string("Growth, survival and sales decide this more than the sums. ") + animal_caution},
      measure(economics.cost_per_sold, units::dollar), measure(price, units::dollar), uncertainty);
}

Check rotation_fit_check(const RotationFit& worst) {
  return make_check(
      {.name = "farm: rotation fit",
       .question = "Does the stock that moves fit the tank that waits for it?",
       .where = "from place " + std::to_string(worst.from + 1) + " to place " + std::to_string(worst.to + 1),
       .source = "Counting",
       .caution = "That rotation does any good is not established by data. " + std::string(animal_caution)},
      measure(worst.stock, "fragments"), measure(worst.room, "fragments"), 0.0);
}

Check plan_slots_check(const std::string& where, const SlotUse& tightest) {
  return make_check(
      {.name = "farm: slots of the cutting plan",
       .question = "Do the fragments of the cutting plan fit the racks at the tightest moment?",
       .where = where + ", day " + number(in(tightest.at, units::day), 4) + " of the plan",
       .source = "Cohorts summed over their stay (Little 1961 on average); racks less the tanks that rest",
       .caution = animal_caution},
      measure(tightest.taken, "slots"), measure(static_cast<double>(tightest.available), "slots"), 0.5);
}

}  // namespace theca::farm
