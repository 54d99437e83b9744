#include "theca/hydraulics/pipe.hpp"

#include <array>
#include <string>

#include "find.hpp"

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

constexpr double none = 0.0;  // the series does not go so small
constexpr MetricPipeSize metric(int nominal, double sdr26_mm, double sdr21_mm, double sdr17_mm, double sdr13_6_mm) {
  const auto wall = [](double mm) {
    return mm > 0.0 ? std::optional<Length>(mm * units::millimetre) : std::optional<Length>();
  };
  return {nominal,        nominal * units::millimetre,   wall(sdr26_mm), wall(sdr21_mm),
          wall(sdr17_mm), sdr13_6_mm * units::millimetre};
}
constexpr std::array metric_sizes{
    metric(20, none, none, none, 1.5),  metric(25, none, none, none, 1.9),   metric(32, none, 1.6, none, 2.4),
    metric(40, none, 1.9, none, 3.0),   metric(50, none, 2.4, none, 3.7),    metric(63, none, 3.0, none, 4.7),
    metric(75, none, 3.6, none, 5.6),   metric(90, none, 4.3, none, 6.7),    metric(110, 4.2, 5.3, 6.6, 8.1),
    metric(125, 4.8, 6.0, 7.4, 9.2),    metric(140, 5.4, 6.7, 8.3, 10.3),    metric(160, 6.2, 7.7, 9.5, 11.8),
    metric(180, 6.9, 8.6, 10.7, 13.3),  metric(200, 7.7, 9.6, 11.9, 14.7),   metric(225, 8.6, 10.8, 13.4, 16.6),
    metric(250, 9.6, 11.9, 14.8, 18.4), metric(280, 10.7, 13.4, 16.6, 20.6), metric(315, 12.1, 15.0, 18.7, 23.2)};
}  // namespace

void validate(const Pipe& pipe) {
  detail::require_bore_and_roughness(pipe.bore, pipe.roughness);
  require::not_negative("length", pipe.length);
  require::not_negative("minor loss K", pipe.minor_loss_K);
}

Area bore_area(const Length& bore) {
  require::positive("bore", bore);
  return from_si<Area>(kernel::bore_area(si(bore)));
}

Velocity velocity(const Pipe& pipe, const VolumeFlow& flow) {
  require::finite("flow", flow);
  return from_si<Velocity>(si(flow) / si(bore_area(pipe.bore)));
}

Length head_loss(const Pipe& pipe, const VolumeFlow& flow, const KinematicViscosity& viscosity) {
  validate(pipe);
  require::finite("flow", flow);
  require::positive("kinematic viscosity", viscosity);
  require::within("Reynolds number", kernel::reynolds_number(std::abs(si(flow)), si(pipe.bore), si(viscosity)), 0.0,
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
  return detail::find(sizes, &PipeSize::nominal, nominal, "nominal pipe size");
}

Length bore(const PipeSize& size, Schedule schedule) {
  require::positive("outside diameter", size.outside_diameter);
  const Length& wall = schedule == Schedule::s40 ? size.minimum_wall_s40 : size.minimum_wall_s80;
  require::that(si(wall) > 0.0 && 2.0 * si(wall) < si(size.outside_diameter), "minimum wall", wall,
                "> 0 and less than half the outside diameter");
  return from_si<Length>(si(size.outside_diameter) - 2.0 * si(wall));
}

std::span<const MetricPipeSize> metric_pipe_sizes() { return metric_sizes; }

const MetricPipeSize& metric_pipe_size(int nominal) {
  return detail::find(metric_sizes, &MetricPipeSize::nominal, nominal, "nominal pipe size in mm");
}

Length minimum_wall(const MetricPipeSize& size, MetricClass pressure_class) {
  const bool pn10 = pressure_class == MetricClass::water_pn10 || pressure_class == MetricClass::industrial_pn10;
  const bool water = pressure_class == MetricClass::water_pn10 || pressure_class == MetricClass::water_pn16;
  const bool thinner = water && size.nominal > 90;
  const std::optional<Length> wall = pn10 ? (thinner ? size.wall_sdr26 : size.wall_sdr21)
                                          : (thinner ? size.wall_sdr17 : std::optional<Length>(size.wall_sdr13_6));
  if (!wall) throw InvalidInput("nominal pipe size", std::to_string(size.nominal) + " mm", "32 or more for PN 10 pipe");
  return *wall;
}

Length bore(const MetricPipeSize& size, MetricClass pressure_class) {
  require::positive("outside diameter", size.outside_diameter);
  const Length wall = minimum_wall(size, pressure_class);
  require::that(si(wall) > 0.0 && 2.0 * si(wall) < si(size.outside_diameter), "minimum wall", wall,
                "> 0 and less than half the outside diameter");
  return from_si<Length>(si(size.outside_diameter) - 2.0 * si(wall));
}

}  // namespace theca::hydraulics
