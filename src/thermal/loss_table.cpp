#include "theca/thermal/loss_table.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>
#include <string_view>
#include <vector>

#include "loss_curve.hpp"
#include "theca/seawater.hpp"

namespace theca::thermal {

namespace detail {

namespace {

constexpr double celsius_zero = 273.15;
// Knots fall outside the water's range where only stencils need them; the physics ends at these, in degC.
constexpr double coldest = 0.0, warmest = 40.0;

// Weights of at most four neighbouring knots.
struct Stencil {
  std::size_t first = 0;
  int count = 1;
  std::array<double, 4> weight{1.0, 0.0, 0.0, 0.0};
};

Stencil stencil(const Axis& axis, double x) {
  const Axis::Stretch* s = &axis.stretches.front();
  for (const Axis::Stretch& one : axis.stretches)
    if (x >= one.low) s = &one;
  if (s->intervals == 0) return {.first = s->first};
  const double at = (x - s->low) / (s->high - s->low) * s->intervals;
  const int start = std::clamp(static_cast<int>(at) - 1, 0, s->intervals - 3);
  const double t = at - start;  // from the first of the four
  const double a = t, b = t - 1.0, c = t - 2.0, d = t - 3.0;
  return {.first = s->first + static_cast<std::size_t>(start),
          .count = 4,
          .weight = {-b * c * d / 6.0, a * c * d / 2.0, -a * b * d / 2.0, a * b * c / 6.0}};
}

// The table as a function of its first variable, at the knots `from` to `to` of that.
void contract(const Table& table, double at_second, double at_third, std::size_t from, std::size_t to,
              std::vector<double>& out) {
  const Stencil second = stencil(table.axes[1], at_second), third = stencil(table.axes[2], at_third);
  const std::size_t n = table.axes[0].size(), m = table.axes[1].size();
  out.resize(n);
  std::fill(out.begin() + std::ptrdiff_t(from), out.begin() + std::ptrdiff_t(to) + 1, 0.0);
  for (int k = 0; k < third.count; ++k)
    for (int j = 0; j < second.count; ++j) {
      const double w = third.weight[std::size_t(k)] * second.weight[std::size_t(j)];
      const double* v = table.values.data() + ((third.first + std::size_t(k)) * m + second.first + std::size_t(j)) * n;
      for (std::size_t i = from; i <= to; ++i) out[i] += w * v[i];
    }
}

double at_first(const Axis& axis, const std::vector<double>& values, double x);
double at_first(const Table& table, double x) { return at_first(table.axes[0], table.values, x); }
double at_first(const Axis& axis, const std::vector<double>& values, double x) {
  const Stencil s = stencil(axis, x);
  double sum = 0.0;
  for (int i = 0; i < s.count; ++i) sum += s.weight[std::size_t(i)] * values[s.first + std::size_t(i)];
  return sum;
}

// Powers of x for the cubic through four even knots, x from 0 to 1 in the interval `lead` knots behind the first.
std::array<double, 4> powers(const double* v, int lead) {
  // Newton's form about the first knot, then moved to the interval's start.
  const double d1 = v[1] - v[0], d2 = v[2] - 2.0 * v[1] + v[0], d3 = v[3] - 3.0 * v[2] + 3.0 * v[1] - v[0];
  const double p1 = d1 - d2 / 2.0 + d3 / 3.0, p2 = d2 / 2.0 - d3 / 2.0, p3 = d3 / 6.0;
  const double s = lead;
  return {v[0] + s * (p1 + s * (p2 + s * p3)), p1 + s * (2.0 * p2 + 3.0 * s * p3), p2 + 3.0 * s * p3, p3};
}

double root_of(double from_neutral) {
  return std::copysign(std::sqrt(std::sqrt(std::abs(from_neutral))), from_neutral);
}
double from_root(double root) { return root * root * root * std::abs(root); }

double dry_density(double pressure, double vapour, double temperature_K) {
  return (pressure - vapour) / (si(air::gas_constant_dry_air) * temperature_K);
}
double humidity_ratio(double pressure, double vapour) { return air::molar_mass_ratio * vapour / (pressure - vapour); }

// An evaporating surface of one square metre; of use where the size does not matter.
EvaporatingSurface surface_at(const LossData& data, double water, const RoomState& room) {
  return {.water = celsius(water),
          .salinity = AbsoluteSalinity(1000.0 * data.salinity),
          .room = {.temperature = celsius(room.air),
                   .humidity = RelativeHumidity(room.humidity),
                   .pressure = from_si<AbsolutePressure>(data.pressure)},
          .air_speed = from_si<Velocity>(data.open.air_speed),
          .length = from_si<Length>(1.0),
          .width = from_si<Length>(1.0)};
}

// Over water warm enough to evaporate.
bool shah_covers(const LossData& data, const RoomState& room) {
  return in_fitted_range(EvaporationModel::shah, surface_at(data, warmest, room));
}

// Water temperature in degC over which moist air is as heavy as the room's.
double neutral_temperature(const LossData& data, const RoomState& room) {
  const double dry = si(air::gas_constant_dry_air), vapour = si(air::gas_constant_water_vapour);
  // Density times temperature falls with vapour alone; the density falls with temperature too: Newton from the room's.
  const auto lightness = [&](double temperature_K, double vapour_Pa) {
    return temperature_K / ((data.pressure - vapour_Pa) / dry + vapour_Pa / vapour);
  };
  const double room_K = room.air + celsius_zero;
  const double wanted = lightness(room_K, room.humidity * air::kernel::saturation_vapour_pressure(room_K));
  const auto excess = [&](double t) {
    return lightness(t, seawater::kernel::vapour_pressure(t, data.salinity)) - wanted;
  };
  double t = room_K;
  for (int i = 0; i < 50; ++i) {
    constexpr double probe = 1e-3;
    const double here = excess(t);
    const double step = here * probe / (excess(t + probe) - here);
    t -= step;
    if (std::abs(step) < 1e-10) return t - celsius_zero;
  }
  throw NotConverged("water temperature of neutral air", excess(t), 50);
}

}  // namespace

double Axis::low() const { return stretches.front().low; }
double Axis::high() const { return stretches.back().high; }

std::size_t Axis::size() const {
  return stretches.back().first + static_cast<std::size_t>(stretches.back().intervals) + 1;
}

double Axis::knot(std::size_t i) const {
  const Stretch* s = &stretches.front();
  for (const Stretch& one : stretches)
    if (i >= one.first) s = &one;
  if (s->intervals == 0) return s->low;
  return s->low + (s->high - s->low) * double(i - s->first) / s->intervals;
}

LossCurve collapse(const LossData& data, const RoomState& room, double from, double to, LossPiece* pieces) {
  // Kept between calls, for a call takes a few microseconds.
  static thread_local std::vector<double> dry, loss, vapour;
  const double neutral = neutral_temperature(data, room);
  const Axis &roots = data.film.axes[0], &less_air = data.dry.axes[0];
  const double room_K = room.air + celsius_zero;
  const double room_vapour = room.humidity * air::kernel::saturation_vapour_pressure(room_K);
  const double room_dry_density = dry_density(data.pressure, room_vapour, room_K);
  const double room_ratio = humidity_ratio(data.pressure, room_vapour);
  const bool shah = data.open.area > 0.0 && shah_covers(data, room);
  const int first_piece = place(data.grid, neutral, from).index, last_piece = place(data.grid, neutral, to).index;
  // Knots are one more than pieces in every stretch; the cubics at the ends reach out by up to three.
  const std::size_t first_knot = static_cast<std::size_t>(std::max(0, first_piece - 3));
  const std::size_t last_knot = std::min(roots.size() - 1, static_cast<std::size_t>(last_piece) + 5);
  const auto less_air_at = [&](std::size_t knot) {
    return std::clamp(neutral + from_root(roots.knot(knot)) - room.air, less_air.low(), less_air.high());
  };
  contract(data.film, room.air, room.humidity, first_knot, last_knot, loss);  // the film, then the loss in its place
  const Stencil coldest_dry = stencil(less_air, less_air_at(first_knot)),
                warmest_dry = stencil(less_air, less_air_at(last_knot));
  contract(data.dry, room.air, room.surroundings_less_air, coldest_dry.first,
           warmest_dry.first + std::size_t(warmest_dry.count) - 1, dry);
  vapour.resize(loss.size());
  for (std::size_t i = first_knot; i <= last_knot; ++i) {
    const double water = std::clamp(neutral + from_root(roots.knot(i)), coldest, warmest),
                 water_K = water + celsius_zero;
    const double film = loss[i], pressure = at_first(data.pressure_of_water, water),
                 difference = pressure - room_vapour;
    const double latent = seawater::kernel::latent_heat_of_vaporisation(water_K);
    double rate = film * at_first(data.analogy, 0.5 * (water + room.air)) * difference;
    if (difference >= 0.0) {
      int counted = 1 + data.open.models;
      rate += data.open.heat_per_Pa * difference / latent;
      if (shah) {
        ++counted;
        rate += kernel::evaporation_shah(dry_density(data.pressure, pressure, water_K), room_dry_density,
                                         humidity_ratio(data.pressure, pressure), room_ratio, difference,
                                         data.open.air_speed);
      }
      rate /= counted;
    }
    vapour[i] = data.open.area * rate;
    loss[i] = vapour[i] * latent + data.open.area * film * (water - room.air) + at_first(less_air, dry, less_air_at(i));
  }

  int before = 0;  // pieces of the stretches before
  for (const Axis::Stretch& s : roots.stretches) {
    const int begin = std::max(0, first_piece - before), end = std::min(s.intervals, last_piece - before + 1);
    for (int i = begin; i < end; ++i) {
      const int first = std::clamp(i - 1, 0, s.intervals - 3);
      const std::size_t knot = s.first + static_cast<std::size_t>(first);
      pieces[before + i].loss = powers(loss.data() + knot, i - first);
      pieces[before + i].vapour = powers(vapour.data() + knot, i - first);
    }
    before += s.intervals;
  }
  return {neutral, pieces};
}

}  // namespace detail

namespace {

using detail::Axis;
using detail::celsius_zero;
using detail::coldest;
using detail::LossCurve;
using detail::LossData;
using detail::LossPiece;
using detail::PieceGrid;
using detail::RoomState;
using detail::Stencil;
using detail::Table;
using detail::warmest;

constexpr int test_states = 2000;
constexpr std::size_t most_knots = 120000;
constexpr double nearest_to_neutral = 1e-5;  // K

// tank_balance in raw numbers, degC and W.
class Physics {
 public:
  Physics(const TankSurfaces& tank, AbsoluteSalinity salinity, const Room& air)
      : tank_(tank), salinity_(salinity), air_(air) {}

