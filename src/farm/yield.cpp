#include "theca/farm/yield.hpp"

#include "theca/require.hpp"

namespace theca::farm {

namespace {
void require_shares(const Production& p) {
  require::within("occupancy", p.occupancy, 0.0, 1.0);
  require::that(p.survival > 0.0 && p.survival <= 1.0, "survival", p.survival, "> 0 to 1");
  require::positive("cycle time", p.cycle_time);
  require::within("unsold share", p.unsold, 0.0, 1.0);
}
}  // namespace

Yield yield(const Production& production) {
  require::not_negative("slots", production.slots);
  require_shares(production);
  const Frequency cut = production.slots * production.occupancy / production.cycle_time;
  const Frequency produced = production.survival * cut;
  return {cut, produced, (1.0 - production.unsold) * produced};
}

double slots_for(const Frequency& sold, const Production& production) {
  require::not_negative("fragments sold", sold);
  require_shares(production);
  const double per_slot = production.occupancy * production.survival * (1.0 - production.unsold);
  require::that(per_slot > 0.0, "occupancy", production.occupancy, "> 0, with an unsold share below 1");
  return sold * production.cycle_time / per_slot;
}

}  // namespace theca::farm
