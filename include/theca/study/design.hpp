// A whole farm as one plain structure: what the input file says, with every quantity typed. Names are the file's keys.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "theca/units.hpp"

namespace theca::study {

/// A ratio that the file states with a unit ("420 ppm", "0.25 in/ft", "11 min/week"); ratios that the file states as
/// bare numbers are `double`.
using Ratio = Quantity<unit::none>;

// ---- small values that the file writes as one string or one short list ----------------------------------------------

/// Two limits of one quantity, low <= high: ["10 cm/s", "25 cm/s"].
template <class Q>
struct Range {
  Q low{}, high{};
  bool operator==(const Range&) const = default;
};

/// A rectangle in plan: "18 in x 6 in".
struct PlanSize {
  Length length{}, width{};
  bool operator==(const PlanSize&) const = default;
};

/// A strip of floor across the room: "aisle 48 in".
struct Strip {
  std::string tag;  ///< "aisle", a row of the layout, or a kind of tank that stands against the wall
  Length width{};
  bool operator==(const Strip&) const = default;
};

/// Fittings of one kind in a pipe: a bare loss coefficient is one of them, [5, 0.54] are five.
struct Fitting {
  int count = 1;
  double K = 0.0;
  bool operator==(const Fitting&) const = default;
};

/// Animals of one kind in a tank: [5, "50 g"].
struct Animals {
  int count = 0;
  Mass mass{};  ///< each
  bool operator==(const Animals&) const = default;
};

/// Things bought: a bare price is one of them, [10, "980 USD"] are ten.
struct CapitalItem {
  int count = 1;
  Money price{};  ///< each
  bool operator==(const CapitalItem&) const = default;
};

/// A point of a pump curve: ["2000 gph", "29.4 ft"].
struct PumpPoint {
  VolumeFlow flow{};
  Length head{};
  bool operator==(const PumpPoint&) const = default;
};

/// A point of a pump's efficiency: ["2000 gph", 0.17].
struct EfficiencyPoint {
  VolumeFlow flow{};
  double efficiency = 0.0;  ///< power given to the water over electrical power drawn
  bool operator==(const EfficiencyPoint&) const = default;
};

/// Generation time of a pest at a temperature: ["24 degC", "64 d"].
struct PestGeneration {
  Temperature temperature{};
  Time time{};
  bool operator==(const PestGeneration&) const = default;
};

/// A deflection limit as a fraction of the panel's length: "length/200".
struct SpanFraction {
  double divisor = 0.0;
  bool operator==(const SpanFraction&) const = default;
};

enum class TopEdge {
  rimless,  ///< free
  held      ///< held along its length
};

/// A glass to try instead: "rimless", "6.5 mm rimless", "6.5 mm held top edge".
struct GlassVariant {
  std::optional<Length> thickness;  ///< without one, the tank's own
  TopEdge top_edge = TopEdge::rimless;
  bool operator==(const GlassVariant&) const = default;
};

/// Cells of the inside area at whose centres light is computed: [24, 8].
struct LightGrid {
  int along_length = 0, along_width = 0;
  bool operator==(const LightGrid&) const = default;
};

// ---- site -----------------------------------------------------------------------------------------------------------

struct AirState {
  Temperature temperature{};
  RelativeHumidity relative_humidity{0.0};
  bool operator==(const AirState&) const = default;
};

struct Water {
  PracticalSalinity salinity{0.0};
  Temperature temperature{};
  KinematicViscosity kinematic_viscosity{};
  bool operator==(const Water&) const = default;
};

struct Outside {
  AirState winter, summer;
  bool operator==(const Outside&) const = default;
};

struct Site {
  std::string name, place;
  AbsolutePressure air_pressure{};
  Acceleration gravity{};
  double S_DS = 0.0;  ///< design spectral response acceleration at short periods, in g
  double S_D1 = 0.0;  ///< the same at 1 s
  double importance = 0.0;
  Frequency scraping_stroke_rate{};  ///< across the tank width
  Water water;
  Outside outside;
  bool operator==(const Site&) const = default;
};

// ---- rooms ----------------------------------------------------------------------------------------------------------

enum class FloorKind { slab_on_grade, suspended_concrete, timber };

struct Window {
  ThermalTransmittance U{};
  ThermalResistance inside_film_R{};
  bool operator==(const Window&) const = default;
};

struct Dehumidifier {
  VolumeFlow removal{};  ///< liquid water, each
  Power power{};         ///< each
  int installed = 0;
  int budgeted = 0;
  bool operator==(const Dehumidifier&) const = default;
};

struct Hall {
  Length length{}, width{}, height{};
  FloorKind floor = FloorKind::slab_on_grade;
  Pressure live_load{};
  Frequency ventilation{};  ///< air changes
  Velocity air_speed_at_surface{};
  AirState winter, summer;
  std::optional<AirState> summer_hot;
  RelativeHumidity humidity_limit{0.0};
  Window window;
  Dehumidifier dehumidifier;
  bool operator==(const Hall&) const = default;
};

struct ServiceRoom {
  Length length{}, width{};
  FloorKind floor = FloorKind::slab_on_grade;
  Length floor_below_hall{};
  Pressure live_load{};
  Temperature winter{}, summer{};
  std::optional<Temperature> summer_hot;
  bool operator==(const ServiceRoom&) const = default;
};

struct Layout {
  std::vector<Strip> across_width;                       ///< from the north wall
  std::map<std::string, std::vector<std::string>> rows;  ///< tank names of each row, from the west end
  Length gap_between_tanks{};
  Length end_aisle_west{};  ///< all rows start here
  Length min_aisle{}, accessible_aisle{}, min_headroom{};
  bool operator==(const Layout&) const = default;
};

struct Rooms {
  Hall hall;
  ServiceRoom service;
  Layout layout;
  bool operator==(const Rooms&) const = default;
};

// ---- tanks ----------------------------------------------------------------------------------------------------------

struct RimBrace {
  Length width{};
  Length thickness{};         ///< nominal
  Length design_thickness{};  ///< the least that the nominal thickness may have
  bool operator==(const RimBrace&) const = default;
};

enum class CrossBracePlace { mid_length };

struct CrossBrace {
  Length width{};
  CrossBracePlace at = CrossBracePlace::mid_length;
  bool operator==(const CrossBrace&) const = default;
};

enum class BaseSupport { closed_cell_foam, perimeter };

struct Weir {
  Length length{};
  Length crest{};  ///< above the inside base
  bool operator==(const Weir&) const = default;
};

struct EmergencyDrain {
  Length bore{};
  Length rim{};            ///< above the inside base
  Length highest_level{};  ///< that the overflow box may rise to, above the inside base
  bool operator==(const EmergencyDrain&) const = default;
};

/// Tanks that are alike. Heights of levels are above the inside base.
struct TankKind {
  std::vector<std::string> names;  ///< of the tanks of this kind
  Length outside_length{}, outside_width{};
  Length outside_height{};  ///< over all, base included
  Length glass_nominal{};
  Length glass_design{};  ///< the least thickness that the nominal may have
  Length glass_base{};
  Length water_depth{};
  std::optional<RimBrace> rim_brace;  ///< all round, its top flush with the wall top
  std::optional<RimBrace> rim_brace_variant;
  std::optional<CrossBrace> cross_brace_variant;
  Length joint_bite{};
  Length stand_height{};
  Mass stand_mass{};
  Mass load_mass{};  ///< racks and stock
  int legs = 0;
  PlanSize leg_plate;
  BaseSupport support = BaseSupport::closed_cell_foam;
  std::optional<Ratio>
      tilt;            ///< along the length, as measured by a spirit level on the worst of them: rise over length
  int open_sides = 0;  ///< long sides from which people work
  Length rack_plane{};
  Weir weir;
  Length main_drain_bore{};
  std::optional<EmergencyDrain> emergency_drain;
  int circulation_pumps = 0;
  std::vector<GlassVariant> glass_variants;
  bool operator==(const TankKind&) const = default;
};

struct Glass {
  Pressure E{};
  double poisson = 0.0;
  Density density{};
  Pressure strength{};  ///< for the permanent load
  double load_factor = 0.0;
  SpanFraction deflection_limit;
  bool operator==(const Glass&) const = default;
};

struct Joint {
  Pressure allowable_short_term{}, allowable_permanent{};
  std::optional<Length> thickness;  ///< of the bead, between the panes
  std::optional<Pressure> E;        ///< of the adhesive, for a load that stays
  bool operator==(const Joint&) const = default;
};

struct TwoTierVariant {
  std::vector<Length> rack_planes_above_floor;
  bool operator==(const TwoTierVariant&) const = default;
};

struct Tanks {
  std::map<std::string, TankKind> kinds;  ///< every other table of [tanks], e.g. [tanks.A]
  Glass glass;
  Joint joint;
  std::optional<TwoTierVariant> two_tier_variant;
  bool operator==(const Tanks&) const = default;
};

// ---- sump, pump, pipes ----------------------------------------------------------------------------------------------

struct Sump {
  Length outside_length{}, outside_width{}, outside_height{};
  Length wall{}, base{};  ///< thicknesses
  Length plinth{};        ///< height
  Length running_depth{};
  Length intake_centre{};  ///< above the inside base
  Length highest_depth{};
  Length pump_draws_air_below{};
  Mass dry_mass{};  ///< sump, pump, fittings
  bool cover = false;
  ThermalConductance UA{};
  bool operator==(const Sump&) const = default;
};

enum class Interpolation { linear };

/// The circulation pumps in the tanks, all alike; how many is said by the kind of tank.
struct CirculationPump {
  VolumeFlow flow{};
  Power power{};
  Length outlet_diameter{};
  Range<Velocity> target;
  Length target_distance{};
  bool operator==(const CirculationPump&) const = default;
};

/// The return pump.
struct Pump {
  std::vector<PumpPoint> curve;
  Interpolation interpolation = Interpolation::linear;
  Power power{};
  double share_to_water = 0.0;
  Length intake_bore{};
  std::optional<Length> intake_bell_variant;
  std::optional<VolumeFlow> best_efficiency_flow;  ///< without one, the best of `efficiency`
  std::optional<Range<double>> allowable_region;   ///< of the maker, as shares of the flow of best efficiency
  std::vector<PumpPoint> npsh_required;            ///< head is the required NPSH
  std::vector<EfficiencyPoint> efficiency;
  CirculationPump circulation;
  bool operator==(const Pump&) const = default;
};

/// Suction and main, to the junction of the headers.
struct MainPipe {
  Length bore{};
  Length length_suction{};
  Length length{};  ///< of the main, without the suction
  std::map<std::string, Fitting> K;
  std::optional<double> K_suction;          ///< the part of K before the pump
  std::optional<Length> wall;               ///< thickness; rigid PVC
  std::optional<Pressure> pressure_rating;  ///< of its weakest part, at the water's temperature
  std::optional<Length> bore_variant;
  bool operator==(const MainPipe&) const = default;
};

/// The headers, one for each row of the layout.
struct HeaderPipe {
  Length bore{};
  std::optional<Length> bore_variant;
  Length spacing{};  ///< between branches
  std::map<std::string, Fitting> K;
  double K_tee_run = 0.0;  ///< for each segment
  std::map<std::string, Length> to_first_branch;
  bool operator==(const HeaderPipe&) const = default;
};

/// The branches, one for each tank.
struct BranchPipe {
  Length bore{};
  Length length{};
  std::map<std::string, Fitting> K;
  bool operator==(const BranchPipe&) const = default;
};

/// What the pipes hold, by bore: the length that drains back when the pump stops.
struct PipeContent {
  std::map<Length, Area> per_length;  ///< volume per length
  std::map<Length, Length> counted_length;
  Volume drains{};
  bool operator==(const PipeContent&) const = default;
};

struct GravityMain {
  Length bore{};
  Length length{};
  Ratio slope{};
  Length start_above_hall_floor{};
  double manning_n = 0.0;  ///< in s/m^(1/3)
  bool operator==(const GravityMain&) const = default;
};

enum class Discharge { at_tank_level };

struct Pipes {
  Length roughness{};
  Velocity velocity_limit{};
  double balance_limit = 0.0;  ///< either way from the mean
  Discharge discharge = Discharge::at_tank_level;
  Length outlet_below_surface{};  ///< no siphon break
  MainPipe main;
  HeaderPipe header;
  BranchPipe branch;
  PipeContent content;
  GravityMain gravity_main;
  bool operator==(const Pipes&) const = default;
};

// ---- lights, heat, electricity --------------------------------------------------------------------------------------

enum class LightPosition { long_centre_line };  ///< evenly spaced

struct LightProposal {
  int per_tank = 0;
  Length mounting_height{};  ///< fixture aperture to water surface
  bool operator==(const LightProposal&) const = default;
};

struct Lights {
  Power power{};  ///< per fixture
  PlanSize aperture;
  std::vector<Angle> angle;                ///< from straight down
  std::vector<PhotonIntensity> intensity;  ///< at `angle`, linear between; bare numbers in the file are umol/s/sr
  PhotonFlux PPF{};
  Time photoperiod{};  ///< per day
  double ageing_factor = 0.0;
  Attenuation water_attenuation{};
  double water_index = 0.0;
  LightPosition position = LightPosition::long_centre_line;
  LightGrid grid;
  Range<PhotonFluxDensity> target_mean;
  double target_min_over_mean = 0.0;
  PhotonFluxDensity target_max{};
  double share_to_water = 0.0;  ///< of the electrical input
  std::optional<double> wall_reflectance_variant;
  std::map<std::string, LightProposal> proposals;
  bool operator==(const Lights&) const = default;
};

struct Heat {
  ThermalConductivity glass_k{};
  ThermalTransmittance film_inside{}, film_outside{}, base_U{};
  double surface_emissivity = 0.0;
  double vapour_pressure_lowering = 0.0;
  double evaporation_activity = 0.0;
  Power heaters{}, chiller{};
  bool operator==(const Heat&) const = default;
};

struct Electricity {
  Voltage voltage{};  ///< of the lighting circuits
  int lighting_circuits = 0;
  std::optional<int> lighting_circuits_variant;
  Current breaker{};
  double continuous_factor = 0.0;
  Power misc_power{};
  bool operator==(const Electricity&) const = default;
};

// ---- stock, chemistry, production -----------------------------------------------------------------------------------

struct Quarantine {
  int slots = 0;
  Frequency arrivals{};
  std::vector<PestGeneration> generation;  ///< linear between
  std::vector<Temperature> temperatures;   ///< to try
  bool operator==(const Quarantine&) const = default;
};

struct Stock {
  Length slot_pitch{};
  double usable_rack_share = 0.0;  ///< of the inside area
  Area mean_fragment_area{};
  MassFlux calcification{};             ///< CaCO3
  MolarFlux dark_respiration{};         ///< O2
  std::map<std::string, Animals> fish;  ///< per tank, by kind of tank
  SpecificMassFlow fish_oxygen_use{};   ///< mass of O2 per mass of fish and time
  MassFlow film_oxygen_use{};           ///< O2, for `film_reference_area`
  Area film_reference_area{};           ///< of tank surface
  Density oxygen_limit{};
  std::vector<Velocity> kL;           ///< gas transfer velocities to try
  std::vector<Time> power_cuts;       ///< to try
  std::optional<Animals> grazers_A;   ///< per tank of kind A
  std::optional<Area> lit_surface_A;  ///< per tank of kind A
  MassFlux algae{};                   ///< carbon
  MassFlow grazer_takes{};            ///< carbon, each
  Quarantine quarantine;
  bool operator==(const Stock&) const = default;
};

enum class DosingSalt {
  sodium_hydrogen_carbonate,  ///< NaHCO3
  sodium_carbonate,           ///< Na2CO3
  calcium_chloride_dihydrate  ///< CaCl2.2H2O
};

struct Chemistry {
  Concentration alkalinity{};              ///< in equivalents
  Ratio calcium{}, magnesium{};            ///< by mass
  Concentration alkalinity_swing_limit{};  ///< in a day
  std::vector<DosingSalt> dosing;
  Time dosing_failure{};
  Frequency water_change{};
  VolumeFlow make_up_available{};
  Volume mixing_vat{};
  bool operator==(const Chemistry&) const = default;
};

struct Rotation {
  int fallow_tanks = 0;
  Time move_interval{};
  Time time_per_move{};  ///< of work
  bool reset_renews_water = false;
  double pest_loss_without = 0.0, pest_loss_with = 0.0;
  Frequency pest_growth{};
  std::vector<Frequency> pest_transfer;  ///< to try
  bool operator==(const Rotation&) const = default;
};

struct Production {
  Area cut_area{}, sale_area{};
  Frequency growth_rate{};  ///< of ln(area)
  Time healing{};
  double occupancy = 0.0, survival = 0.0, unsold = 0.0;
  Rotation rotation;
  bool operator==(const Production&) const = default;
};

// ---- labour, money, workers -----------------------------------------------------------------------------------------

struct Coupling {
  double origin = 0.0, destination = 0.0;
  bool operator==(const Coupling&) const = default;
};

struct Lift {
  Volume bucket{};
  Mass bucket_mass{};   ///< empty
  Length from{}, to{};  ///< heights of the hands
  Length reach_origin{}, reach_destination{};
  Coupling coupling;
  double frequency_factor = 0.0;
  bool operator==(const Lift&) const = default;
};

/// Ratios here are working time per calendar time: "11 min/week".
struct Labour {
  Time cut{};                 ///< per fragment cut
  Time pack{};                ///< per fragment sold
  Ratio scrape{}, inspect{};  ///< per stocked tank
  Ratio test_and_dose{}, feed{}, water_change{}, quarantine{}, equipment{};
  Ratio hired{};
  MoneyRate wage{};  ///< per working time
  double utilisation_limit = 0.0;
  Lift lift;
  bool operator==(const Labour&) const = default;
};

struct Capital {
  std::map<std::string, CapitalItem> items;  ///< every other key of [money.capital]
  double contingency = 0.0;
  Time life{};
  double discount_rate = 0.0;  ///< per year
  bool operator==(const Capital&) const = default;
};

struct Levers {
  std::optional<Length> slot_pitch;
  std::optional<Money> price;
  bool operator==(const Levers&) const = default;
};

struct MoneyPlan {
  Money price{};  ///< of a fragment sold
  EnergyPrice electricity{};
  std::string lights_as;           ///< which of the light proposals is paid for
  Power heating{}, chiller{};      ///< electrical energy per time: "10500 kWh/year"
  double dehumidifier_duty = 0.0;  ///< of the budgeted units
  Rent rent{};
  Area rent_area{};
  VolumePrice salt_water{};
  MoneyRate feed_and_chemicals{};
  Money plug{};  ///< per fragment
  Capital capital;
  std::optional<Levers> levers;
  bool operator==(const MoneyPlan&) const = default;
};

struct Body {
  Length stature{}, shoulder{}, elbow{}, forward_grip_reach{}, shoulder_grip{};  ///< unshod
  bool operator==(const Body&) const = default;
};

struct Workers {
  Length footwear{};
  Length shoulder_stand_off{};         ///< from the tank face
  std::map<std::string, Body> bodies;  ///< every other table of [workers], e.g. female_5
  Range<Length> light_work_below_elbow;
  bool operator==(const Workers&) const = default;
};

// ---- the whole ------------------------------------------------------------------------------------------------------

/// Every value is read, held to its limits and compared with the others (theca/study/validate.hpp). These are stated
/// for the reader and for comparing designs, but no check of `assess` depends on them yet:
///   site.place; rooms.hall.floor, rooms.service.floor, .length and .width; rooms.layout.min_headroom
///   tanks: rim_brace_variant, cross_brace_variant, glass_variants (see structure_variant_checks), two_tier_variant
///   sump.cover; pump.intake_bell_variant
///   pipes.main.bore_variant, pipes.header.bore_variant, pipes.gravity_main.length and .start_above_hall_floor
///   lights.PPF (it must agree with the table of intensities, which is used)
///   heat.vapour_pressure_lowering (computed from the salinity instead)
///   electricity.lighting_circuits_variant; stock.quarantine.temperatures
///   chemistry.calcium, .magnesium and .dosing
///   production.rotation.pest_loss_without, .pest_loss_with, .pest_growth and .pest_transfer; money.levers
/// pump.interpolation, pipes.discharge and lights.position have one choice each, which the checks take.
struct Design {
  Site site;
  Rooms rooms;
  Tanks tanks;
  Sump sump;
  Pump pump;
  Pipes pipes;
  Lights lights;
  Heat heat;
  Electricity electricity;
  Stock stock;
  Chemistry chemistry;
  Production production;
  Labour labour;
  MoneyPlan money;
  Workers workers;
  bool operator==(const Design&) const = default;
};

}  // namespace theca::study
