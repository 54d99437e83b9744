// A batch held to its limits and turned into raw numbers, tables and modes.
#include "theca/thermal/batch.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <tuple>

#include "batch_plan.hpp"
#include "batch_run.hpp"
#include "theca/seawater.hpp"
#include "theca/thermal/cool_down.hpp"

namespace theca::thermal {

namespace {

using namespace detail;

constexpr double day = 86400.0;

template <class List>
void require_length(const char* name, const List& list, std::size_t length) {
  require::that(list.size() == length, std::string("length of ") + name, static_cast<double>(list.size()),
                "as long as the lists beside it, " + std::to_string(length));
}

void require_index(const char* name, int index, std::size_t count) {
  require::that(index >= 0 && static_cast<std::size_t>(index) < count, name, static_cast<double>(index),
                "an index under " + std::to_string(count));
}

void require_batch(const Batch& b) {
  require::within("step", b.step, from_si<Time>(1.0), from_si<Time>(3600.0));
  require::positive("duration", b.duration);
  const double steps = si(b.duration) / si(b.step);
  require::that(std::abs(steps - std::round(steps)) <= 1e-9 * steps, "duration", b.duration,
                "a whole number of steps of " + text(b.step));
  require::that(si(b.warm_limit) >= si(b.cold_limit), "warm limit", in_celsius(b.warm_limit),
                "not under the cold limit");
  require::positive("bound of the loss tables", b.table_bound);

  const BatchSystems& s = b.systems;
  const std::size_t n = s.room.size();
  require_length("sump rooms", s.sump_room, n);
  require_length("sump types", s.sump_type, n);
  require_length("sump water", s.sump_water, n);
  require_length("sump starts", s.sump_start, n);
  require_length("gains", s.gain, n);
  require_length("heaters", s.heater, n);
  require_length("chillers", s.chiller, n);
  require_length("heater set points", s.heater_set_point, n);
  require_length("chiller set points", s.chiller_set_point, n);
  require_length("spreads", s.spread, n);
  require_length("starts of the lights", s.lights_from, n);
  require_length("lengths of the lights", s.lights_length, n);
  for (std::size_t i = 0; i < n; ++i) {
    require_index("room of a system", s.room[i], b.rooms.size());
    require_index("room of a sump", s.sump_room[i], b.rooms.size());
    require_index("type of a sump", s.sump_type[i], b.types.size());
    require::within("start of a sump", s.sump_start[i], b.water_low, b.water_high);
    require::not_negative("gain", s.gain[i]);
    require::not_negative("heater", s.heater[i]);
    require::not_negative("chiller", s.chiller[i]);
    require::positive("spread of a thermostat", s.spread[i]);
    require::within("start of the lights", s.lights_from[i], from_si<Time>(0.0), from_si<Time>(day));
    require::within("length of the lights", s.lights_length[i], from_si<Time>(0.0), from_si<Time>(day));
    if (si(s.heater[i]) > 0.0) require::positive("heater set point", s.heater_set_point[i]);
    if (si(s.chiller[i]) > 0.0) require::positive("chiller set point", s.chiller_set_point[i]);
    if (si(s.heater[i]) > 0.0 && si(s.chiller[i]) > 0.0)
      require::that(si(s.chiller_set_point[i]) >= si(s.heater_set_point[i]) + si(s.spread[i]), "chiller set point",
                    in_celsius(s.chiller_set_point[i]), "above the heater's by the spread, that they do not overlap");
  }

  const BatchTanks& t = b.tanks;
  const std::size_t m = t.system.size();
  require_length("tank types", t.type, m);
  require_length("tank water", t.water, m);
  require_length("turnovers", t.turnover, m);
  require_length("lights", t.light, m);
  require_length("tank starts", t.start, m);
  for (std::size_t i = 0; i < m; ++i) {
    require_index("system of a tank", t.system[i], n);
    require_index("type of a tank", t.type[i], b.types.size());
    require::not_negative("turnover", t.turnover[i]);
    require::not_negative("light", t.light[i]);
    require::within("start of a tank", t.start[i], b.water_low, b.water_high);
  }
  for (const int i : b.traced) require_index("traced tank", i, m);
}

template <class List>
void require_series(const char* name, const List& list, const RoomSeries& room, double duration) {
  if (list.size() == 1) return;
  require::that(!list.empty(), std::string(name) + " of room " + room.name, 0.0, "at least one value");
  require::positive("interval of room " + room.name, room.interval);
  require::that(static_cast<double>(list.size() - 1) * si(room.interval) >= duration * (1.0 - 1e-12),
                std::string("values of ") + name + " of room " + room.name, static_cast<double>(list.size()),
                "one, or enough for the whole duration");
}

PlannedRoom planned(const RoomSeries& room, double duration) {
  require_series("air", room.air, room, duration);
  require_series("humidity", room.humidity, room, duration);
  if (!room.surroundings.empty()) require_series("surroundings", room.surroundings, room, duration);
  PlannedRoom p;
  p.interval = si(room.interval);
  const std::size_t n = std::max({room.air.size(), room.humidity.size(), room.surroundings.size()});
  const auto at = [](const auto& list, std::size_t i) { return list.size() == 1 ? list.front() : list[i]; };
  // Where series differ in length, all but single values are as long as the run needs; what is beyond is not asked.
  for (std::size_t i = 0; i < n; ++i) {
    if ((room.air.size() > 1 && i >= room.air.size()) || (room.humidity.size() > 1 && i >= room.humidity.size()) ||
        (room.surroundings.size() > 1 && i >= room.surroundings.size()))
      break;
    const Temperature air = at(room.air, i);
    require::within("air of room " + room.name, air, air::lowest_temperature, air::highest_temperature);
    require::within("humidity of room " + room.name, at(room.humidity, i), RelativeHumidity(0.0),
                    RelativeHumidity(1.0));
    const Temperature around = room.surroundings.empty() ? air : at(room.surroundings, i);
    require::within("surroundings of room " + room.name, around, air::lowest_temperature, air::highest_temperature);
    p.air.push_back(in_celsius(air));
    p.humidity.push_back(at(room.humidity, i).ratio);
    p.surroundings_less_air.push_back(si(around) - si(air));
  }
  return p;
}

// Tables: one for every type in every kind of air that is the same but for its temperatures and humidity.
class Tables {
 public:
  Tables(const Batch& batch, BatchPlan& plan) : batch_(batch), plan_(plan) {}

