#include "theca/farm/layout.hpp"

#include <algorithm>
#include <cmath>

#include "theca/require.hpp"

namespace theca::farm {

Fit fit_across(std::span<const Strip> strips, const Length& room_width) {
  require::positive("room width", room_width);
  require::that(!strips.empty(), "number of strips", 0.0, "at least 1");
  Length used = from_si<Length>(0.0);
  for (const Strip& strip : strips) {
    require::positive("width of strip '" + strip.name + "'", strip.width);
    used += strip.width;
  }
  return {used, room_width, room_width - used};
}

Strip narrowest_aisle(std::span<const Strip> strips) {
  const Strip* narrowest = nullptr;
  for (const Strip& strip : strips) {
    require::positive("width of strip '" + strip.name + "'", strip.width);
    if (strip.kind == StripKind::aisle && (narrowest == nullptr || strip.width < narrowest->width)) narrowest = &strip;
  }
  require::that(narrowest != nullptr, "number of aisles", 0.0, "at least 1");
  return *narrowest;
}

namespace {
void require_line(const Length& tank_length, const Length& gap, const Length& end_aisles, const Length& room_length) {
  require::positive("tank length", tank_length);
  require::not_negative("gap", gap);
  require::not_negative("end aisles", end_aisles);
  require::positive("room length", room_length);
}
}  // namespace

Fit fit_along(int tanks, const Length& tank_length, const Length& gap, const Length& end_aisles_together,
              const Length& room_length) {
  require_line(tank_length, gap, end_aisles_together, room_length);
  require::that(tanks >= 1, "tanks", tanks, ">= 1");
  const double count = tanks;
  const Length used = count * tank_length + (count - 1.0) * gap + end_aisles_together;
  return {used, room_length, room_length - used};
}

int most_tanks_along(const Length& tank_length, const Length& gap, const Length& end_aisles_together,
                     const Length& room_length) {
  require_line(tank_length, gap, end_aisles_together, room_length);
  const double room = si(room_length - end_aisles_together + gap) / si(tank_length + gap);
  // Lengths that add up exactly in inches miss by a last digit in metres.
  const double count = std::max(0.0, std::floor(room + 1e-9));
  require::that(count <= 1e6, "tank length", tank_length, "long enough that at most a million fit in the room");
  return static_cast<int>(count);
}

PerArea slots_per_floor_area(long slots, const Area& floor) {
  require::that(slots >= 0, "slots", static_cast<double>(slots), ">= 0");
  require::positive("floor area", floor);
  return static_cast<double>(slots) / floor;
}

double footprint_share(const Area& footprints, const Area& floor) {
  require::not_negative("footprints", footprints);
  require::positive("floor area", floor);
  require::that(footprints <= floor, "footprints", footprints, "at most the floor, " + text(floor));
  return footprints / floor;
}

}  // namespace theca::farm
