#include "theca/farm/dosing_drift.hpp"

#include <cmath>

#include "theca/require.hpp"
#include "theca/seawater/range.hpp"

namespace theca::farm {
namespace {

/// dA/dt = rate - decay x A
struct Linear {
  double rate, decay;
  double after(double start, double time) const {
    const double x = decay * time;
    return start * std::exp(-x) + rate * (decay > 0.0 ? -std::expm1(-x) / decay : time);
  }
};

Linear alkalinity_law(const DosedWater& w) {
  require::positive("water", w.water);
  require::not_negative("demand", w.demand);
  require::not_negative("dose", w.dose);
  require::positive("reference alkalinity", w.reference);
  require::not_negative("threshold alkalinity", w.threshold);
  require::that(w.threshold < w.reference, "threshold alkalinity", w.threshold,
                "below the reference, " + text(w.reference));
  const double per_alkalinity = si(w.demand) / si(w.reference - w.threshold) / si(w.water);
  return {si(w.dose) / si(w.water) + per_alkalinity * si(w.threshold), per_alkalinity};
}

AbsoluteSalinity checked(double grams_per_kg) {
  require::valid("salinity of seawater", "salinity in g/kg", grams_per_kg, seawater::lowest_salinity.grams_per_kg,
                 seawater::highest_salinity.grams_per_kg);
  return AbsoluteSalinity(grams_per_kg);
}

void require_salinity(std::string_view name, AbsoluteSalinity s) {
  require::within(name, s, seawater::lowest_salinity, seawater::highest_salinity);
}

}  // namespace

Concentration alkalinity_after(const DosedWater& water, const Concentration& start, const Time& time) {
  const Linear law = alkalinity_law(water);
  require::that(start >= water.threshold && std::isfinite(si(start)), "alkalinity at the start", start,
                "at least the threshold, " + text(water.threshold));
  require::not_negative("time", time);
  return from_si<Concentration>(law.after(si(start), si(time)));
}

std::optional<Time> time_to_alkalinity(const DosedWater& water, const Concentration& start,
                                       const Concentration& limit) {
  const Linear law = alkalinity_law(water);
  require::that(start >= water.threshold && std::isfinite(si(start)), "alkalinity at the start", start,
                "at least the threshold, " + text(water.threshold));
  require::not_negative("alkalinity limit", limit);
  const double way = si(limit) - si(start);
  if (way == 0.0) return from_si<Time>(0.0);
  const double speed = law.rate - law.decay * si(start);
  if (!(way * speed > 0.0)) return {};  // it moves the other way, or not at all
  if (law.decay == 0.0) return from_si<Time>(way / speed);
  const double share = law.decay * way / speed;  // of the way to where it settles
  if (share >= 1.0) return {};
  return from_si<Time>(-std::log1p(-share) / law.decay);
}

MassFlow salt_left_by_dosing(const MineralDemand& demand) {
  require::not_negative("calcium carbonate", demand.calcium_carbonate);
  constexpr MolarMass sodium_chloride = (22.990 + 35.45) * units::gram_per_mole;
  return demand.calcium_carbonate * (2.0 * si(sodium_chloride / calcium_carbonate_molar_mass));
}

AbsoluteSalinity salinity_after(const SaltBalance& balance, AbsoluteSalinity start, const Time& time) {
  require::positive("water", balance.water);
  require::not_negative("salt in", balance.salt_in);
  require::not_negative("water lost", balance.water_lost);
  require::not_negative("renewal", balance.renewal);
  require_salinity("salinity of the new water", balance.new_water);
  require_salinity("salinity at the start", start);
  require::not_negative("time", time);
  const double mass = si(balance.water), renewal = si(balance.renewal);
  const Linear law{1e3 * si(balance.salt_in) / mass + renewal * balance.new_water.grams_per_kg,
                   si(balance.water_lost) / mass + renewal};
  return checked(law.after(start.grams_per_kg, si(time)));
}

AbsoluteSalinity salinity_after_top_up(AbsoluteSalinity start, double surplus) {
  require_salinity("salinity at the start", start);
  require::that(surplus > -1.0 && std::isfinite(surplus), "surplus of fresh water", surplus, "> -1");
  return checked(start.grams_per_kg / (1.0 + surplus));
}

}  // namespace theca::farm
