#include "batch_curves.hpp"

#include <algorithm>

namespace theca::thermal::detail {

RoomState PlannedRoom::at(double time) const {
  if (air.size() == 1) return {air[0], surroundings_less_air[0], humidity[0]};
  const double x = time / interval;
  const std::size_t i = std::min(static_cast<std::size_t>(x), air.size() - 2);
  const double way = std::min(x - double(i), 1.0);
  const auto between = [&](const std::vector<double>& v) { return v[i] + way * (v[i + 1] - v[i]); };
  return {between(air), between(surroundings_less_air), between(humidity)};
}

std::vector<CurveBlock> make_curves(const BatchPlan& plan, std::size_t first, std::size_t last) {
  std::vector<CurveBlock> curves(plan.curves.size());
  for (std::size_t body = plan.systems[first].first; body <= plan.systems[last - 1].sump; ++body) {
    CurveBlock& c = curves[plan.curve[body]];
    if (c.used) continue;
    c.used = true;
    c.grid = plan.tables[plan.curves[plan.curve[body]].table].data->grid;
    c.neutral.resize(std::size_t(block_steps) + 1);
    c.pieces.resize((std::size_t(block_steps) + 1) * std::size_t(c.grid.count));
  }
  return curves;
}

void fill(const BatchPlan& plan, long first_step, long steps, std::vector<CurveBlock>& curves) {
  for (std::size_t i = 0; i < curves.size(); ++i) {
    CurveBlock& c = curves[i];
    if (!c.used) continue;
    const LossData& data = *plan.tables[plan.curves[i].table].data;
    const PlannedRoom& room = plan.rooms[plan.curves[i].room];
    for (long n = 0; n <= steps; ++n)
      c.neutral[std::size_t(n)] = collapse(data, room.at(double(first_step + n) * plan.step), c.low, c.high,
                                           c.pieces.data() + std::size_t(n) * std::size_t(c.grid.count))
                                      .neutral;
  }
}

}  // namespace theca::thermal::detail
