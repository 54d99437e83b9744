#include "theca/farm/rotation.hpp"

#include <algorithm>
#include <numeric>

#include "theca/require.hpp"

namespace theca::farm {

namespace {
void require_counts(int tanks, int least_fallow, int fallow) {
  require::that(tanks >= 2, "tanks", tanks, ">= 2");
  require::that(fallow >= least_fallow && fallow < tanks, "fallow tanks", fallow,
                std::to_string(least_fallow) + " to one fewer than the tanks, " + std::to_string(tanks - 1));
}
}  // namespace

double capacity_lost(int tanks, int fallow) {
  require_counts(tanks, 0, fallow);
  return static_cast<double>(fallow) / static_cast<double>(tanks);
}

RotationTimes rotation_times(const Rotation& rotation) {
  require_counts(rotation.tanks, 1, rotation.fallow);
  require::positive("interval", rotation.interval);
  const double n = rotation.tanks, k = rotation.fallow;
  return {n * rotation.interval, k * rotation.interval, (n - k) * rotation.interval, 1.0 / rotation.interval};
}

std::vector<RotationStep> play_rotation(std::span<const long> slots, int fallow) {
  require::that(slots.size() <= 1000000, "tanks", static_cast<double>(slots.size()), "at most a million");
  const int tanks = static_cast<int>(slots.size());
  require_counts(tanks, 1, fallow);
  for (const long s : slots) require::that(s >= 0, "slots", static_cast<double>(s), ">= 0");

  const auto slots_of = [&](int place) { return slots[static_cast<std::size_t>(place)]; };
  RotationStep state;
  state.move = 0;
  state.fallow.resize(static_cast<std::size_t>(fallow));
  std::iota(state.fallow.begin(), state.fallow.end(), 0);
  state.stocked_slots = std::accumulate(slots.begin(), slots.end(), 0L);
  for (const int place : state.fallow) state.stocked_slots -= slots_of(place);

  std::vector<RotationStep> steps{state};
  for (int move = 1; move <= tanks; ++move) {
    state.move = move;
    state.moved_to = state.fallow.front();
    state.moved_from = (state.fallow.back() + 1) % tanks;
    state.fallow.erase(state.fallow.begin());
    state.fallow.push_back(state.moved_from);
    state.stocked_slots += slots_of(state.moved_to) - slots_of(state.moved_from);
    steps.push_back(state);
  }
  return steps;
}

RotationFit worst_move(std::span<const long> slots, int fallow, double occupancy) {
  require::within("occupancy", occupancy, 0.0, 1.0);
  const std::vector<RotationStep> steps = play_rotation(slots, fallow);
  RotationFit worst{0.0, 0.0, -1, -1};
  // Compared by surplus, so that a tank without slots needs no special case.
  for (std::size_t i = 1; i < steps.size(); ++i) {
    const double stock = occupancy * static_cast<double>(slots[static_cast<std::size_t>(steps[i].moved_from)]);
    const double room = static_cast<double>(slots[static_cast<std::size_t>(steps[i].moved_to)]);
    if (worst.from < 0 || stock - room > worst.stock - worst.room)
      worst = {stock, room, steps[i].moved_from, steps[i].moved_to};
  }
  return worst;
}

double break_even_loss(double lost, double loss_with) {
  require::within("capacity lost", lost, 0.0, 1.0);
  require::within("pest loss with rotation", loss_with, 0.0, 1.0);
  return 1.0 - (1.0 - lost) * (1.0 - loss_with);
}

double relative_output(double lost, double loss_with, double loss_without) {
  require::within("capacity lost", lost, 0.0, 1.0);
  require::within("pest loss with rotation", loss_with, 0.0, 1.0);
  require::that(loss_without >= 0.0 && loss_without < 1.0, "pest loss without rotation", loss_without, "0 to below 1");
  return (1.0 - lost) * (1.0 - loss_with) / (1.0 - loss_without);
}

}  // namespace theca::farm
