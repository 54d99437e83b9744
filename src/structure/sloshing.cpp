#include "theca/structure/sloshing.hpp"

#include <algorithm>

#include "theca/require.hpp"

namespace theca::structure {
namespace {

void require_water(const Length& length, const Length& depth, const Acceleration& gravity) {
  require::positive("inside length", length);
  require::positive("water depth", depth);
  require::positive("gravity", gravity);
}

}  // namespace

Frequency slosh_frequency(const Length& length, const Length& depth, int mode, const Acceleration& gravity) {
  require_water(length, depth, gravity);
  require::within("mode", mode, 1.0, 100.0);
  return from_si<Frequency>(kernel::slosh_frequency(si(length), si(depth), si(gravity), mode));
}

SloshMasses slosh_masses(const Length& length, const Length& depth, const Mass& water) {
  require_water(length, depth, standard_gravity);
  require::positive("water mass", water);
  const double ratio = si(length) / si(depth);
  return {kernel::impulsive_share(ratio) * water, kernel::convective_share(ratio) * water};
}

double convective_spectral_factor(const Time& period, const Earthquake& earthquake) {
  require::positive("slosh period", period);
  require::positive("S_DS", earthquake.short_period);
  require::within("S_DS", earthquake.short_period, 0.0, 5.0);
  require::positive("S_D1", earthquake.one_second);
  require::within("S_D1", earthquake.one_second, 0.0, 5.0);
  require::within("importance factor", earthquake.importance_factor, 1.0, 1.5);
  const double t = si(period);
  const double corner = earthquake.one_second / earthquake.short_period;
  if (t > 1.6 / corner) return 2.4 * earthquake.short_period / (t * t);
  return std::min(1.5 * earthquake.one_second / t, 1.5 * earthquake.short_period);
}

Length slosh_wave_height(const Length& length, const Length& depth, const Earthquake& earthquake,
                         const Acceleration& gravity) {
  const Time period = 1.0 / slosh_frequency(length, depth, 1, gravity);
  return 0.5 * convective_spectral_factor(period, earthquake) * earthquake.importance_factor * length;
}

double stroke_frequency_ratio(const Frequency& strokes, const Length& length, const Length& depth,
                              const Acceleration& gravity) {
  require::positive("stroke rate", strokes);
  return si(strokes) / si(slosh_frequency(length, depth, 1, gravity));
}

}  // namespace theca::structure
