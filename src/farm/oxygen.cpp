#include "theca/farm/oxygen.hpp"

#include "theca/require.hpp"
#include "theca/seawater.hpp"

namespace theca::farm {

Molality oxygen_saturation_per_mass(const Temperature& water, PracticalSalinity salinity) {
  constexpr const char* fit = "oxygen saturation (Garcia & Gordon 1992)";
  require::valid(fit, "temperature in degC", in_celsius(water), 0.0, 40.0);
  require::valid(fit, "practical salinity", salinity.value, 0.0, 42.0);
  return kernel::oxygen_saturation_umol_per_kg(seawater::kernel::ipts68_celsius(si(water)), salinity.value) *
         units::umol_per_kilogram;
}

Density oxygen_saturation(const Temperature& water, PracticalSalinity salinity) {
  const Molality per_mass = oxygen_saturation_per_mass(water, salinity);
  return per_mass * oxygen_molar_mass * seawater::density(water, absolute_salinity(salinity));
}

MassFlow oxygen_consumption(const Breathing& b) {
  require::not_negative("coral area", b.coral_area);
  require::not_negative("coral respiration", b.coral_rate);
  require::not_negative("fish mass", b.fish_mass);
  require::not_negative("fish respiration", b.fish_rate);
  require::not_negative("film respiration", b.film);
  return b.coral_area * b.coral_rate * oxygen_molar_mass + b.fish_mass * b.fish_rate + b.film;
}

namespace {
void require_tank(const StillTank& tank) {
  require::positive("water volume", tank.water);
  require::positive("surface", tank.surface);
  require::not_negative("transfer velocity", tank.transfer);
  require::not_negative("saturation", tank.saturation);
  require::not_negative("oxygen consumption", tank.consumption);
}
double exchange(const StillTank& tank) { return si(tank.transfer) * si(tank.surface) / si(tank.water); }
}  // namespace

Density oxygen_after(const StillTank& tank, const Density& start, const Time& time) {
  require_tank(tank);
  require::not_negative("oxygen at the start", start);
  require::not_negative("time", time);
  return from_si<Density>(kernel::oxygen_after(si(start), si(tank.saturation), exchange(tank),
                                               si(tank.consumption) / si(tank.water), si(time)));
}

std::optional<Time> time_to_limit(const StillTank& tank, const Density& start, const Density& limit) {
  require_tank(tank);
  require::not_negative("oxygen at the start", start);
  require::not_negative("oxygen limit", limit);
  if (start <= limit) return from_si<Time>(0.0);
  const double x = exchange(tank);
  const double consumed = si(tank.consumption) / si(tank.water);
  // dC/dt at the limit; when it is not negative there, the level never comes down to the limit
  const double slope_at_limit = x * (si(tank.saturation) - si(limit)) - consumed;
  if (!(slope_at_limit < 0.0)) return std::nullopt;
  const double fall = si(start) - si(limit);
  if (x == 0.0) return from_si<Time>(fall / consumed);
  // (C - C_end) decays as exp(-x t), and slope = -x (C - C_end)
  return from_si<Time>(std::log1p(x * fall / -slope_at_limit) / x);
}

}  // namespace theca::farm