  std::size_t curve(int type, int room) {
    const auto [at, added] = curves_.try_emplace({type, room}, plan_.curves.size());
    if (added)
      plan_.curves.push_back({.table = table(static_cast<std::size_t>(type), static_cast<std::size_t>(room)),
                              .room = static_cast<std::size_t>(room)});
    return at->second;
  }

 private:
  using Kind = std::tuple<double, double, double>;
  static Kind kind(const RoomSeries& r) { return {si(r.air_speed), si(r.wall_air_speed), si(r.pressure)}; }

  std::size_t table(std::size_t type, std::size_t room) {
    const Kind air = kind(batch_.rooms[room]);
    const auto [at, added] = tables_.try_emplace({type, air}, plan_.tables.size());
    if (added) {
      const RoomSeries& r = batch_.rooms[room];
      plan_.tables.push_back(
          loss_table(batch_.types[type], batch_.salinity,
                     Room{.air = {.temperature = r.air.front(), .humidity = r.humidity.front(), .pressure = r.pressure},
                          .surroundings = r.air.front(),
                          .air_speed = r.air_speed,
                          .wall_air_speed = r.wall_air_speed},
                     range(air), batch_.table_bound));
    }
    return at->second;
  }

  LossRange range(const Kind& air) const {
    LossRange r{.water_low = batch_.water_low, .water_high = batch_.water_high};
    double low[3], high[3];
    std::fill_n(low, 3, 1e300);
    std::fill_n(high, 3, -1e300);
    for (std::size_t i = 0; i < batch_.rooms.size(); ++i) {
      if (kind(batch_.rooms[i]) != air) continue;
      const PlannedRoom& room = plan_.rooms[i];
      const std::vector<double>* lists[3] = {&room.air, &room.surroundings_less_air, &room.humidity};
      for (int k = 0; k < 3; ++k) {
        low[k] = std::min(low[k], *std::min_element(lists[k]->begin(), lists[k]->end()));
        high[k] = std::max(high[k], *std::max_element(lists[k]->begin(), lists[k]->end()));
      }
    }
    r.room_low = celsius(low[0]);
    r.room_high = celsius(high[0]);
    r.surroundings_low = from_si<TemperatureDifference>(low[1]);
    r.surroundings_high = from_si<TemperatureDifference>(high[1]);
    r.humidity_low = RelativeHumidity(low[2]);
    r.humidity_high = RelativeHumidity(high[2]);
    return r;
  }

