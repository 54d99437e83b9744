#include "theca/hydraulics/drain_back.hpp"

#include <algorithm>
#include <numeric>

#include "theca/require.hpp"

namespace theca::hydraulics {

Length rest_level_of(const Length& weir_crest, const Length& siphon_break) {
  require::finite("weir crest", weir_crest);
  require::finite("siphon break", siphon_break);
  return std::min(weir_crest, siphon_break);
}

DrainBack drain_back(const std::vector<DrainingTank>& tanks, const Volume& pipes) {
  require::not_negative("content of pipes", pipes);
  double from_tanks = 0.0;
  for (const DrainingTank& t : tanks) {
    require::positive("surface", t.surface);
    require::finite("running level", t.running_level);
    require::not_negative("rest level", t.rest_level);
    require::that(t.rest_level <= t.running_level, "rest level", t.rest_level,
                  "at most the running level, " + text(t.running_level));
    require::that(t.count >= 0, "count", static_cast<double>(t.count), "0 or more");
    from_tanks += t.count * si(t.surface) * (si(t.running_level) - si(t.rest_level));
  }
  return {from_si<Volume>(from_tanks), pipes, from_si<Volume>(from_tanks + si(pipes))};
}

Volume spare_volume(const Area& sump_surface, const Length& running_level, const Length& highest_level) {
  require::positive("sump surface", sump_surface);
  require::not_negative("running level", running_level);
  require::finite("highest level", highest_level);
  require::that(highest_level >= running_level, "highest level", highest_level,
                "at least the running level, " + text(running_level));
  return from_si<Volume>(si(sump_surface) * (si(highest_level) - si(running_level)));
}

Length sump_level_after(const DrainBack& back, const Area& sump_surface, const Length& running_level) {
  require::not_negative("drain-back", back.total);
  require::positive("sump surface", sump_surface);
  require::not_negative("running level", running_level);
  return from_si<Length>(si(running_level) + si(back.total) / si(sump_surface));
}

SiphonBreak siphon_break_for(const std::vector<DrainingTank>& at_crests, const Volume& pipes, const Volume& spare) {
  require::that(!at_crests.empty(), "number of tanks", 0.0, "1 or more");
  require::not_negative("spare volume", spare);
  const DrainBack least = drain_back(at_crests, pipes);
  double room = si(spare) - si(least.total);
  if (room < 0.0)
    throw OutOfValidity("siphon break", "with the tanks at their weir crests " + text(least.total) +
                                            " run back already, " + text(from_si<Volume>(-room)) +
                                            " more than the sump's spare " + text(spare));
  // All levels sink together; a tank stays behind where it is empty, those with low crests first.
  std::vector<std::size_t> order(at_crests.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::sort(order.begin(), order.end(),
            [&](std::size_t a, std::size_t b) { return at_crests[a].rest_level < at_crests[b].rest_level; });
  double sinking = 0.0, depth = 0.0;  // surface of the tanks that still hold water
  for (const DrainingTank& t : at_crests) sinking += t.count * si(t.surface);
  for (const std::size_t i : order) {
    const DrainingTank& t = at_crests[i];
    const double to_floor = sinking * (si(t.rest_level) - depth);
    if (room < to_floor) {
      depth += room / sinking;
      break;
    }
    room -= to_floor;
    depth = si(t.rest_level);
    sinking -= t.count * si(t.surface);
  }
  SiphonBreak result{from_si<Length>(depth), {}};
  for (const DrainingTank& t : at_crests)
    result.levels.push_back(from_si<Length>(std::max(si(t.rest_level) - depth, 0.0)));
  return result;
}

Area sump_surface_for(const DrainBack& back, const Length& running_level, const Length& highest_level, double margin) {
  require::not_negative("drain-back", back.total);
  require::not_negative("margin", margin);
  require::not_negative("running level", running_level);
  require::finite("highest level", highest_level);
  require::that(highest_level > running_level, "highest level", highest_level,
                "above the running level, " + text(running_level));
  return from_si<Area>((1.0 + margin) * si(back.total) / (si(highest_level) - si(running_level)));
}

Length sump_spare_height_for(const DrainBack& back, const Area& sump_surface, double margin) {
  require::not_negative("drain-back", back.total);
  require::not_negative("margin", margin);
  require::positive("sump surface", sump_surface);
  return from_si<Length>((1.0 + margin) * si(back.total) / si(sump_surface));
}

}  // namespace theca::hydraulics