  HeatBalance whole(double water, const RoomState& state) const {
    Room r = air_;
    r.air.temperature = celsius(state.air);
    r.air.humidity = RelativeHumidity(state.humidity);
    r.surroundings = celsius(state.air + state.surroundings_less_air);
    return tank_balance(tank_, {.temperature = celsius(water), .salinity = salinity_}, r);
  }
  double loss(double water, const RoomState& state) const { return si(whole(water, state).total_loss); }
  /// What needs no humidity.
  double dry(double water, const RoomState& state) const {
    const HeatBalance b = whole(water, state);
    return si(b.loss("surface radiation")) + si(b.loss("lid")) + si(b.loss("walls")) + si(b.loss("base"));
  }

 private:
  TankSurfaces tank_;
  AbsoluteSalinity salinity_;
  Room air_;
};

// Evenly spaced, at least three intervals; one knot where nothing varies.
Axis axis(double low, double high, double spacing) {
  const int n = high > low ? std::max(3, static_cast<int>(std::ceil((high - low) / spacing))) : 0;
  return {.stretches = {{low, high, n, 0}}};
}

// Roots of water less neutral: a stretch on either side of neutral air, evenly spaced throughout.
Axis root_axis(double low, double high, double spacing) {
  const auto intervals = [&](double length) { return std::max(3, static_cast<int>(std::ceil(length / spacing))); };
  if (low >= 0.0 || high <= 0.0) return {.stretches = {{low, high, intervals(high - low), 0}}};
  const int below = intervals(-low), above = intervals(high);
  return {.stretches = {{-spacing * below, 0.0, below, 0}, {0.0, spacing * above, above, std::size_t(below) + 1}}};
}

PieceGrid piece_grid(const Axis& roots) {
  PieceGrid grid;
  const Axis::Stretch& s = roots.stretches.front();
  grid.per_root = s.intervals / (s.high - s.low);
  grid.below = -s.low * grid.per_root;
  for (const Axis::Stretch& one : roots.stretches) grid.count += one.intervals;
  return grid;
}

void refine(Axis& a) {
  std::size_t first = 0;
  for (Axis::Stretch& s : a.stretches) {
    s.intervals *= 2;
    s.first = first;
    first += static_cast<std::size_t>(s.intervals) + 1;
  }
}

std::size_t knots(const Table& t) { return t.axes[0].size() * t.axes[1].size() * t.axes[2].size(); }

template <class F>
void fill(Table& table, const F& function) {
  const auto& [x, y, z] = table.axes;
  table.values.clear();
  for (std::size_t k = 0; k < z.size(); ++k)
    for (std::size_t j = 0; j < y.size(); ++j)
      for (std::size_t i = 0; i < x.size(); ++i) table.values.push_back(function(x.knot(i), y.knot(j), z.knot(k)));
}

// A function of one variable.
template <class F>
Table line(double low, double high, double spacing, const F& function) {
  Table t{.axes = {axis(low, high, spacing), axis(0.0, 0.0, 1.0), axis(0.0, 0.0, 1.0)}, .values = {}};
  fill(t, [&](double x, double, double) { return function(x); });
  return t;
}

// Largest error of those sampled along one axis between its knots, with the other two at theirs. `water` says which
// water temperature a place means: those out of range, which only stencils need, do not count.
template <class F, class W>
double error_along(const Table& table, std::size_t along, const F& function, const W& water, const LossRange& range,
                   std::mt19937& random) {
  constexpr int samples = 60;
  const auto pick = [&](std::size_t n) { return std::uniform_int_distribution<std::size_t>(0, n - 1)(random); };
  const Axis& axis = table.axes[along];
  double worst = 0.0;
  for (int s = 0; s < samples; ++s) {
    std::array<std::size_t, 3> at{};
    for (std::size_t d = 0; d < 3; ++d) at[d] = pick(table.axes[d].size());
    const Axis::Stretch& stretch = axis.stretches[pick(axis.stretches.size())];
    if (stretch.intervals == 0) continue;
    const double way = std::uniform_real_distribution<double>(0.0, 1.0)(random);
    const double x = stretch.low + (stretch.high - stretch.low) * way;
    std::array<double, 3> place{};
    for (std::size_t d = 0; d < 3; ++d) place[d] = d == along ? x : table.axes[d].knot(at[d]);
    const double t = water(place[0], place[1], place[2]);
    if (t < in_celsius(range.water_low) || t > in_celsius(range.water_high)) continue;
    const Stencil near = detail::stencil(axis, x);
    double read = 0.0;
    for (int i = 0; i < near.count; ++i) {
      at[along] = near.first + std::size_t(i);
      read += near.weight[std::size_t(i)] *
              table.values[(at[2] * table.axes[1].size() + at[1]) * table.axes[0].size() + at[0]];
    }
    worst = std::max(worst, std::abs(read - function(place[0], place[1], place[2])));
  }
  return worst;
}

// Halves the spacing along the axes that err most until each is within its share of the bound.
template <class F, class W>
void build(Table& table, const F& function, const W& water, const LossRange& range, double bound,
           std::string_view what) {
  std::mt19937 random(1);
  double worst = 0.0;
  for (int round = 0;; ++round) {
    if (knots(table) > most_knots) throw NotConverged(what, worst, round);
    fill(table, function);
    std::array<double, 3> error{};
    for (std::size_t d = 0; d < 3; ++d) error[d] = error_along(table, d, function, water, range, random);
    worst = *std::max_element(error.begin(), error.end());
    if (worst <= bound / 4.0) return;
    for (std::size_t d = 0; d < 3; ++d)
      if (error[d] > bound / 4.0 && error[d] > 0.2 * worst) refine(table.axes[d]);
  }
}

void require_range(const LossRange& r) {
  const Temperature lowest = celsius(9.0), highest = celsius(38.0);
  require::within("lowest water temperature", r.water_low, lowest, highest);
  require::within("highest water temperature", r.water_high, lowest, highest);
  require::that(si(r.water_high) > si(r.water_low), "highest water temperature", in_celsius(r.water_high),
                "above the lowest");
  require::within("lowest room temperature", r.room_low, air::lowest_temperature, air::highest_temperature);
  require::within("highest room temperature", r.room_high, r.room_low, air::highest_temperature);
  require::finite("lowest of surroundings less air", r.surroundings_low);
  require::finite("highest of surroundings less air", r.surroundings_high);
  require::that(si(r.surroundings_high) >= si(r.surroundings_low), "highest of surroundings less air",
                r.surroundings_high, "not under the lowest");
  require::within("lowest humidity", r.humidity_low, RelativeHumidity(0.0), RelativeHumidity(1.0));
  require::within("highest humidity", r.humidity_high, r.humidity_low, RelativeHumidity(1.0));
}

// Against the physics, at states that are knots of nothing.
double largest_error(const LossData& data, const Physics& physics) {
  std::mt19937 random(2);
  const auto between = [&](double low, double high) {
    return low + (high - low) * std::uniform_real_distribution<double>(0.0, 1.0)(random);
  };
  const LossRange& r = data.range;
  const double water_low = in_celsius(r.water_low), water_high = in_celsius(r.water_high);
  std::vector<LossPiece> pieces(static_cast<std::size_t>(data.grid.count));
  double worst = 0.0;
  for (int i = 0; i < test_states; ++i) {
    const RoomState state{between(in_celsius(r.room_low), in_celsius(r.room_high)),
                          between(si(r.surroundings_low), si(r.surroundings_high)),
                          between(r.humidity_low.ratio, r.humidity_high.ratio)};
    const LossCurve curve = collapse(data, state, water_low, water_high, pieces.data());
    double water = between(water_low, water_high);
    if (i % 2 == 1) {
      const double low = detail::root_of(water_low - curve.neutral), high = detail::root_of(water_high - curve.neutral);
      double from_neutral = detail::from_root(between(low, high));
      if (std::abs(from_neutral) < nearest_to_neutral) from_neutral = std::copysign(nearest_to_neutral, from_neutral);
      water = std::clamp(curve.neutral + from_neutral, water_low, water_high);
    }
    const auto [index, way] = detail::place(data.grid, curve.neutral, water);
    const double read = detail::cubic(pieces[std::size_t(index)].loss, way);
    worst = std::max(worst, std::abs(read - physics.loss(water, state)));
  }
  return worst;
}

LossData built(const TankSurfaces& tank, AbsoluteSalinity salinity, const Room& air, const LossRange& range,
               double bound_K) {
  const double water_low = in_celsius(range.water_low), water_high = in_celsius(range.water_high);
  const double room_low = in_celsius(range.room_low), room_high = in_celsius(range.room_high);
  const double around_low = si(range.surroundings_low), around_high = si(range.surroundings_high);
  const double humid_low = range.humidity_low.ratio, humid_high = range.humidity_high.ratio;
  const Physics physics(tank, salinity, air);

  LossData data;
  data.range = range;
  data.salinity = salinity.mass_fraction();
  data.pressure = si(air.air.pressure);

  // Mean slope of loss over the range of water, the least of the corners of what the room may be.
  double slope = std::numeric_limits<double>::max();
  for (const double a : {room_low, room_high})
    for (const double d : {around_low, around_high})
      for (const double h : {humid_low, humid_high}) {
        const RoomState state{a, d, h};
        slope = std::min(slope,
                         (physics.loss(water_high, state) - physics.loss(water_low, state)) / (water_high - water_low));
        data.steepest =
            std::max(data.steepest, physics.loss(water_high, state) - physics.loss(water_high - 1.0, state));
      }
  data.slope = std::max(slope, 0.0);
  constexpr double rounding = 1e-9;  // W, for a tank that loses nothing
  const double bound_W = bound_K * data.slope + rounding;

  constexpr double beyond = 3.0;  // K that the stencils of the pieces at the ends reach out
  data.dry.axes = {axis(water_low - room_high - beyond, water_high - room_low + beyond, 1.0),
                   axis(room_low, room_high, 3.0), axis(around_low, around_high, 5.0)};
  const auto dry_water = [](double less_air, double a, double) { return a + less_air; };
  const auto dry_at = [&](double less_air, double a, double around) {
    return physics.dry(std::clamp(dry_water(less_air, a, around), coldest, warmest), {a, around, humid_low});
  };
  constexpr std::string_view dry_name = "loss table: walls, base, lid and radiation";
  build(data.dry, dry_at, dry_water, range, bound_W, dry_name);

  data.open.air_speed = si(air.air_speed);
  if (si(tank.water_length) > 0.0 && si(tank.water_width) > 0.0) {
    data.open.area = si(tank.water_length) * si(tank.water_width) * (1.0 - (tank.lid ? tank.lid->covered_share : 0.0));
    const EvaporatingSurface example = detail::surface_at(data, warmest, {room_low, 0.0, humid_low});
    if (in_fitted_range(EvaporationModel::ashrae, example)) {
      data.open.heat_per_Pa += kernel::evaporation_ashrae(1.0, data.open.air_speed, 1.0, tank.evaporation_activity);
      ++data.open.models;
    }
    if (in_fitted_range(EvaporationModel::smith_lof_jones, example)) {
      data.open.heat_per_Pa += kernel::evaporation_smith_lof_jones(1.0, data.open.air_speed, 1.0);
      ++data.open.models;
    }
  }
  const bool open = data.open.area > 0.0;
  data.pressure_of_water = line(coldest, warmest, 0.5, [&](double t) {
    return seawater::kernel::vapour_pressure(t + celsius_zero, data.salinity);
  });
  data.analogy = line(0.5 * (coldest + room_low), 0.5 * (warmest + room_high), 1.0, [&](double t) {
    const Temperature mean = celsius(t);
    const AbsolutePressure p = air.air.pressure;
    return kernel::evaporation_by_analogy(
        1.0, air::kernel::dry_density(si(mean), si(p)), si(air::specific_heat_capacity(mean)),
        si(air::thermal_diffusivity(mean, p)) / si(air::vapour_diffusivity(mean, p)), 1.0, si(mean));
  });

  const double neutral_low = detail::neutral_temperature(data, {room_low, 0.0, humid_low});
  const double neutral_high = detail::neutral_temperature(data, {room_high, 0.0, humid_high});
  data.film.axes = {
      root_axis(detail::root_of(water_low - neutral_high), detail::root_of(water_high - neutral_low), 0.03),
      axis(room_low, room_high, 3.0), axis(humid_low, humid_high, 0.15)};
  // A film that errs by this much errs in the loss by its share of the bound at 10 K and its vapour pressure.
  const double film_bound = open ? bound_W / (data.open.area * 25.0) : 1.0;
  const auto film_water = [&](double root, double a, double humidity) {
    return detail::neutral_temperature(data, {a, 0.0, humidity}) + detail::from_root(root);
  };
  const auto film_at = [&](double root, double a, double humidity) {
    if (!open) return 0.0;
    // At neutral air itself still air has no film; a hair beside it the film follows its neighbours.
    constexpr double hair = 0.01;  // K^(1/4)
    const double water = film_water(std::abs(root) < hair ? hair : root, a, humidity);
    const EvaporatingSurface s = detail::surface_at(data, std::clamp(water, coldest, warmest), {a, 0.0, humidity});
    return si(water_surface_film(s.water, seawater::vapour_pressure(s.water, s.salinity), s.room, tank.water_length,
                                 tank.water_width, s.air_speed)
                  .coefficient);
  };
  // Evaporation has kinks where its models part, walls one where they are as warm as the air, which only narrow pieces
  // follow.
  constexpr int most_rounds = 4;
  for (int round = 0;; ++round) {
    build(data.film, film_at, film_water, range, film_bound, "loss table: film of the water surface");
    data.grid = piece_grid(data.film.axes[0]);
    data.error = largest_error(data, physics);
    if (data.error <= bound_W) break;
    if (round == most_rounds) throw NotConverged("loss table", data.error, round);
    refine(data.film.axes[0]);
    refine(data.dry.axes[0]);
    build(data.dry, dry_at, dry_water, range, bound_W, dry_name);
  }
  data.temperature_error = data.slope > 0.0 ? data.error / data.slope : 0.0;
  return data;
}

// Loss and evaporation read from the table.
struct Read {
  double loss, vapour;
};
Read read(const LossTable& table, const Temperature& water, const Room& room) {
  require::that(table.data != nullptr, "loss table", 0.0, "a table that `loss_table` has returned");
  const LossData& data = *table.data;
  const LossRange& r = data.range;
  require::within("water temperature", water, r.water_low, r.water_high);
  require::within("room temperature", room.air.temperature, r.room_low, r.room_high);
  const TemperatureDifference around = room.surroundings - room.air.temperature;
  require::within("surroundings less air", around, r.surroundings_low, r.surroundings_high);
  require::within("room humidity", room.air.humidity, r.humidity_low, r.humidity_high);
  std::vector<LossPiece> pieces(static_cast<std::size_t>(data.grid.count));
  const double t = in_celsius(water);
  const LossCurve curve =
      collapse(data, {in_celsius(room.air.temperature), si(around), room.air.humidity.ratio}, t, t, pieces.data());
  const auto [index, way] = detail::place(data.grid, curve.neutral, t);
  const LossPiece& piece = pieces[static_cast<std::size_t>(index)];
  return {detail::cubic(piece.loss, way), detail::cubic(piece.vapour, way)};
}

}  // namespace

Power LossTable::loss(const Temperature& water, const Room& room) const {
  return from_si<Power>(read(*this, water, room).loss);
}
MassFlow LossTable::evaporation(const Temperature& water, const Room& room) const {
  return from_si<MassFlow>(read(*this, water, room).vapour);
}

LossTable loss_table(const TankSurfaces& tank, AbsoluteSalinity salinity, const Room& air, const LossRange& range,
                     const TemperatureDifference& bound) {
  require::positive("bound", bound);
  require_range(range);
  const auto data = std::make_shared<const LossData>(built(tank, salinity, air, range, si(bound)));
  return {.range = range,
          .error = from_si<Power>(data->error),
          .temperature_error = from_si<TemperatureDifference>(data->temperature_error),
          .data = data};
}

}  // namespace theca::thermal
