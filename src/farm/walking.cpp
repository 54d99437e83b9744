#include "theca/farm/walking.hpp"

#include <string>

#include "theca/require.hpp"

namespace theca::farm {

WalkingRound walking_round(std::span<const Length> aisles, std::span<const Length> between, bool back,
                           const Velocity& pace) {
  require::that(!aisles.empty(), "number of aisles", 0.0, "1 or more");
  require::that(between.size() + 1 == aisles.size(), "number of ways between aisles",
                static_cast<double>(between.size()), std::to_string(aisles.size() - 1) + ", one fewer than aisles");
  require::positive("pace", pace);
  Length along{}, across{};
  for (const Length& aisle : aisles) {
    require::positive("length of an aisle", aisle);
    along += aisle;
  }
  for (const Length& way : between) {
    require::not_negative("way between aisles", way);
    across += way;
  }
  WalkingRound round{.distance = along + across, .time = {}};
  if (back) round.distance += across + (aisles.size() % 2 == 1 ? aisles.back() : Length());
  round.time = round.distance / pace;
  return round;
}

}  // namespace theca::farm
