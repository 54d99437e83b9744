#include "theca/hydraulics/gravity_main.hpp"

#include "../root.hpp"
#include "theca/require.hpp"

namespace theca::hydraulics {

namespace {
constexpr double pi = 3.14159265358979323846;
// Angle of the wetted arc at the largest flow: root of 3 t - 5 t cos t + 2 sin t = 0 below 2 pi.
constexpr double angle_of_largest_flow = 5.2781071379317955;

void validate(const GravityMain& main) {
  require::positive("bore", main.bore);
  require::positive("slope", main.slope);
  require::within("slope", main.slope, 0.0, 0.1);
  require::within("Manning's n", main.manning_n, 0.006, 0.03);
}

PartFullFlow at_angle(const GravityMain& main, double theta) {
  PartFullFlow r;
  const double s = std::sin(0.25 * theta);
  r.filling = s * s;
  r.depth = r.filling * main.bore;
  if (theta <= 0.0) return r;
  const auto section = kernel::circular_section(si(main.bore), theta);
  const double v = kernel::manning_velocity(section.hydraulic_radius_m, main.slope, main.manning_n);
  r.flow = from_si<VolumeFlow>(v * section.area_m2);
  r.flow_area = from_si<Area>(section.area_m2);
  r.hydraulic_radius = from_si<Length>(section.hydraulic_radius_m);
  r.velocity = from_si<Velocity>(v);
  return r;
}
}  // namespace

PartFullFlow flow_at_depth(const GravityMain& main, const Length& depth) {
  validate(main);
  require::within("depth", depth, Length(), main.bore);
  return at_angle(main, 4.0 * std::asin(std::sqrt(si(depth) / si(main.bore))));
}

VolumeFlow full_bore_flow(const GravityMain& main) {
  validate(main);
  return at_angle(main, 2.0 * pi).flow;
}

PartFullFlow largest_flow(const GravityMain& main) {
  validate(main);
  return at_angle(main, angle_of_largest_flow);
}

PartFullFlow normal_depth(const GravityMain& main, const VolumeFlow& flow) {
  validate(main);
  require::not_negative("flow", flow);
  const PartFullFlow largest = largest_flow(main);
  require::valid("part-full gravity flow (Manning 1891)", "flow", flow, VolumeFlow(), largest.flow);
  const auto excess = [&](double theta) { return si(at_angle(main, theta).flow) - si(flow); };
  const double at_top = si(largest.flow) - si(flow);
  if (si(flow) == 0.0) return at_angle(main, 0.0);
  if (at_top <= 0.0) return largest;
  const auto root = theca::detail::root_between("normal depth", excess, 0.0, angle_of_largest_flow, -si(flow), at_top);
  return at_angle(main, root.at());
}

}  // namespace theca::hydraulics
