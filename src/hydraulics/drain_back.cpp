#include "theca/hydraulics/drain_back.hpp"

#include <algorithm>

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

}  // namespace theca::hydraulics
