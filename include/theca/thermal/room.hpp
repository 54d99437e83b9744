// The hall that tanks stand in: moisture and heat together, with ventilation, dehumidifier, people, equipment and the
// hall's own walls. What the tanks evaporate raises the hall's humidity, and that holds their evaporation back.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "theca/thermal/balance.hpp"
#include "theca/thermal/humidity.hpp"
#include "theca/units.hpp"

namespace theca::thermal {

/// Wall, window, ceiling or floor of a hall.
struct HallSurface {
  std::string name{};
  Area area{};                      ///< > 0
  ThermalTransmittance U{};         ///< > 0, air to air, or air to ground
  ThermalResistance inside_film{};  ///< > 0, U x inside_film < 1. ISO 13788:2012 takes 0.13 m2 K/W for panes and
                                    ///< frames, and 0.25 for other surfaces where mould is judged (from memory)
  Temperature beyond{};             ///< outside air, ground, the room next door
};

/// A dehumidifier that condenses: it gives its electricity and the heat of condensation to the hall.
struct HallDryer {
  MassFlow removal{};  ///< while it runs, in the hall's air, >= 0
  Power power{};       ///< electricity while it runs, >= 0
  /// Given: it runs as much as this humidity asks for. Not given: always.
  std::optional<RelativeHumidity> set_point = std::nullopt;
};

/// People at light work in the hall.
struct HallPeople {
  double count = 0.0;                     ///< on average, >= 0
  Power sensible = from_si<Power>(75.0);  ///< each: standing, light work (ASHRAE Fundamentals 2017, ch. 18, table 1;
                                          ///< from memory)
  Power latent = from_si<Power>(55.0);    ///< each, as above
};

/// A hall with tanks, and all that warms, cools, moistens and dries it.
struct TankHall {
  Volume volume{};           ///< of air, > 0
  Frequency infiltration{};  ///< outside air through leaks, per volume, >= 0
  VolumeFlow fan{};          ///< outside air by fan, >= 0; its electricity stands among the equipment
  air::MoistAir outside;     ///< its pressure holds inside too
  std::vector<HallSurface> surfaces = {};
  TankSystem tanks{};
  Water water;                                     ///< held at this temperature by heaters and chiller
  Velocity air_speed{}, wall_air_speed{};          ///< as in Room
  std::optional<Temperature> held = std::nullopt;  ///< the hall's own heating and cooling hold its air at this; not
                                                   ///< given: its temperature is found
  Power heating{};                                 ///< into the hall where its temperature is found; negative: cooling
  HallDryer dryer{};
  HallPeople people{};
  std::vector<HeatGain> equipment =
      {};  ///< their share to the room counts; lights and pumps of the tanks stand in `tanks`
  /// Of a chiller that stands in the hall: heat taken from the water over electricity, > 0; it gives off both. Not
  /// given: its heat goes elsewhere.
  std::optional<double> chiller_performance = std::nullopt;
};

/// One way by which a hall's air is warmed; negative: cooled.
struct HallHeat {
  std::string name{};
  Power power{};
};

/// A hall where nothing changes any more.
struct HallState {
  air::MoistAir air;
  Temperature mean_radiant{};                                    ///< of the hall's surfaces, by area
  HeatBalance tanks{};                                           ///< in that air
  MassFlow evaporation{}, from_people{}, ventilated{}, dried{};  ///< the first two come in, the last two go out
  double dryer_duty = 0.0;                                       ///< share of time that it runs
  /// Dry heat: tanks, each of their gains, vapour, people, equipment, dehumidifier, chiller, each surface, ventilation,
  /// heating. They add up to `heat_left`.
  std::vector<HallHeat> heat{};
  Power heating{};    ///< asked for (held) or as given (found); negative: cooling
  Power heat_left{};  ///< what the solution leaves over: rounding, unless a model of evaporation enters or leaves
                      ///< its range just there
  MassFlow moisture_left{};  ///< the same of moisture
};

/// Steady air of a hall: temperature and humidity at which heat and moisture balance.
///
/// Well mixed air, no store in the fabric. Moisture: evaporation + people = ventilation + dehumidifier. Dry heat: as
/// listed in HallState. Both by bracketed roots, one inside the other.
/// @throws InvalidInput   a bad field, named; OutOfValidity  the hall would pass saturation, or the dehumidifier takes
///         more than is supplied even to perfectly dry air, or no temperature from -20 to 45 degC balances;
///         NotConverged
/// @source ASHRAE Handbook Fundamentals 2017, chapter 1 (moist air, adiabatic mixing of moist airstreams), with
/// specific
///         heats 1.006 and 1.86 kJ/kg/K and 2501 kJ/kg of its eq. 30, 4.186 kJ/kg/K of water
HallState steady_hall(const TankHall& hall);

/// A surface towards the hall's air and how near to its dew point it is.
struct SurfaceMoisture {
  std::string name{};
  Condensation air_at;
};

/// Every surface of the hall, and the outer face of every wall of its tanks.
/// @throws as steady_hall
std::vector<SurfaceMoisture> surface_moisture(const TankHall& hall, const HallState& state);

/// Fan's flow of outside air that holds the hall at `limit`, its dryer running as it is set; 0 where none is needed;
/// nothing where 60 air changes an hour are not enough, because the outside is too moist.
/// @throws as steady_hall
std::optional<VolumeFlow> ventilation_for_humidity(const TankHall& hall, RelativeHumidity limit);

/// Removal that holds the hall at `limit`, with as much electricity for each kilogram as its dryer takes; 0 where none
/// is needed.
/// @throws as steady_hall
MassFlow drying_for_humidity(const TankHall& hall, RelativeHumidity limit);

/// Time until the hall's humidity, at a fixed temperature, passes a limit when the dryer has failed: its air fills with
/// what the tanks evaporate. Nothing where it settles below. Fabric that takes moisture up makes it slower.
/// @param from  air at the failure
/// @throws as steady_hall; limit below the humidity at the start
std::optional<Time> time_to_humidity(const TankHall& hall, const air::MoistAir& from, RelativeHumidity limit);

// ---- pipes ----

/// A pipe with cold water through warm, moist air.
struct CoveredPipe {
  Length outside_diameter{};            ///< of the bare pipe, whose wall counts for nothing; > 0
  Length insulation{};                  ///< thickness, >= 0
  ThermalConductivity conductivity{};   ///< of the insulation, > 0; not asked of a bare pipe
  ThermalTransmittance outside_film{};  ///< convection and radiation, > 0; about 8 W/m2/K (common practice, no source)
};

namespace kernel {
/// Temperature of the outer face of an insulated pipe whose water is as warm as its wall.
/// @source composite cylinder, any textbook of heat transfer: ln(r2/r1)/(2 pi k) and 1/(2 pi r2 h) in series
template <class T>
T pipe_face(const T& inner_radius_m, const T& outer_radius_m, const T& conductivity_W_mK, const T& film_W_m2K,
            const T& water_K, const T& room_K) {
  using std::log;
  const T inside = log(outer_radius_m / inner_radius_m) / conductivity_W_mK;
  const T outside = T(1.0) / (outer_radius_m * film_W_m2K);
  return room_K + (water_K - room_K) * outside / (inside + outside);
}
}  // namespace kernel

/// @throws InvalidInput
Temperature pipe_face(const CoveredPipe& pipe, const Temperature& water, const Temperature& room);

/// Thickness of insulation at which the pipe's face is `margin` over the dew point of the room's air; 0 where the bare
/// pipe is; nothing where 0.3 m is not enough.
/// @param margin  >= 0
/// @throws InvalidInput
std::optional<Length> insulation_against_dew(const CoveredPipe& pipe, const Temperature& water,
                                             const air::MoistAir& room, const TemperatureDifference& margin);

// ---- carbon dioxide ----
// Shares of CO2 are by volume: 0.001 is 1000 ppm.

/// CO2 that people breathe out.
/// @param met  activity: 1.2 office work, 2 to 3 work on one's feet with lifting
/// @throws InvalidInput  count negative, met outside 0.8 to 8
/// @source ASHRAE Standard 62.1, appendix on CO2: 0.31 L/min each at 1.2 met, proportional to met (from memory; it
/// gives
///         the 7.5 L/s at 700 ppm over outdoors that ASHRAE's published answers name)
VolumeFlow co2_from_people(double count, double met = 1.2);

/// Share of CO2 that the hall settles at.
/// @throws InvalidInput  fresh air not positive, a share outside 0 to 0.1
/// @source balance of a well mixed room
double steady_co2(const VolumeFlow& generation, const VolumeFlow& fresh_air, double outside = 420e-6);

/// Share of CO2 after a time.
/// @param start  share at time 0
/// @throws InvalidInput  also fresh air negative (0: it rises evenly)
double co2_after(const Volume& hall, double start, const VolumeFlow& generation, const VolumeFlow& fresh_air,
                 const Time& time, double outside = 420e-6);

/// Fresh air that holds a limit.
/// @throws InvalidInput  limit not above the outside
VolumeFlow ventilation_for_co2(const VolumeFlow& generation, double limit, double outside = 420e-6);

}  // namespace theca::thermal
