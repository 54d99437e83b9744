#include "theca/hydraulics/pipe.hpp"

#include <array>
#include <string>

namespace theca::hydraulics {

namespace {
constexpr PipeSize size(std::string_view nominal, double od_in, double wall40_in, double wall80_in) {
  return {nominal, od_in * units::inch, wall40_in * units::inch, wall80_in * units::inch};
}
constexpr std::array sizes{
    size("1/2", 0.840, 0.109, 0.147),   size("3/4", 1.050, 0.113, 0.154),   size("1", 1.315, 0.133, 0.179),
    size("1-1/4", 1.660, 0.140, 0.191), size("1-1/2", 1.900, 0.145, 0.200), size("2", 2.375, 0.154, 0.218),
    size("2-1/2", 2.875, 0.203, 0.276), size("3", 3.500, 0.216, 0.300),     size("4", 4.500, 0.237, 0.337),
    size("5", 5.563, 0.258, 0.375),     size("6", 6.625, 0.280, 0.432),     size("8", 8.625, 0.322, 0.500),
    size("10", 10.750, 0.365, 0.593),   size("12", 12.750, 0.406, 0.687)};
constexpr double quarter_pi = 0.78539816339744830962;
}  // namespace

void validate(const Pipe& pipe) {
  detail::require_bore_and_roughness(pipe.bore, pipe.roughness);
  require::not_negative("length", pipe.length);
  require::not_negative("minor loss K", pipe.minor_loss_K);
}

Area bore_area(const Length& bore) {
  require::positive("bore", bore);
  return from_si<Area>(quarter_pi * si(bore) * si(bore));
}

Velocity velocity(const Pipe& pipe, const VolumeFlow& flow) {
  require::finite("flow", flow);
  return from_si<Velocity>(si(flow) / si(bore_area(pipe.bore)));
}

Length head_loss(const Pipe& pipe, const VolumeFlow& flow, const KinematicViscosity& viscosity) {
  validate(pipe);
  require::finite("flow", flow);
  require::positive("kinematic viscosity", viscosity);
  require::within("Reynolds number", std::abs(si(flow)) / (quarter_pi * si(pipe.bore) * si(viscosity)), 0.0,
                  largest_reynolds_number);
  return from_si<Length>(
      kernel::head_loss(si(flow), si(pipe.bore), si(pipe.length), si(pipe.roughness), pipe.minor_loss_K, si(viscosity))
          .loss_m);
}

Volume content(const Pipe& pipe) {
  validate(pipe);
  return from_si<Volume>(si(bore_area(pipe.bore)) * si(pipe.length));
}

VolumeFlow flow_at_velocity(const Length& bore, const Velocity& velocity) {
  require::not_negative("velocity", velocity);
  return from_si<VolumeFlow>(si(bore_area(bore)) * si(velocity));
}

std::span<const PipeSize> plastic_pipe_sizes() { return sizes; }

const PipeSize& plastic_pipe_size(std::string_view nominal) {
  std::string known;
  for (const PipeSize& s : sizes) {
    if (s.nominal == nominal) return s;
    if (!known.empty()) known += ", ";
    known += s.nominal;
  }
  throw InvalidInput("nominal pipe size", "\"" + std::string(nominal) + "\"", "one of " + known);
}

Length bore(const PipeSize& size, Schedule schedule) {
  require::positive("outside diameter", size.outside_diameter);
  const Length& wall = schedule == Schedule::s40 ? size.minimum_wall_s40 : size.minimum_wall_s80;
  require::that(si(wall) > 0.0 && 2.0 * si(wall) < si(size.outside_diameter), "minimum wall", wall,
                "> 0 and less than half the outside diameter");
  return from_si<Length>(si(size.outside_diameter) - 2.0 * si(wall));
}

}  // namespace theca::hydraulics
