#include <algorithm>
#include <cmath>
#include <optional>

#include "collector.hpp"
#include "theca/seawater.hpp"
#include "theca/study/assessment.hpp"
#include "theca/study/parts.hpp"
#include "theca/study/validate.hpp"

namespace theca::study {
namespace {

/// The check of the person who comes off worst.
template <class Make>
Check worst_of_all(const Design& design, Make&& make) {
  std::optional<Check> worst;
  for (const auto& [name, dimensions] : design.workers.bodies) {
    Check check = make(name, body(design, name));
    if (!worst || check.utilisation > worst->utilisation) worst = std::move(check);
  }
  if (!worst) throw InvalidInput("workers", "no body", "body dimensions of at least one person");
  return *worst;
}

void people_checks(const Design& design, const std::string& tank, const TankKind& kind, Collector& checks) {
  const Length rack = kind.stand_height + kind.glass_base + kind.rack_plane;
  const farm::RackSection section{.outside_width = kind.outside_width,
                                  .wall_thickness = kind.glass_nominal,
                                  .rim_height = kind.stand_height + kind.outside_height,
                                  .rim_brace_width = kind.rim_brace ? kind.rim_brace->width : Length(),
                                  .plane_height = rack};
  const farm::OpenSides sides = kind.open_sides >= 2 ? farm::OpenSides::both : farm::OpenSides::one;
  const farm::Stance stance{.shoulder_stand_off = design.workers.shoulder_stand_off};
  const auto reach = [&](const Angle& limit) {
    return worst_of_all(design, [&](const std::string& who, const farm::Body& person) {
      return farm::reach_check(tank + ", " + who, person, section, sides, stance, limit);
    });
  };
  checks.add("farm: " + tank + " reach, trunk nearly upright", [&] { return reach(farm::trunk_bend_unlimited); });
  checks.add("farm: " + tank + " reach, trunk bent", [&] { return reach(farm::trunk_bend_most); });
  const Range<Length>& band = design.workers.light_work_below_elbow;
  checks.add("farm: " + tank + " work height", [&] {
    return worst_of_all(design, [&](const std::string& who, const farm::Body& person) {
      return farm::work_height_check(
          tank + ", " + who, person, rack,
          farm::WorkHeightBand{.least_below_elbow = band.low, .most_below_elbow = band.high});
    });
  });
  const LightProposal& proposal = light_proposal(design, design.money.lights_as);
  checks.add("farm: " + tank + " head clearance", [&] {
    return worst_of_all(design, [&](const std::string& who, const farm::Body& person) {
      return farm::head_clearance_check(
          tank + ", " + who, person,
          farm::fixture_height(kind.stand_height, kind.glass_base + kind.water_depth, proposal.mounting_height));
    });
  });
}

/// Length of a row along the hall: its tanks and the gaps between them.
Length row_length(const Design& design, const std::vector<std::string>& names) {
  Length sum = names.empty() ? Length() : double(names.size() - 1) * design.rooms.layout.gap_between_tanks;
  for (const auto& [name, kind] : design.tanks.kinds)
    for (const std::string& tank : kind.names)
      if (std::find(names.begin(), names.end(), tank) != names.end()) sum += kind.outside_length;
  return sum;
}

void room_checks(const Design& design, Collector& checks) {
  const Layout& layout = design.rooms.layout;
  std::vector<farm::Strip> across;
  for (const Strip& strip : layout.across_width)
    across.push_back({strip.tag == "aisle" ? farm::StripKind::aisle : farm::StripKind::tanks, strip.width,
                      strip.tag == "aisle" ? "aisle between rows" : strip.tag});
  std::string longest_row;
  Length longest;
  for (const auto& [row, names] : layout.rows) {
    if (row_length(design, names) < longest) continue;
    longest = row_length(design, names);
    longest_row = row;
  }
  const Length east = design.rooms.hall.length - layout.end_aisle_west - longest;
  std::vector<farm::Strip> passages = across;
  passages.push_back({farm::StripKind::aisle, layout.end_aisle_west, "end aisle, west"});
  if (si(east) > 0.0) passages.push_back({farm::StripKind::aisle, east, "end aisle, east, behind " + longest_row});
  checks.add("farm: narrowest aisle, exit access",
             [&] { return farm::aisle_check(farm::narrowest_aisle(passages), layout.min_aisle); });
  checks.add("farm: narrowest aisle, accessible",
             [&] { return farm::aisle_check(farm::narrowest_aisle(passages), layout.accessible_aisle); });
  checks.add("farm: rows across the hall",
             [&] { return farm::room_fit_check("hall width", farm::fit_across(across, design.rooms.hall.width)); });
  checks.add("farm: longest row along the hall", [&] {
    const Length used = layout.end_aisle_west + longest + layout.min_aisle;
    return farm::room_fit_check(longest_row + ", with the end aisle in the west and the narrowest one in the east",
                                {used, design.rooms.hall.length, design.rooms.hall.length - used});
  });
}

farm::Coupling coupling(const Coupling& multipliers) {
  // NIOSH 94-110, table 7: hands under and over 30 in.
  if (multipliers == Coupling{1.0, 1.0}) return farm::Coupling::good;
  if (multipliers == Coupling{0.95, 1.0}) return farm::Coupling::fair;
  if (multipliers == Coupling{0.90, 0.90}) return farm::Coupling::poor;
  throw InvalidInput("labour.lift.coupling", text(multipliers.origin, "") + " and " + text(multipliers.destination, ""),
                     "1.0 and 1.0 (good), 0.95 and 1.0 (fair) or 0.90 and 0.90 (poor)");
}

void work_checks(const Design& design, Collector& checks) {
  const study::Lift& lift = design.labour.lift;
  const Mass load = lift.bucket_mass + lift.bucket * water_density(design);
  checks.add("farm: lifting a full bucket", [&] {
    // A frequency factor of 1 is a rare lift: once an hour lies well inside the table's first row.
    require::that(lift.frequency_factor == 1.0, "labour.lift.frequency_factor", lift.frequency_factor,
                  "1 (a rare lift)");
    return farm::lifting_check("bucket of water", load,
                               {.origin = {lift.reach_origin, lift.from, 0_deg},
                                .destination = {lift.reach_destination, lift.to, 0_deg},
                                .rate = 1.0 * units::per_hour,
                                .duration = farm::LiftingDuration::up_to_1_h,
                                .coupling = coupling(lift.coupling)},
                               farm::LiftingConstants::us_customary);
  });
  const std::vector<farm::Task> weekly = tasks(design);
  checks.add("farm: labour", [&] {
    return farm::labour_check(weekly, si(design.labour.hired) * units::week.size, design.labour.utilisation_limit);
  });
}

void electrical_checks(const Design& design, Collector& checks) {
  const Electricity& electricity = design.electricity;
  // The fallow tank's fixtures are dark, but it moves: a circuit must carry all of its own when another rests.
  const int fixtures = tank_count(design) * light_proposal(design, design.money.lights_as).per_tank;
  checks.add("farm: lighting circuits", [&] {
    const int fullest = farm::units_on_fullest_circuit(fixtures, electricity.lighting_circuits);
    return farm::circuit_check("fullest of " + std::to_string(electricity.lighting_circuits) + " lighting circuits, " +
                                   std::to_string(fullest) + " fixtures, no tank on it fallow",
                               {.continuous = double(fullest) * design.lights.power}, electricity.voltage,
                               electricity.breaker, 1.0, electricity.continuous_factor);
  });
}

/// Common practice, no source: 7 to 9 dKH.
constexpr Concentration lowest_alkalinity = 7.0 * units::dKH;

/// Common practice, no source; from memory, calcification falls with it (Langdon & Atkinson 2005), reefs stood
/// above 3.3 (Kleypas et al. 1999).
constexpr double least_aragonite_saturation = 3.0;

/// People breathe out CO2, and the hall's air sets the water's pH: the hall as ventilated in winter, all at work.
void saturation_check(const Design& design, Collector& checks) {
  checks.add("farm: aragonite saturation under the hall's air", [&] {
    const Hall& hall = design.rooms.hall;
    // The grower, and as many hired hands as fill weeks of 40 h (common practice, no source); 2 met, standing work.
    const double hands = 1.0 + std::ceil(si(design.labour.hired) / (40.0 / 168.0));
    const VolumeFlow fresh = hall.length * hall.width * hall.height * hall.ventilation;
    const double carbon_dioxide = thermal::steady_co2(thermal::co2_from_people(hands, 2.0), fresh);
    const seawater::CarbonateSystem system =
        seawater::carbonate_under_air({.temperature = design.site.water.temperature,
                                       .salinity = design.site.water.salinity,
                                       .alkalinity = design.chemistry.alkalinity},
                                      carbon_dioxide, design.site.air_pressure);
    return make_check(
        {.name = {},
         .question = "Does the hall's air leave the water enough carbonate for corals to build with?",
         .where = "system in balance with the hall's air, " + number(1e6 * carbon_dioxide, 3) + " ppm CO2 with " +
                  number(hands, 2) + " people at work, pH " + number(system.ph, 3) + " (total scale)",
         .source =
             "carbonate system of Dickson, Sabine & Christian 2007; CO2 of people as ASHRAE 62.1; least saturation "
             "3 (common practice, no source)",
         .caution = std::string("Water that calcifies fast, or is aerated little, stands away from this balance. ") +
                    "Above 1000 ppm the room is stuffy for people too."},
        measure(least_aragonite_saturation * units::one, units::one),
        measure(system.aragonite_saturation * units::one, units::one), 0.1);
  });
}

/// Dosing sodium and calcium salts leaves table salt behind; water changes carry it off.
void salt_check(const Design& design, const farm::MineralDemand& demand, const Volume& water, Collector& checks) {
  checks.add("farm: salt left by dosing in a year", [&] {
    const AbsoluteSalinity start = salinity(design);
    const AbsoluteSalinity end = farm::salinity_after({.water = water * water_density(design),
                                                       .salt_in = farm::salt_left_by_dosing(demand),
                                                       .renewal = design.chemistry.water_change,
                                                       .new_water = start},
                                                      start, 1.0 * units::year);
    return make_check({.name = {},
                       .question = "Does the salt that dosing leaves stay within what water changes carry off?",
                       .where = "whole system, every slot filled, after a year without correcting the salinity",
                       .source = "2 NaCl for each CaCO3 built (stoichiometry of sodium hydrogen carbonate and calcium "
                                 "chloride); limit 1 g/kg (common practice, no source)",
                       .caution = "Measure salinity weekly and mix new water to the target, not to the tank."},
                      measure(1e-3 * (end.grams_per_kg - start.grams_per_kg) * units::one, units::gram_per_kilogram),
                      measure(1e-3 * units::one, units::gram_per_kilogram), 0.2);
  });
}

void chemistry_checks(const Design& design, Collector& checks) {
  const Chemistry& chemistry = design.chemistry;
  const farm::MineralDemand demand =
      farm::mineral_demand(double(all_slots(design)) * design.stock.mean_fragment_area, design.stock.calcification);
  const Volume water = system_volume(design);
  checks.add("farm: alkalinity swing", [&] {
    return farm::alkalinity_swing_check("whole system, every slot filled", demand, water, units::day.size,
                                        chemistry.alkalinity_swing_limit);
  });
  checks.add("farm: dosing failure", [&] {
    return farm::dosing_failure_check("whole system, every slot filled; least alkalinity 7 dKH (common practice)",
                                      chemistry.alkalinity, demand, water, chemistry.dosing_failure, lowest_alkalinity);
  });
  saturation_check(design, checks);
  salt_check(design, demand, water, checks);
  checks.add("farm: mixing vat", [&] {
    return make_check({.name = {},
                       .question = "Does one mixing hold a week's water change?",
                       .where = "mixing vat",
                       .source = "volumes by geometry",
                       .caution = "A full vat can drown a child: cover it. Overflow reaches electrics."},
                      measure(water_changed(design) * units::week.size, units::us_gallon),
                      measure(chemistry.mixing_vat, units::us_gallon), 0.05);
  });
}

void oxygen_checks(const Design& design, const std::string& name, const TankKind& kind, Collector& checks) {
  const structure::TankShell tank = shell(design, kind);
  const Stock& stock = design.stock;
  const auto fish = stock.fish.find(name);
  const Area surface = structure::inside_area(tank);
  const MassFlow consumption = farm::oxygen_consumption(
      {.coral_area = double(slots_per_tank(design, kind)) * stock.mean_fragment_area,
       .coral_rate = stock.dark_respiration,
       .fish_mass = fish == stock.fish.end() ? Mass() : double(fish->second.count) * fish->second.mass,
       .fish_rate = stock.fish_oxygen_use,
       .film = stock.film_oxygen_use * si(surface / stock.film_reference_area)});
  const Density saturation = farm::oxygen_saturation(design.site.water.temperature, design.site.water.salinity);
  if (stock.kL.empty()) throw InvalidInput("stock.kL", "an empty list", "at least one gas transfer velocity");
  const Velocity still = *std::min_element(stock.kL.begin(), stock.kL.end());
  for (const Time& cut : stock.power_cuts) {
    checks.add("farm: tank " + name + " oxygen, " + text(in(cut, units::hour), "h") + " without power", [&] {
      return farm::oxygen_check("tank " + name + ", still water, every slot filled",
                                {.water = structure::water_volume(tank),
                                 .surface = surface,
                                 .transfer = still,
                                 .saturation = saturation,
                                 .consumption = consumption},
                                saturation, stock.oxygen_limit, cut);
    });
  }
}

void stock_checks(const Design& design, Collector& checks) {
  const Stock& stock = design.stock;
  for (const auto& [name, kind] : design.tanks.kinds) oxygen_checks(design, name, kind, checks);
  checks.add("farm: quarantine places", [&] {
    std::vector<farm::GenerationPoint> points;
    for (const PestGeneration& point : stock.quarantine.generation) points.push_back({point.temperature, point.time});
    return farm::quarantine_check(stock.quarantine.arrivals,
                                  farm::generation_time(points, design.site.water.temperature), stock.quarantine.slots);
  });
  if (stock.grazers_A && stock.lit_surface_A)
    checks.add("farm: tank A grazers", [&] {
      return farm::grazer_check(
          "tank A", farm::grazing(*stock.lit_surface_A, stock.algae, stock.grazers_A->count, stock.grazer_takes));
    });
  if (design.production.rotation.fallow_tanks == 0) return;
  checks.add("farm: stock fits the fallow tank", [&] {
    std::vector<long> slots;
    std::vector<std::string> names;
    for (const auto& [name, kind] : design.tanks.kinds) {
      slots.insert(slots.end(), kind.names.size(), slots_per_tank(design, kind));
      names.insert(names.end(), kind.names.begin(), kind.names.end());
    }
    const farm::RotationFit worst =
        farm::worst_move(slots, design.production.rotation.fallow_tanks, design.production.occupancy);
    Check check = farm::rotation_fit_check(worst);
    check.where = "from " + names[std::size_t(worst.from)] + " to " + names[std::size_t(worst.to)];
    return check;
  });
}

}  // namespace

std::vector<Check> farm_checks(const Design& design) {
  validate(design);
  Collector checks;
  for (const auto& [name, kind] : design.tanks.kinds) people_checks(design, "tank " + name, kind, checks);
  room_checks(design, checks);
  work_checks(design, checks);
  electrical_checks(design, checks);
  chemistry_checks(design, checks);
  stock_checks(design, checks);
  checks.add("farm: cost per fragment", [&] {
    // Growth figures vary by a factor of 1.5 either way, and with them the yield and the cost of each fragment.
    return farm::cost_check(economics(design), design.money.price, 0.5);
  });
  return checks.take();
}

}  // namespace theca::study
