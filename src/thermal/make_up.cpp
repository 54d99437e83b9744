#include "theca/thermal/make_up.hpp"

#include <cmath>

#include "../root.hpp"
#include "theca/require.hpp"
#include "theca/seawater.hpp"

namespace theca::thermal {

namespace {

// The system in SI, with salt as mass fraction. Salt stays `salt` kilograms until the overflow.
struct Start {
  double temperature, fraction, mass, salt, full;

  explicit Start(const RunningSystem& s) {
    require::positive("water", s.water);
    require::not_negative("room above the running level", s.above);
    require::not_negative("water below the running level", s.below);
    require::that(s.below <= s.water, "water below the running level", s.below, "no more than there is");
    require::within("water temperature", s.state.temperature, seawater::lowest_temperature,
                    seawater::highest_temperature);
    require::within("salinity", s.state.salinity, seawater::lowest_salinity, seawater::highest_salinity);
    require::that(s.state.salinity.grams_per_kg > 0.0, "salinity", s.state.salinity.grams_per_kg, "above 0 g/kg");
    require::not_negative("evaporation", s.evaporation);
    temperature = si(s.state.temperature);
    fraction = s.state.salinity.mass_fraction();
    mass = density(fraction) * si(s.water);
    salt = fraction * mass;
    full = si(s.water) + si(s.above);
  }
  double density(double salt_fraction) const { return seawater::kernel::density(temperature, salt_fraction); }
  // Salinity at which the salt, undiluted by overflow, fills a volume.
  double fraction_at(double volume) const {
    if (volume == mass / density(fraction)) return fraction;
    const auto over = [&](double x) { return salt / (x * density(x)) - volume; };
    const double low = 1e-6 * fraction, high = highest_fraction();
    if (over(high) > 0.0) refuse_salinity();
    return theca::detail::root_between("salinity at a level", over, low, high, over(low), over(high)).at();
  }
  static double highest_fraction() { return seawater::highest_salinity.mass_fraction(); }
  [[noreturn]] static void refuse_salinity() {
    throw OutOfValidity("density of seawater", "salinity past " + text(seawater::highest_salinity));
  }
};

// Time that a surplus of fresh water in kg/s takes to thin a full system from one salinity to another:
// V / surplus times the integral of rho(S) / S, in ln S by Simpson's rule (rho is all but straight in S).
double thinning_time(const Start& start, double surplus, double from, double to) {
  constexpr int halves = 64;
  const double step = std::log(from / to) / (2 * halves);
  double sum = 0.0;
  for (int i = 0; i <= 2 * halves; ++i) {
    const double weight = i == 0 || i == 2 * halves ? 1.0 : i % 2 == 1 ? 4.0 : 2.0;
    sum += weight * start.density(to * std::exp(step * i));
  }
  return start.full / surplus * sum * step / 3.0;
}

AbsoluteSalinity salinity_of(double fraction) { return AbsoluteSalinity(1000.0 * fraction); }

}  // namespace

WaterDrift make_up_stopped(const RunningSystem& system, const Time& time) {
  return make_up_stuck(system, MassFlow(), time);
}

std::optional<Time> time_to_dry_pump(const RunningSystem& system) {
  const Start start(system);
  if (si(system.evaporation) == 0.0) return std::nullopt;
  if (si(system.below) == 0.0) return Time();
  if (system.below == system.water) Start::refuse_salinity();
  const double left = start.salt / start.fraction_at(si(system.water - system.below));
  return from_si<Time>((start.mass - left) / si(system.evaporation));
}

WaterDrift make_up_stuck(const RunningSystem& system, const MassFlow& make_up, const Time& time) {
  const Start start(system);
  require::not_negative("make-up", make_up);
  require::not_negative("time", time);
  const double surplus = si(make_up) - si(system.evaporation);
  const std::optional<Time> full = time_to_overflow(system, make_up);
  WaterDrift drift;
  if (!full || time <= *full) {
    const double mass = start.mass + surplus * si(time);
    if (!(mass > 0.0) || start.salt / mass > Start::highest_fraction()) Start::refuse_salinity();
    const double fraction = start.salt / mass;
    drift.water = from_si<Volume>(mass / start.density(fraction));
    drift.salinity = salinity_of(fraction);
    return drift;
  }
  const double at_overflow = start.fraction_at(start.full);
  const double spilling = si(time) - si(*full);
  // Between no dilution and twice that of water at the density of fresh.
  const auto late = [&](double fraction) { return thinning_time(start, surplus, at_overflow, fraction) - spilling; };
  const double thinnest = at_overflow * std::exp(-1.1 * surplus * spilling / (start.full * start.density(0.0)));
  const double fraction = theca::detail::root_between("salinity of an overflowing system", late, thinnest, at_overflow,
                                                      late(thinnest), late(at_overflow))
                              .at();
  drift.water = from_si<Volume>(start.full);
  drift.salinity = salinity_of(fraction);
  // Of what came in, the mass that did not stay.
  const double spilt = start.mass + surplus * si(time) - start.full * start.density(fraction);
  drift.overflowed = from_si<Volume>(spilt / (0.5 * (start.density(fraction) + start.density(at_overflow))));
  return drift;
}

std::optional<Time> time_to_overflow(const RunningSystem& system, const MassFlow& make_up) {
  const Start start(system);
  require::not_negative("make-up", make_up);
  const double surplus = si(make_up) - si(system.evaporation);
  if (!(surplus > 0.0)) return std::nullopt;
  if (si(system.above) == 0.0) return Time();
  return from_si<Time>((start.salt / start.fraction_at(start.full) - start.mass) / surplus);
}

std::optional<Time> time_to_salinity(const RunningSystem& system, const MassFlow& make_up, AbsoluteSalinity limit) {
  const Start start(system);
  require::not_negative("make-up", make_up);
  require::within("limit", limit, AbsoluteSalinity(1e-3), seawater::highest_salinity);
  const double surplus = si(make_up) - si(system.evaporation);
  const double fraction = limit.mass_fraction();
  if (fraction == start.fraction) return Time();
  if (surplus == 0.0 || (surplus > 0.0) == (fraction > start.fraction)) return std::nullopt;
  const double filling = (start.salt / fraction - start.mass) / surplus;
  if (surplus < 0.0) return from_si<Time>(filling);
  const double at_overflow = start.fraction_at(start.full);
  if (fraction >= at_overflow) return from_si<Time>(filling);
  return from_si<Time>(si(*time_to_overflow(system, make_up)) + thinning_time(start, surplus, at_overflow, fraction));
}

}  // namespace theca::thermal
