#include "theca/hydraulics/water_hammer.hpp"

#include "theca/require.hpp"

namespace theca::hydraulics {

namespace {
void validate(const ElasticPipe& pipe) {
  require::positive("bore", pipe.bore);
  require::positive("wall", pipe.wall);
  require::that(4.0 * pipe.wall <= pipe.bore, "wall", pipe.wall, "at most a quarter of the bore, " + text(pipe.bore));
  require::positive("modulus", pipe.modulus);
  require::positive("bulk modulus", pipe.bulk_modulus);
  require::positive("density", pipe.density);
  require::within("restraint", pipe.restraint, 0.8, 1.25);
}
}  // namespace

Velocity wave_speed(const ElasticPipe& pipe) {
  validate(pipe);
  return from_si<Velocity>(kernel::wave_speed(si(pipe.bulk_modulus), si(pipe.density), si(pipe.bore), si(pipe.wall),
                                              si(pipe.modulus), pipe.restraint));
}

Pressure joukowsky_pressure(const ElasticPipe& pipe, const Velocity& velocity_change) {
  require::not_negative("velocity change", velocity_change);
  return from_si<Pressure>(si(pipe.density) * si(wave_speed(pipe)) * si(velocity_change));
}

Time pipe_period(const ElasticPipe& pipe, const Length& length) {
  require::positive("length", length);
  return from_si<Time>(2.0 * si(length) / si(wave_speed(pipe)));
}

Surge valve_surge(const ElasticPipe& pipe, const Length& length, const Velocity& velocity, const Time& closing_time) {
  require::not_negative("velocity", velocity);
  require::not_negative("closing time", closing_time);
  Surge surge;
  surge.wave_speed = wave_speed(pipe);
  surge.pipe_period = pipe_period(pipe, length);
  surge.sudden = closing_time <= surge.pipe_period;
  surge.rise = surge.sudden ? joukowsky_pressure(pipe, velocity)
                            : from_si<Pressure>(2.0 * si(pipe.density) * si(length) * si(velocity) / si(closing_time));
  return surge;
}

Time least_closing_time(const ElasticPipe& pipe, const Length& length, const Velocity& velocity,
                        const Pressure& limit) {
  require::positive("limit", limit);
  const Surge sudden = valve_surge(pipe, length, velocity, Time());
  return sudden.rise <= limit ? Time() : from_si<Time>(2.0 * si(pipe.density) * si(length) * si(velocity) / si(limit));
}

}  // namespace theca::hydraulics
