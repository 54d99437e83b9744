// The keys of a design, written down once: the reader and the writer of design files and the Python binding all walk
// these descriptions, so that none of them can forget a field.
//
// `fields(visit, s)` calls, for each field in the order of the file,
//     visit("key", s.member, limit)                  a key that must be there, unless the member is a std::optional
//     visit("key", s.member, limit, may_be_absent)   a list that may be missing, then it is empty
//     visit.rest("a kind of tank", s.member, limit)  every key that has not been named; always last
// where the limit holds for each number inside the member. `s` may be const.
#pragma once

#include <array>
#include <concepts>
#include <limits>
#include <string_view>
#include <type_traits>

#include "theca/study/design.hpp"

namespace theca::study::schema {

// ---- limits ---------------------------------------------------------------------------------------------------------

/// The number that a limit is compared with: the SI value, or the ratio.
template <class T>
constexpr double magnitude(const T& x) {
  if constexpr (std::is_arithmetic_v<T>) return static_cast<double>(x);
  if constexpr (requires { x.value(); }) return x.value();
  if constexpr (std::same_as<T, RelativeHumidity>) return x.ratio;
  if constexpr (std::same_as<T, PracticalSalinity>) return x.value;
}

/// What a field accepts. NaN and infinity are never accepted.
struct Limit {
  enum class Kind { any, positive, not_negative, within, positive_up_to };
  Kind kind = Kind::any;
  double low = 0.0, high = 0.0;  ///< for `within`, as magnitudes; `positive_up_to` has the second only

