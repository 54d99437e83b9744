// The heat loss of one tank as a table: the films, walls and evaporation of tank_balance, solved once and looked up in
// nanoseconds, with a checked bound on the error.
#pragma once

#include <memory>

#include "theca/thermal/balance.hpp"
#include "theca/units.hpp"

namespace theca::thermal {

namespace detail {
struct LossData;
}

/// The states that a table covers, ends included. A pair of equal ends is a state that does not change.
struct LossRange {
  Temperature water_low{}, water_high{};  ///< 9 to 38 degC: under that the models of evaporation change
  Temperature room_low{}, room_high{};    ///< air of the room
  TemperatureDifference surroundings_low{}, surroundings_high{};  ///< mean radiant temperature less that of the air
  RelativeHumidity humidity_low = RelativeHumidity(0.0), humidity_high = RelativeHumidity(0.0);
};

/// Loss and evaporation of a tank over a range of water and room states.
///
/// Two parts, each over three variables: what needs no humidity (walls, base, lid, radiation) over water less air, air,
/// and surroundings less air; evaporation and convection over water, air and humidity, with knots drawn together where
/// the air over the water is as heavy as that of the room and the film is not smooth. Cubic between the knots; knots
/// are added until the error is within the bound. Where a model of evaporation enters or leaves its range (see
/// in_fitted_range) the loss has a step: the table has one too at the limits of room temperature and humidity.
struct LossTable {
  LossRange range{};
  /// Largest error of loss against tank_balance at 2000 states off the knots, half of them crowded about neutral air
  /// (down to 1e-5 K from it, and not nearer).
  Power error{};
  TemperatureDifference temperature_error{};  ///< the same as a difference in water temperature, see loss_table
  std::shared_ptr<const detail::LossData> data = nullptr;

  /// Out of the water positive.  @throws InvalidInput  a state outside the range
  Power loss(const Temperature& water, const Room& room) const;
  /// @throws InvalidInput  a state outside the range
  MassFlow evaporation(const Temperature& water, const Room& room) const;
};

/// @param air    air speeds and pressure; its temperatures and humidity are not asked, `range` says them
/// @param bound  on the error, as the difference in water temperature that changes the loss as much, from the mean
///               slope of loss over `range`: water left to itself settles that far off at most; > 0
/// @throws InvalidInput  a bad field of tank, range or air; what tank_balance throws over the range; NotConverged  the
///         bound is not met with the knots allowed
LossTable loss_table(const TankSurfaces& tank, AbsoluteSalinity salinity, const Room& air, const LossRange& range,
                     const TemperatureDifference& bound = from_si<TemperatureDifference>(5e-3));

}  // namespace theca::thermal