  const Batch& batch_;
  BatchPlan& plan_;
  std::map<std::pair<int, int>, std::size_t> curves_;
  std::map<std::pair<std::size_t, Kind>, std::size_t> tables_;
};

void add_body(BatchPlan& plan, std::size_t curve, double capacity, double light, const Temperature& start, int tank) {
  const double time_constant = capacity / plan.tables[plan.curves[curve].table].data->steepest;
  if (!(plan.step <= 0.2 * time_constant))
    throw InvalidInput("step", text(plan.step, "s"),
                       "at most a fifth of the time constant of every tank, here " + text(0.2 * time_constant, "s"));
  plan.curve.push_back(curve);
  plan.capacity.push_back(capacity);
  plan.light.push_back(light);
  plan.start.push_back(in_celsius(start));
  plan.tank.push_back(tank);
}

BatchPlan planned(const Batch& b) {
  require_batch(b);
  BatchPlan plan;
  plan.step = si(b.step);
  plan.steps = std::lround(si(b.duration) / si(b.step));
  plan.water_low = in_celsius(b.water_low);
  plan.water_high = in_celsius(b.water_high);
  plan.cold_limit = in_celsius(b.cold_limit);
  plan.warm_limit = in_celsius(b.warm_limit);
  plan.traced = b.traced;
  for (const RoomSeries& room : b.rooms) plan.rooms.push_back(planned(room, si(b.duration)));

  const double heat_of_water =
      si(water_heat_capacity(from_si<Volume>(1.0), {.temperature = celsius(25.0), .salinity = b.salinity}));
  Tables tables(b, plan);
  std::vector<std::vector<std::size_t>> tanks_of(b.systems.room.size());
  for (std::size_t i = 0; i < b.tanks.system.size(); ++i)
    tanks_of[static_cast<std::size_t>(b.tanks.system[i])].push_back(i);

  for (std::size_t s = 0; s < tanks_of.size(); ++s) {
    const BatchSystems& in = b.systems;
    PlannedSystem system{.first = plan.curve.size(),
                         .groups = {},
                         .modes = {},
                         .leak = 0.0,
                         .gain = si(in.gain[s]),
                         .heater = si(in.heater[s]),
                         .chiller = si(in.chiller[s]),
                         .lights_from = std::fmod(si(in.lights_from[s]), day),
                         .lights_length = si(in.lights_length[s])};
    const double half = 0.5 * si(in.spread[s]);
    system.heater_on = in_celsius(in.heater_set_point[s]) - half;
    system.heater_off = in_celsius(in.heater_set_point[s]) + half;
    system.chiller_on = in_celsius(in.chiller_set_point[s]) + half;
    system.chiller_off = in_celsius(in.chiller_set_point[s]) - half;

    struct Tank {
      double rate;
      std::size_t curve, index;
    };
    std::vector<Tank> tanks;
    for (const std::size_t i : tanks_of[s]) {
      require::positive("water of a tank", b.tanks.water[i]);
      tanks.push_back({si(b.tanks.turnover[i]) / si(b.tanks.water[i]), tables.curve(b.tanks.type[i], in.room[s]), i});
    }
    std::sort(tanks.begin(), tanks.end(), [](const Tank& a, const Tank& c) {
      return std::tie(a.rate, a.curve, a.index) < std::tie(c.rate, c.curve, c.index);
    });
    for (const Tank& t : tanks) {
      const std::size_t body = plan.curve.size();
      const double capacity = heat_of_water * si(b.tanks.water[t.index]);
      add_body(plan, t.curve, capacity, si(b.tanks.light[t.index]), b.tanks.start[t.index], static_cast<int>(t.index));
      if (system.groups.empty() || system.groups.back().rate != t.rate)
        system.groups.push_back({.first = body, .last = body, .rate = t.rate});
      system.groups.back().last = body + 1;
      system.groups.back().capacity += capacity;
    }
    system.sump = plan.curve.size();
    require::positive("water of a sump", in.sump_water[s]);
    const double sump_capacity = heat_of_water * si(in.sump_water[s]);
    add_body(plan, tables.curve(in.sump_type[s], in.sump_room[s]), sump_capacity, 0.0, in.sump_start[s], -1);
    system.groups.push_back({.first = system.sump, .last = system.sump + 1, .rate = 0.0, .capacity = sump_capacity});

    std::vector<double> capacity, exchange;
    for (const EqualTanks& g : system.groups) {
      capacity.push_back(g.capacity);
      exchange.push_back(g.rate * g.capacity);
    }
    exchange.pop_back();
    system.leak = (*plan.tables[plan.curves[plan.curve[system.sump]].table].data).slope;
    system.modes = exchange_modes(capacity, exchange, system.leak);
    plan.systems.push_back(std::move(system));
  }
  return plan;
}

}  // namespace

PreparedBatch prepare(const Batch& batch) {
  const auto plan = std::make_shared<const BatchPlan>(planned(batch));
  PreparedBatch prepared{.systems = static_cast<int>(plan->systems.size()), .plan = plan};
  for (const LossTable& t : plan->tables) prepared.table_error = std::max(prepared.table_error, t.temperature_error);
  return prepared;
}

BatchResult run_batch(const PreparedBatch& batch) { return run_batch(batch, 0, batch.systems); }

BatchResult run_batch(const PreparedBatch& batch, int first, int last) {
  require::that(batch.plan != nullptr, "batch", 0.0, "a batch that `prepare` has returned");
  const int systems = static_cast<int>(batch.plan->systems.size());
  require::that(first >= 0 && first <= systems, "first system", static_cast<double>(first),
                "0 to " + std::to_string(systems));
  require::that(last >= first && last <= systems, "last system", static_cast<double>(last),
                "from the first to " + std::to_string(systems));
  return run_systems(*batch.plan, static_cast<std::size_t>(first), static_cast<std::size_t>(last));
}

}  // namespace theca::thermal