  template <class T>
  constexpr bool accepts(const T& x) const {
    const double m = magnitude(x);
    constexpr double most = std::numeric_limits<double>::max();
    switch (kind) {
      case Kind::positive:
        return m > 0.0 && m <= most;
      case Kind::not_negative:
        return m >= 0.0 && m <= most;
      case Kind::within:
        return m >= low && m <= high;
      case Kind::positive_up_to:
        return m > 0.0 && m <= high;
      case Kind::any:
        break;
    }
    return m >= -most && m <= most;
  }
};
inline constexpr Limit any{};
inline constexpr Limit positive{.kind = Limit::Kind::positive};
inline constexpr Limit not_negative{.kind = Limit::Kind::not_negative};
template <class T>
constexpr Limit within(const T& low, const T& high) {
  return {.kind = Limit::Kind::within, .low = magnitude(low), .high = magnitude(high)};
}
template <class T>
constexpr Limit positive_up_to(const T& high) {
  return {.kind = Limit::Kind::positive_up_to, .high = magnitude(high)};
}
inline constexpr Limit share = within(0.0, 1.0);
// Wide enough for every inhabited place and every room in which water neither freezes nor scalds.
inline constexpr Limit air_temperature = within(celsius(-60.0), celsius(60.0));
inline constexpr Limit water_temperature = within(celsius(0.0), celsius(40.0));

enum class Presence { required, optional };
inline constexpr Presence may_be_absent = Presence::optional;

// ---- how a structure is written -------------------------------------------------------------------------------------

enum class Form {
  table,         ///< { a = ..., b = ... } or [a.table]
  list,          ///< [a, b]: the fields in order
  list_or_last,  ///< [count, b], or b alone for one of it
  text           ///< one string, e.g. "18 in x 6 in"
};
template <class T>
inline constexpr Form form = Form::table;
template <class Q>
inline constexpr Form form<Range<Q>> = Form::list;
template <>
inline constexpr Form form<Animals> = Form::list;
template <>
inline constexpr Form form<PumpPoint> = Form::list;
template <>
inline constexpr Form form<EfficiencyPoint> = Form::list;
template <>
inline constexpr Form form<PestGeneration> = Form::list;
template <>
inline constexpr Form form<LightGrid> = Form::list;
template <>
inline constexpr Form form<Fitting> = Form::list_or_last;
template <>
inline constexpr Form form<CapitalItem> = Form::list_or_last;
template <>
inline constexpr Form form<PlanSize> = Form::text;
template <>
inline constexpr Form form<Strip> = Form::text;
template <>
inline constexpr Form form<SpanFraction> = Form::text;
template <>
inline constexpr Form form<GlassVariant> = Form::text;

// ---- words ----------------------------------------------------------------------------------------------------------

template <class E>
struct Choice {
  E value;
  std::string_view word;
};
/// The words of an enumeration.
template <class E>
inline constexpr std::array<Choice<E>, 0> choices{};
template <>
inline constexpr auto choices<FloorKind> =
    std::to_array<Choice<FloorKind>>({{FloorKind::slab_on_grade, "slab on grade"},
                                      {FloorKind::suspended_concrete, "suspended concrete"},
                                      {FloorKind::timber, "timber"}});
template <>
inline constexpr auto choices<TopEdge> = std::to_array<Choice<TopEdge>>({{TopEdge::rimless, "rimless"},
                                                                         {TopEdge::held, "held top edge"}});
template <>
inline constexpr auto choices<CrossBracePlace> = std::to_array<Choice<CrossBracePlace>>({{CrossBracePlace::mid_length,
                                                                                          "mid length"}});
template <>
inline constexpr auto choices<BaseSupport> = std::to_array<Choice<BaseSupport>>(
    {{BaseSupport::closed_cell_foam, "closed-cell foam"}, {BaseSupport::perimeter, "perimeter"}});
template <>
inline constexpr auto choices<Interpolation> = std::to_array<Choice<Interpolation>>({{Interpolation::linear,
                                                                                      "linear"}});
template <>
inline constexpr auto choices<Discharge> = std::to_array<Choice<Discharge>>({{Discharge::at_tank_level,
                                                                              "at tank level"}});
template <>
inline constexpr auto choices<LightPosition> =
    std::to_array<Choice<LightPosition>>({{LightPosition::long_centre_line, "long centre line, evenly spaced"}});
template <>
inline constexpr auto choices<DosingSalt> =
    std::to_array<Choice<DosingSalt>>({{DosingSalt::sodium_hydrogen_carbonate, "NaHCO3"},
                                       {DosingSalt::sodium_carbonate, "Na2CO3"},
                                       {DosingSalt::calcium_chloride_dihydrate, "CaCl2.2H2O"}});

// ---- fields ---------------------------------------------------------------------------------------------------------

/// S is T or const T.
template <class S, class T>
concept Is = std::same_as<std::remove_const_t<S>, T>;

template <class S>
inline constexpr bool is_range = false;
template <class Q>
inline constexpr bool is_range<Range<Q>> = true;
/// `limit` holds for both ends.
template <class V, class S>
requires is_range<std::remove_const_t<S>>
void fields(V&& visit, S& s, const Limit& limit = any) {
  visit("low", s.low, limit);
  visit("high", s.high, limit);
}
template <class V, Is<PlanSize> S>
void fields(V&& visit, S& s) {
  visit("length", s.length, positive);
  visit("width", s.width, positive);
}
template <class V, Is<Strip> S>
void fields(V&& visit, S& s) {
  visit("tag", s.tag, any);
  visit("width", s.width, positive);
}
template <class V, Is<Fitting> S>
void fields(V&& visit, S& s) {
  visit("count", s.count, positive);
  visit("K", s.K, not_negative);
}
template <class V, Is<Animals> S>
void fields(V&& visit, S& s) {
  visit("count", s.count, not_negative);
  visit("mass", s.mass, positive);
}
template <class V, Is<CapitalItem> S>
void fields(V&& visit, S& s) {
  visit("count", s.count, not_negative);
  visit("price", s.price, not_negative);
}
template <class V, Is<PumpPoint> S>
void fields(V&& visit, S& s) {
  visit("flow", s.flow, not_negative);
  visit("head", s.head, not_negative);
}
template <class V, Is<EfficiencyPoint> S>
void fields(V&& visit, S& s) {
  visit("flow", s.flow, not_negative);
  visit("efficiency", s.efficiency, share);
}
template <class V, Is<PestGeneration> S>
void fields(V&& visit, S& s) {
  visit("temperature", s.temperature, water_temperature);
  visit("time", s.time, positive);
}
template <class V, Is<SpanFraction> S>
void fields(V&& visit, S& s) {
  visit("divisor", s.divisor, positive);
}
template <class V, Is<GlassVariant> S>
void fields(V&& visit, S& s) {
  visit("thickness", s.thickness, positive);
  visit("top_edge", s.top_edge, any);
}
template <class V, Is<LightGrid> S>
void fields(V&& visit, S& s) {
  visit("along_length", s.along_length, within(1, 1000));
  visit("along_width", s.along_width, within(1, 1000));
}

template <class V, Is<AirState> S>
void fields(V&& visit, S& s) {
  visit("temperature", s.temperature, air_temperature);
  visit("relative_humidity", s.relative_humidity, share);
}
template <class V, Is<Water> S>
void fields(V&& visit, S& s) {
  visit("salinity", s.salinity, within(2.0, 42.0));  // the range of the practical salinity scale
  visit("temperature", s.temperature, water_temperature);
  visit("kinematic_viscosity", s.kinematic_viscosity, positive);
}
template <class V, Is<Outside> S>
void fields(V&& visit, S& s) {
  visit("winter", s.winter, any);
  visit("summer", s.summer, any);
}
template <class V, Is<Site> S>
void fields(V&& visit, S& s) {
  visit("name", s.name, any);
  visit("place", s.place, any);
  visit("air_pressure", s.air_pressure, within(from_si<AbsolutePressure>(50e3), from_si<AbsolutePressure>(110e3)));
  visit("gravity", s.gravity, positive);
  visit("S_DS", s.S_DS, not_negative);
  visit("S_D1", s.S_D1, not_negative);
  visit("importance", s.importance, positive);
  visit("scraping_stroke_rate", s.scraping_stroke_rate, positive);
  visit("water", s.water, any);
  visit("outside", s.outside, any);
}

template <class V, Is<Window> S>
void fields(V&& visit, S& s) {
  visit("U", s.U, positive);
  visit("inside_film_R", s.inside_film_R, positive);
}
template <class V, Is<Dehumidifier> S>
void fields(V&& visit, S& s) {
  visit("removal", s.removal, not_negative);
  visit("power", s.power, not_negative);
  visit("installed", s.installed, not_negative);
  visit("budgeted", s.budgeted, not_negative);
}
template <class V, Is<Hall> S>
void fields(V&& visit, S& s) {
  visit("length", s.length, positive);
  visit("width", s.width, positive);
  visit("height", s.height, positive);
  visit("floor", s.floor, any);
  visit("live_load", s.live_load, positive);
  visit("ventilation", s.ventilation, not_negative);
  visit("air_speed_at_surface", s.air_speed_at_surface, not_negative);
  visit("winter", s.winter, any);
  visit("summer", s.summer, any);
  visit("summer_hot", s.summer_hot, any);
  visit("humidity_limit", s.humidity_limit, share);
  visit("window", s.window, any);
  visit("dehumidifier", s.dehumidifier, any);
}
template <class V, Is<ServiceRoom> S>
void fields(V&& visit, S& s) {
  visit("length", s.length, positive);
  visit("width", s.width, positive);
  visit("floor", s.floor, any);
  visit("floor_below_hall", s.floor_below_hall, not_negative);
  visit("live_load", s.live_load, positive);
  visit("winter", s.winter, air_temperature);
  visit("summer", s.summer, air_temperature);
  visit("summer_hot", s.summer_hot, air_temperature);
}
template <class V, Is<Layout> S>
void fields(V&& visit, S& s) {
  visit("across_width", s.across_width, any);
  visit("rows", s.rows, any);
  visit("gap_between_tanks", s.gap_between_tanks, not_negative);
  visit("end_aisle_west", s.end_aisle_west, not_negative);
  visit("min_aisle", s.min_aisle, positive);
  visit("accessible_aisle", s.accessible_aisle, positive);
  visit("min_headroom", s.min_headroom, positive);
}
template <class V, Is<Rooms> S>
void fields(V&& visit, S& s) {
  visit("hall", s.hall, any);
  visit("service", s.service, any);
  visit("layout", s.layout, any);
}

template <class V, Is<RimBrace> S>
void fields(V&& visit, S& s) {
  visit("width", s.width, positive);
  visit("thickness", s.thickness, positive);
  visit("design_thickness", s.design_thickness, positive);
}
template <class V, Is<CrossBrace> S>
void fields(V&& visit, S& s) {
  visit("width", s.width, positive);
  visit("at", s.at, any);
}
template <class V, Is<Weir> S>
void fields(V&& visit, S& s) {
  visit("length", s.length, positive);
  visit("crest", s.crest, positive);
}
template <class V, Is<EmergencyDrain> S>
void fields(V&& visit, S& s) {
  visit("bore", s.bore, positive);
  visit("rim", s.rim, positive);
  visit("highest_level", s.highest_level, positive);
}
template <class V, Is<TankKind> S>
void fields(V&& visit, S& s) {
  visit("names", s.names, any);
  visit("outside_length", s.outside_length, positive);
  visit("outside_width", s.outside_width, positive);
  visit("outside_height", s.outside_height, positive);
  visit("glass_nominal", s.glass_nominal, positive);
  visit("glass_design", s.glass_design, positive);
  visit("glass_base", s.glass_base, positive);
  visit("water_depth", s.water_depth, positive);
  visit("rim_brace", s.rim_brace, any);
  visit("rim_brace_variant", s.rim_brace_variant, any);
  visit("cross_brace_variant", s.cross_brace_variant, any);
  visit("joint_bite", s.joint_bite, positive);
  visit("stand_height", s.stand_height, not_negative);
  visit("stand_mass", s.stand_mass, not_negative);
  visit("load_mass", s.load_mass, not_negative);
  visit("legs", s.legs, positive);
  visit("leg_plate", s.leg_plate, any);
  visit("support", s.support, any);
  visit("tilt", s.tilt, within(0.0, 0.05));
  visit("open_sides", s.open_sides, within(1, 2));
  visit("rack_plane", s.rack_plane, not_negative);
  visit("weir", s.weir, any);
  visit("main_drain_bore", s.main_drain_bore, positive);
  visit("emergency_drain", s.emergency_drain, any);
  visit("circulation_pumps", s.circulation_pumps, not_negative);
  visit("glass_variants", s.glass_variants, any, may_be_absent);
}
template <class V, Is<Glass> S>
void fields(V&& visit, S& s) {
  visit("E", s.E, positive);
  visit("poisson", s.poisson, within(0.0, 0.49));  // 0.5 has no finite plate solution with transverse shear
  visit("density", s.density, positive);
  visit("strength", s.strength, positive_up_to(120.0 * units::megapascal));  // characteristic, toughened: EN 12150-1
  visit("load_factor", s.load_factor, within(1.0, 10.0));
  visit("deflection_limit", s.deflection_limit, any);
}
template <class V, Is<Joint> S>
void fields(V&& visit, S& s) {
  visit("allowable_short_term", s.allowable_short_term, positive);
  visit("allowable_permanent", s.allowable_permanent, positive);
  visit("thickness", s.thickness, positive);
  visit("E", s.E, positive);
}
template <class V, Is<TwoTierVariant> S>
void fields(V&& visit, S& s) {
  visit("rack_planes_above_floor", s.rack_planes_above_floor, positive);
}
template <class V, Is<Tanks> S>
void fields(V&& visit, S& s) {
  visit("glass", s.glass, any);
  visit("joint", s.joint, any);
  visit("two_tier_variant", s.two_tier_variant, any);
  visit.rest("a kind of tank", s.kinds, any);
}

template <class V, Is<Sump> S>
void fields(V&& visit, S& s) {
  visit("outside_length", s.outside_length, positive);
  visit("outside_width", s.outside_width, positive);
  visit("outside_height", s.outside_height, positive);
  visit("wall", s.wall, positive);
  visit("base", s.base, positive);
  visit("plinth", s.plinth, not_negative);
  visit("running_depth", s.running_depth, positive);
  visit("intake_centre", s.intake_centre, not_negative);
  visit("highest_depth", s.highest_depth, positive);
  visit("pump_draws_air_below", s.pump_draws_air_below, not_negative);
  visit("dry_mass", s.dry_mass, positive);
  visit("cover", s.cover, any);
  visit("UA", s.UA, not_negative);
}
template <class V, Is<CirculationPump> S>
void fields(V&& visit, S& s) {
  visit("flow", s.flow, positive);
  visit("power", s.power, not_negative);
  visit("outlet_diameter", s.outlet_diameter, positive);
  visit("target", s.target, not_negative);
  visit("target_distance", s.target_distance, positive);
}
template <class V, Is<Pump> S>
void fields(V&& visit, S& s) {
  visit("curve", s.curve, any);
  visit("interpolation", s.interpolation, any);
  visit("power", s.power, positive);
  visit("share_to_water", s.share_to_water, share);
  visit("intake_bore", s.intake_bore, positive);
  visit("intake_bell_variant", s.intake_bell_variant, positive);
  visit("best_efficiency_flow", s.best_efficiency_flow, positive);
  visit("allowable_region", s.allowable_region, positive);
  visit("npsh_required", s.npsh_required, any, may_be_absent);
  visit("efficiency", s.efficiency, any, may_be_absent);
  visit("circulation", s.circulation, any);
}
template <class V, Is<MainPipe> S>
void fields(V&& visit, S& s) {
  visit("bore", s.bore, positive);
  visit("length_suction", s.length_suction, not_negative);
  visit("length", s.length, not_negative);
  visit("K", s.K, any);
  visit("K_suction", s.K_suction, not_negative);
  visit("wall", s.wall, positive);
  visit("pressure_rating", s.pressure_rating, positive);
  visit("bore_variant", s.bore_variant, positive);
}
template <class V, Is<HeaderPipe> S>
void fields(V&& visit, S& s) {
  visit("bore", s.bore, positive);
  visit("bore_variant", s.bore_variant, positive);
  visit("spacing", s.spacing, positive);
  visit("K_tee_run", s.K_tee_run, not_negative);
  visit("K", s.K, any);
  visit("to_first_branch", s.to_first_branch, not_negative);
}
template <class V, Is<BranchPipe> S>
void fields(V&& visit, S& s) {
  visit("bore", s.bore, positive);
  visit("length", s.length, positive);
  visit("K", s.K, any);
}
template <class V, Is<PipeContent> S>
void fields(V&& visit, S& s) {
  visit("drains", s.drains, not_negative);
  visit("per_length", s.per_length, positive);
  visit("counted_length", s.counted_length, not_negative);
}
template <class V, Is<GravityMain> S>
void fields(V&& visit, S& s) {
  visit("bore", s.bore, positive);
  visit("length", s.length, positive);
  visit("slope", s.slope, positive_up_to(from_si<Ratio>(0.1)));  // steeper, Manning's formula does not hold
  visit("start_above_hall_floor", s.start_above_hall_floor, any);
  visit("manning_n", s.manning_n, within(0.006, 0.03));
}
template <class V, Is<Pipes> S>
void fields(V&& visit, S& s) {
  visit("roughness", s.roughness, not_negative);
  visit("velocity_limit", s.velocity_limit, positive);
  visit("balance_limit", s.balance_limit, share);
  visit("discharge", s.discharge, any);
  visit("outlet_below_surface", s.outlet_below_surface, not_negative);
  visit("main", s.main, any);
  visit("header", s.header, any);
  visit("branch", s.branch, any);
  visit("content", s.content, any);
  visit("gravity_main", s.gravity_main, any);
}

template <class V, Is<LightProposal> S>
void fields(V&& visit, S& s) {
  visit("per_tank", s.per_tank, positive);
  visit("mounting_height", s.mounting_height, positive);
}
template <class V, Is<Lights> S>
void fields(V&& visit, S& s) {
  visit("power", s.power, positive);
  visit("aperture", s.aperture, any);
  visit("angle", s.angle, within(from_si<Angle>(0.0), 180.0 * units::degree));
  visit("intensity", s.intensity, not_negative);
  visit("PPF", s.PPF, positive);
  visit("photoperiod", s.photoperiod, within(from_si<Time>(0.0), 1.0 * units::day));
  visit("ageing_factor", s.ageing_factor, positive_up_to(1.0));
  visit("water_attenuation", s.water_attenuation, not_negative);
  visit("water_index", s.water_index, within(1.0, 2.0));
  visit("position", s.position, any);
  visit("grid", s.grid, any);
  visit("target_mean", s.target_mean, not_negative);
  visit("target_min_over_mean", s.target_min_over_mean, share);
  visit("target_max", s.target_max, positive);
  visit("share_to_water", s.share_to_water, share);
  visit("wall_reflectance_variant", s.wall_reflectance_variant, share);
  visit("proposals", s.proposals, any);
}
template <class V, Is<Heat> S>
void fields(V&& visit, S& s) {
  visit("glass_k", s.glass_k, positive);
  visit("film_inside", s.film_inside, positive);
  visit("film_outside", s.film_outside, positive);
  visit("base_U", s.base_U, not_negative);
  visit("surface_emissivity", s.surface_emissivity, share);
  visit("vapour_pressure_lowering", s.vapour_pressure_lowering, share);
  visit("evaporation_activity", s.evaporation_activity, share);
  visit("heaters", s.heaters, not_negative);
  visit("chiller", s.chiller, not_negative);
}
template <class V, Is<Electricity> S>
void fields(V&& visit, S& s) {
  visit("voltage", s.voltage, positive);
  visit("lighting_circuits", s.lighting_circuits, positive);
  visit("lighting_circuits_variant", s.lighting_circuits_variant, positive);
  visit("breaker", s.breaker, positive);
  visit("continuous_factor", s.continuous_factor, within(1.0, 10.0));
  visit("misc_power", s.misc_power, not_negative);
}

template <class V, Is<Quarantine> S>
void fields(V&& visit, S& s) {
  visit("slots", s.slots, not_negative);
  visit("arrivals", s.arrivals, not_negative);
  visit("generation", s.generation, any);
  visit("temperatures", s.temperatures, water_temperature);
}
template <class V, Is<Stock> S>
void fields(V&& visit, S& s) {
  visit("slot_pitch", s.slot_pitch, positive);
  visit("usable_rack_share", s.usable_rack_share, share);
  visit("mean_fragment_area", s.mean_fragment_area, positive);
  visit("calcification", s.calcification, not_negative);
  visit("dark_respiration", s.dark_respiration, not_negative);
  visit("fish_oxygen_use", s.fish_oxygen_use, not_negative);
  visit("film_oxygen_use", s.film_oxygen_use, not_negative);
  visit("film_reference_area", s.film_reference_area, positive);
  visit("oxygen_limit", s.oxygen_limit, not_negative);
  visit("kL", s.kL, not_negative);
  visit("power_cuts", s.power_cuts, positive);
  visit("grazers_A", s.grazers_A, any);
  visit("lit_surface_A", s.lit_surface_A, positive);
  visit("algae", s.algae, not_negative);
  visit("grazer_takes", s.grazer_takes, positive);
  visit("fish", s.fish, any);
  visit("quarantine", s.quarantine, any);
}
template <class V, Is<Chemistry> S>
void fields(V&& visit, S& s) {
  visit("alkalinity", s.alkalinity, positive);
  visit("calcium", s.calcium, within(0.0, 0.01));
  visit("magnesium", s.magnesium, within(0.0, 0.01));
  visit("alkalinity_swing_limit", s.alkalinity_swing_limit, positive);
  visit("dosing", s.dosing, any);
  visit("dosing_failure", s.dosing_failure, positive);
  visit("water_change", s.water_change, not_negative);
  visit("make_up_available", s.make_up_available, not_negative);
  visit("mixing_vat", s.mixing_vat, positive);
}
template <class V, Is<Rotation> S>
void fields(V&& visit, S& s) {
  visit("fallow_tanks", s.fallow_tanks, not_negative);
  visit("move_interval", s.move_interval, positive);
  visit("time_per_move", s.time_per_move, not_negative);
  visit("reset_renews_water", s.reset_renews_water, any);
  visit("pest_loss_without", s.pest_loss_without, share);
  visit("pest_loss_with", s.pest_loss_with, share);
  visit("pest_growth", s.pest_growth, not_negative);
  visit("pest_transfer", s.pest_transfer, not_negative);
}
template <class V, Is<Production> S>
void fields(V&& visit, S& s) {
  visit("cut_area", s.cut_area, positive);
  visit("sale_area", s.sale_area, positive);
  visit("growth_rate", s.growth_rate, positive);
  visit("healing", s.healing, not_negative);
  visit("occupancy", s.occupancy, positive_up_to(1.0));
  visit("survival", s.survival, positive_up_to(1.0));
  visit("unsold", s.unsold, share);
  visit("rotation", s.rotation, any);
}

template <class V, Is<Coupling> S>
void fields(V&& visit, S& s) {
  visit("origin", s.origin, share);
  visit("destination", s.destination, share);
}
template <class V, Is<Lift> S>
void fields(V&& visit, S& s) {
  visit("bucket", s.bucket, positive);
  visit("bucket_mass", s.bucket_mass, not_negative);
  visit("from", s.from, not_negative);
  visit("to", s.to, not_negative);
  visit("reach_origin", s.reach_origin, positive);
  visit("reach_destination", s.reach_destination, positive);
  visit("coupling", s.coupling, any);
  visit("frequency_factor", s.frequency_factor, share);
}
template <class V, Is<Labour> S>
void fields(V&& visit, S& s) {
  visit("cut", s.cut, not_negative);
  visit("pack", s.pack, not_negative);
  visit("scrape", s.scrape, not_negative);
  visit("inspect", s.inspect, not_negative);
  visit("test_and_dose", s.test_and_dose, not_negative);
  visit("feed", s.feed, not_negative);
  visit("water_change", s.water_change, not_negative);
  visit("quarantine", s.quarantine, not_negative);
  visit("equipment", s.equipment, not_negative);
  visit("hired", s.hired, not_negative);
  visit("wage", s.wage, not_negative);
  visit("utilisation_limit", s.utilisation_limit, share);
  visit("lift", s.lift, any);
}
template <class V, Is<Capital> S>
void fields(V&& visit, S& s) {
  visit("contingency", s.contingency, share);
  visit("life", s.life, positive);
  visit("discount_rate", s.discount_rate, share);
  visit.rest("a capital item", s.items, any);
}
template <class V, Is<Levers> S>
void fields(V&& visit, S& s) {
  visit("slot_pitch", s.slot_pitch, positive);
  visit("price", s.price, not_negative);
}
template <class V, Is<MoneyPlan> S>
void fields(V&& visit, S& s) {
  visit("price", s.price, not_negative);
  visit("electricity", s.electricity, not_negative);
  visit("lights_as", s.lights_as, any);
  visit("heating", s.heating, not_negative);
  visit("chiller", s.chiller, not_negative);
  visit("dehumidifier_duty", s.dehumidifier_duty, share);
  visit("rent", s.rent, not_negative);
  visit("rent_area", s.rent_area, not_negative);
  visit("salt_water", s.salt_water, not_negative);
  visit("feed_and_chemicals", s.feed_and_chemicals, not_negative);
  visit("plug", s.plug, not_negative);
  visit("capital", s.capital, any);
  visit("levers", s.levers, any);
}
template <class V, Is<Body> S>
void fields(V&& visit, S& s) {
  visit("stature", s.stature, positive);
  visit("shoulder", s.shoulder, positive);
  visit("elbow", s.elbow, positive);
  visit("forward_grip_reach", s.forward_grip_reach, positive);
  visit("shoulder_grip", s.shoulder_grip, positive);
}
template <class V, Is<Workers> S>
void fields(V&& visit, S& s) {
  visit("footwear", s.footwear, not_negative);
  visit("shoulder_stand_off", s.shoulder_stand_off, positive);
  visit("light_work_below_elbow", s.light_work_below_elbow, any);
  visit.rest("a worker's body", s.bodies, any);
}
template <class V, Is<Design> S>
void fields(V&& visit, S& s) {
  visit("site", s.site, any);
  visit("rooms", s.rooms, any);
  visit("tanks", s.tanks, any);
  visit("sump", s.sump, any);
  visit("pump", s.pump, any);
  visit("pipes", s.pipes, any);
  visit("lights", s.lights, any);
  visit("heat", s.heat, any);
  visit("electricity", s.electricity, any);
  visit("stock", s.stock, any);
  visit("chemistry", s.chemistry, any);
  visit("production", s.production, any);
  visit("labour", s.labour, any);
  visit("money", s.money, any);
  visit("workers", s.workers, any);
}

}  // namespace theca::study::schema
