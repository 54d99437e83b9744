#include "theca/farm/nitrogen.hpp"

#include <algorithm>
#include <cmath>

#include "theca/require.hpp"

namespace theca::farm {
namespace {

/// dC/dt = source - decay x C
struct Linear {
  double source, decay;
};

Linear linear(const NitrogenBalance& b) {
  require::positive("water", b.water);
  require::not_negative("nitrogen load", b.load);
  require::not_negative("nitrogen uptake", b.uptake);
  require::not_negative("removal", b.removal);
  require::not_negative("renewal", b.renewal);
  require::not_negative("nitrogen in the new water", b.new_water);
  return {si((b.load - b.uptake) / b.water) + si(b.renewal) * si(b.new_water), si(b.renewal) + si(b.removal)};
}

}  // namespace

MassFlow nitrogen_load(const MassFlow& feed, double protein, double retained) {
  require::not_negative("feed", feed);
  require::within("protein", protein, 0.0, 1.0);
  require::within("share retained", retained, 0.0, 1.0);
  return feed * (protein * nitrogen_in_protein * (1.0 - retained));
}

Density nitrogen_after(const NitrogenBalance& balance, const Density& start, const Time& time) {
  const Linear l = linear(balance);
  require::not_negative("nitrogen at the start", start);
  require::not_negative("time", time);
  const double x = l.decay * si(time);
  const double effective = l.decay > 0.0 ? -std::expm1(-x) / l.decay : si(time);
  // Once all is used the level stays at zero: the sources alone are less than the uptake.
  return from_si<Density>(std::max(0.0, si(start) * std::exp(-x) + l.source * effective));
}

std::optional<Density> settled_nitrogen(const NitrogenBalance& balance) {
  const Linear l = linear(balance);
  if (l.source <= 0.0) return from_si<Density>(0.0);
  if (l.decay == 0.0) return {};
  return from_si<Density>(l.source / l.decay);
}

std::optional<Frequency> renewal_for(const NitrogenBalance& balance, const Density& level) {
  require::positive("nitrogen level", level);
  NitrogenBalance still = balance;
  still.renewal = from_si<Frequency>(0.0);
  const Linear l = linear(still);
  const double surplus = l.source - l.decay * si(level);
  if (surplus <= 0.0) return from_si<Frequency>(0.0);
  if (balance.new_water >= level) return {};
  return from_si<Frequency>(surplus / (si(level) - si(balance.new_water)));
}

Density nitrate(const Density& nitrate_nitrogen) {
  require::not_negative("nitrate nitrogen", nitrate_nitrogen);
  return nitrate_nitrogen * ((14.007 + 3.0 * 15.999) / 14.007);
}

}  // namespace theca::farm
