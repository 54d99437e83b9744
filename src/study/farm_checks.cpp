#include <algorithm>

#include "collector.hpp"
#include "theca/seawater.hpp"
#include "theca/study/assessment.hpp"
#include "theca/study/parts.hpp"

namespace theca::study {
namespace {

/// The smallest and the tallest of the people stated.
struct People {
  std::string smallest, tallest;
};
People extremes(const Design& design) {
  const auto& bodies = design.workers.bodies;
  if (bodies.empty()) throw InvalidInput("workers", "no body", "body dimensions of at least one person");
  const auto [low, high] = std::minmax_element(
      bodies.begin(), bodies.end(), [](const auto& a, const auto& b) { return a.second.stature < b.second.stature; });
  return {low->first, high->first};
}

void people_checks(const Design& design, const std::string& tank, const TankKind& kind, const People& people,
                   Collector& checks) {
  const structure::TankShell tank_shell = shell(design, kind);
  const Length inside_base = kind.stand_height + kind.glass_base;
  const Length rim = kind.stand_height + kind.outside_height;
  const Length rack = inside_base + kind.rack_plane;
  const farm::RackSection section{.outside_width = kind.outside_width,
                                  .wall_thickness = kind.glass_nominal,
                                  .rim_height = rim,
                                  .rim_brace_width = kind.rim_brace ? kind.rim_brace->width : Length(),
                                  .plane_height = rack};
  const farm::OpenSides sides = kind.open_sides >= 2 ? farm::OpenSides::both : farm::OpenSides::one;
  const farm::Stance stance{.shoulder_stand_off = design.workers.shoulder_stand_off};
  const farm::Body small = body(design, people.smallest), tall = body(design, people.tallest);
  checks.add("farm: " + tank + " reach, trunk nearly upright", [&] {
    return farm::reach_check(tank + ", " + people.smallest, small, section, sides, stance, farm::trunk_bend_unlimited);
  });
  checks.add("farm: " + tank + " reach, trunk bent", [&] {
    return farm::reach_check(tank + ", " + people.smallest, small, section, sides, stance, farm::trunk_bend_most);
  });
  checks.add("farm: " + tank + " work height",
             [&] { return farm::work_height_check(tank + ", " + people.smallest, small, rack, farm::WorkKind::light); });
  const LightProposal& proposal = light_proposal(design, design.money.lights_as);
  checks.add("farm: " + tank + " head clearance", [&] {
    return farm::head_clearance_check(
        tank + ", " + people.tallest, tall,
        farm::fixture_height(kind.stand_height, kind.glass_base + kind.water_depth, proposal.mounting_height));
  });
}

void room_checks(const Design& design, Collector& checks) {
  const Layout& layout = design.rooms.layout;
  std::vector<farm::Strip> strips;
  for (const Strip& strip : layout.across_width)
    strips.push_back({strip.tag == "aisle" ? farm::StripKind::aisle : farm::StripKind::tanks, strip.width, strip.tag});
  checks.add("farm: narrowest aisle, exit access",
             [&] { return farm::aisle_check(farm::narrowest_aisle(strips), layout.min_aisle); });
  checks.add("farm: narrowest aisle, accessible",
             [&] { return farm::aisle_check(farm::narrowest_aisle(strips), layout.accessible_aisle); });
  checks.add("farm: rows across the hall",
             [&] { return farm::room_fit_check("hall width", farm::fit_across(strips, design.rooms.hall.width)); });
  std::size_t longest_row = 0;
  for (const auto& [row, names] : layout.rows) longest_row = std::max(longest_row, names.size());
  Length longest_tank;
  for (const auto& [name, kind] : design.tanks.kinds) longest_tank = std::max(longest_tank, kind.outside_length);
  checks.add("farm: longest row along the hall", [&] {
    return farm::room_fit_check("hall length, " + std::to_string(longest_row) + " tanks",
                                farm::fit_along(int(longest_row), longest_tank, layout.gap_between_tanks,
                                                layout.end_aisle_west + layout.min_aisle, design.rooms.hall.length));
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
  const Power lights = double(stocked_tanks(design)) * double(light_proposal(design, design.money.lights_as).per_tank) *
                       design.lights.power;
  checks.add("farm: lighting circuits", [&] {
    return farm::circuit_check(std::to_string(electricity.lighting_circuits) + " lighting circuits, equal shares",
                               {.continuous = lights / double(electricity.lighting_circuits)}, electricity.voltage,
                               electricity.breaker);
  });
}

void chemistry_checks(const Design& design, Collector& checks) {
  const farm::MineralDemand demand =
      farm::mineral_demand(double(all_slots(design)) * design.stock.mean_fragment_area, design.stock.calcification);
  checks.add("farm: alkalinity swing", [&] {
    return farm::alkalinity_swing_check("whole system, every slot filled", demand, system_volume(design),
                                        units::day.size, design.chemistry.alkalinity_swing_limit);
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
    return farm::quarantine_check(stock.quarantine.arrivals, design.site.water.temperature, stock.quarantine.slots);
  });
  if (stock.grazers_A && stock.lit_surface_A)
    checks.add("farm: tank A grazers", [&] {
      return farm::grazer_check(
          "tank A", farm::grazing(*stock.lit_surface_A, stock.algae, stock.grazers_A->count, stock.grazer_takes));
    });
  checks.add("farm: stock fits the fallow tank", [&] {
    std::vector<long> slots;
    for (const auto& [name, kind] : design.tanks.kinds)
      slots.insert(slots.end(), kind.names.size(), slots_per_tank(design, kind));
    return farm::rotation_fit_check(
        farm::worst_move(slots, design.production.rotation.fallow_tanks, design.production.occupancy));
  });
}

}  // namespace

std::vector<Check> farm_checks(const Design& design) {
  Collector checks;
  const People people = extremes(design);
  for (const auto& [name, kind] : design.tanks.kinds) people_checks(design, "tank " + name, kind, people, checks);
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
