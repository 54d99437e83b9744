// Does a row plan fit the room: lines of tanks and aisles across it, tanks and gaps along it, slots per floor area.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "theca/units.hpp"

namespace theca::farm {

enum class StripKind { tanks, aisle, clearance };

/// One strip of the floor, counted across the room from wall to wall.
struct Strip {
  StripKind kind;
  Length width;
  std::string name;
};

/// Two things compared: what is asked for and what is there; `spare` is negative when it does not fit.
struct Fit {
  Length used, available, spare;
};

/// Sum of the strips against the width of the room.
/// @throws InvalidInput  no strips, a width not positive
Fit fit_across(std::span<const Strip> strips, const Length& room_width);

/// The narrowest aisle. @throws InvalidInput when there is none
Strip narrowest_aisle(std::span<const Strip> strips);

/// A line of equal tanks along the room, with gaps between them and an aisle at each end.
/// @throws InvalidInput  count < 1, a length negative or not finite
Fit fit_along(int tanks, const Length& tank_length, const Length& gap, const Length& end_aisles_together,
              const Length& room_length);

/// The most equal tanks that one line takes; 0 when not even one fits.
int most_tanks_along(const Length& tank_length, const Length& gap, const Length& end_aisles_together,
                     const Length& room_length);

/// Slots per area of floor. @throws InvalidInput  slots negative, area not positive
PerArea slots_per_floor_area(long slots, const Area& floor);

/// Share of the floor that stands under tanks. @throws InvalidInput  more than the floor
double footprint_share(const Area& footprints, const Area& floor);

/// Narrowest exit access. @source 29 CFR 1910.36(g)(2)
inline constexpr Length exit_access_width = 28.0 * units::inch;
/// Clear width of an accessible route. @source ADA Standards for Accessible Design 2010, 403.5.1
inline constexpr Length accessible_width = 36.0 * units::inch;

}  // namespace theca::farm
