#include "levers.hpp"

#include <algorithm>
#include <numbers>
#include <optional>
#include <string_view>

#include "theca/hydraulics/pipe.hpp"
#include "theca/materials/thickness.hpp"
#include "theca/require.hpp"

namespace theca::study {
namespace {

using hydraulics::Schedule;

/// A number that grows by equal steps. `member(design)` is a reference into the design it is given.
template <class Member, class Step>
Lever steps(std::string what, Member member, Step step, int most, std::function<std::string(const Design&)> reading) {
  return {std::move(what), most,
          [member, step](Design& design, int n) {
            auto& value = member(design);
            // a count stays one
            value = static_cast<std::remove_reference_t<decltype(value)>>(value + n * step);
          },
          std::move(reading)};
}
template <class Member, class Unit>
Lever steps(std::string what, Member member, const Quantity<Unit>& step, int most, const NamedUnit<Unit>& shown) {
  return {std::move(what), most,
          [member, step](Design& design, int n) { member(design) += static_cast<double>(n) * step; },
          [member, shown](const Design& design) {
            return number(in(member(design), shown)) + ' ' + std::string(shown.symbol);
          }};
}
template <class Member>
Lever count(std::string what, Member member, int step, int most) {
  return steps(std::move(what), member, step, most,
               [member](const Design& design) { return std::to_string(member(design)); });
}
template <class Member>
Lever share(std::string what, Member member, double step, int most) {
  return steps(std::move(what), member, step, most,
               [member](const Design& design) { return number(100.0 * member(design)) + " %"; });
}

/// Bores of Schedule 40 pipe over a bore.
std::vector<Length> wider_bores(const Length& bore) {
  std::vector<Length> wider;
  for (const hydraulics::PipeSize& size : hydraulics::plastic_pipe_sizes())
    if (const Length b = hydraulics::bore(size, Schedule::s40); b > 1.001 * bore) wider.push_back(b);
  return wider;
}
std::string pipe_text(const Length& bore) {
  for (const hydraulics::PipeSize& size : hydraulics::plastic_pipe_sizes())
    if (abs(hydraulics::bore(size, Schedule::s40) - bore) < 0.002 * bore)
      return std::string(size.nominal) + " in Schedule 40";
  return number(in(bore, units::inch)) + " in bore";
}
/// The next sizes of a pipe. `set(design, bore)` puts one in, `member` reads it.
template <class Member, class Set>
Lever next_pipe(const Design& design, std::string what, Member member, Set set) {
  const std::vector<Length> wider = wider_bores(member(design));
  return {std::move(what), static_cast<int>(wider.size()),
          [wider, set](Design& d, int n) { set(d, wider[static_cast<std::size_t>(n - 1)]); },
          [member](const Design& d) { return pipe_text(member(d)); }};
}

// ---- tanks ----------------------------------------------------------------------------------------------------------

struct TankLevers {
  const Design& design;
  std::string kind;
  std::vector<Lever>& out;

  const TankKind& tank() const { return design.tanks.kinds.at(kind); }
  std::string named(std::string_view what) const { return "tank " + kind + ", " + std::string(what); }
  template <class Member>
  auto of_kind(Member member) const {
    return [ kind = kind, member ](auto& d) -> auto& { return member(d.tanks.kinds.at(kind)); };
  }

  /// @param with_bite  the joints widened with the panes
  void glass(bool with_bite = false) const {
    std::vector<materials::StockThickness> thicker;
    for (const auto& stock : materials::float_glass_thicknesses())
      if (stock.minimum > tank().glass_design) thicker.push_back(stock);
    out.push_back({named(with_bite ? "glass and joint bite" : "glass of walls, base and brace"),
                   static_cast<int>(thicker.size()),
                   [kind = kind, thicker, with_bite](Design& d, int n) {
                     const auto& stock = thicker[static_cast<std::size_t>(n - 1)];
                     TankKind& t = d.tanks.kinds.at(kind);
                     t.glass_nominal = t.glass_base = stock.nominal;
                     t.glass_design = stock.minimum;
                     if (with_bite) t.joint_bite = stock.minimum;
                     if (t.rim_brace) {
                       t.rim_brace->thickness = stock.nominal;
                       t.rim_brace->design_thickness = stock.minimum;
                     }
                   },
                   [kind = kind](const Design& d) {
                     return number(in(d.tanks.kinds.at(kind).glass_nominal, units::millimetre)) + " mm";
                   }});
  }

  void rim_brace() const {
    const Length step = 0.5 * units::inch;
    out.push_back({named("rim brace"), 12,
                   [kind = kind, step](Design& d, int n) {
                     TankKind& t = d.tanks.kinds.at(kind);
                     // a new one starts at 2 in, of the walls' glass
                     if (t.rim_brace)
                       t.rim_brace->width += static_cast<double>(n) * step;
                     else
                       t.rim_brace = {static_cast<double>(3 + n) * step, t.glass_nominal, t.glass_design};
                   },
                   [kind = kind](const Design& d) {
                     const auto& brace = d.tanks.kinds.at(kind).rim_brace;
                     return brace ? number(in(brace->width, units::inch)) + " in wide" : std::string("none");
                   }});
  }

  /// All levels of a tank together, so that weir and drains still fit the water.
  void lower_water() const {
    const Length step = 0.25 * units::inch;
    out.push_back({named("water, weir and drains lower"), static_cast<int>(0.4 * si(tank().water_depth) / si(step)),
                   [kind = kind, step](Design& d, int n) {
                     TankKind& t = d.tanks.kinds.at(kind);
                     const Length by = static_cast<double>(n) * step;
                     t.water_depth -= by;
                     t.weir.crest -= by;
                     if (!t.emergency_drain) return;
                     t.emergency_drain->rim -= by;
                     t.emergency_drain->highest_level -= by;
                   },
                   [kind = kind](const Design& d) {
                     return number(in(d.tanks.kinds.at(kind).water_depth, units::inch)) + " in deep";
                   }});
  }
  void higher_walls() const {
    out.push_back(steps(named("walls higher, water as it is"),
                        of_kind([](auto& t) -> auto& { return t.outside_height; }), 0.25 * units::inch, 32,
                        units::inch));
  }
  void lower_walls() const {
    out.push_back(steps(named("walls lower, water as it is"),
                        of_kind([](auto& t) -> auto& { return t.outside_height; }), -0.25 * units::inch, 32,
                        units::inch));
  }
  void larger_leg_plates() const {
    out.push_back({named("leg plates"), 24,
                   [kind = kind](Design& d, int n) {
                     PlanSize& plate = d.tanks.kinds.at(kind).leg_plate;
                     plate.length += n * 0.5 * units::inch;
                     plate.width += n * 0.5 * units::inch;
                   },
                   [kind = kind](const Design& d) {
                     const PlanSize& plate = d.tanks.kinds.at(kind).leg_plate;
                     return number(in(plate.length, units::inch)) + " x " + number(in(plate.width, units::inch)) +
                            " in";
                   }});
  }
  void slower_strokes() const {
    out.push_back(
        {"scraping strokes", 19, [](Design& d, int n) { d.site.scraping_stroke_rate -= n * 0.05 * units::per_second; },
         [](const Design& d) { return number(in(d.site.scraping_stroke_rate, units::per_second)) + " in a second"; }});
  }
  void bite() const {
    out.push_back(steps(named("joint bite"), of_kind([](auto& t) -> auto& { return t.joint_bite; }),
                        1.0 * units::millimetre, 20, units::millimetre));
  }
  void stand(const Length& step, int most) const {
    out.push_back(steps(named("stand height"), of_kind([](auto& t) -> auto& { return t.stand_height; }), step, most,
                        units::inch));
  }
  void emergency_drain() const {
    if (tank().emergency_drain) {
      out.push_back(next_pipe(
          design, named("emergency drain"), of_kind([](auto& t) -> auto& { return t.emergency_drain->bore; }),
          [kind = kind](Design& d, const Length& bore) { d.tanks.kinds.at(kind).emergency_drain->bore = bore; }));
      return;
    }
    // a new one: its rim an inch and a quarter under the weir crest, the box free to rise to the crest
    const std::vector<Length> sizes = wider_bores(1.0 * units::inch);
    out.push_back({named("emergency drain"), static_cast<int>(sizes.size()),
                   [kind = kind, sizes](Design& d, int n) {
                     TankKind& t = d.tanks.kinds.at(kind);
                     t.emergency_drain = EmergencyDrain{.bore = sizes[static_cast<std::size_t>(n - 1)],
                                                        .rim = t.weir.crest - 1.25 * units::inch,
                                                        .highest_level = t.weir.crest};
                   },
                   [kind = kind](const Design& d) {
                     const auto& drain = d.tanks.kinds.at(kind).emergency_drain;
                     return drain ? pipe_text(drain->bore) : std::string("none");
                   }});
  }
  void main_drain() const {
    out.push_back(
        next_pipe(design, named("main standpipe"), of_kind([](auto& t) -> auto& { return t.main_drain_bore; }),
                  [kind = kind](Design& d, const Length& bore) { d.tanks.kinds.at(kind).main_drain_bore = bore; }));
  }
  void narrower() const {
    out.push_back(steps(named("outside width"), of_kind([](auto& t) -> auto& { return t.outside_width; }),
                        -0.5 * units::inch, 40, units::inch));
  }
  void both_sides_open() const {
    if (tank().open_sides < 2)
      out.push_back(count(named("open long sides"), of_kind([](auto& t) -> auto& { return t.open_sides; }), 1, 1));
  }
  void rack_plane() const {
    out.push_back(steps(named("rack plane over the inside base"),
                        of_kind([](auto& t) -> auto& { return t.rack_plane; }), 0.5 * units::inch, 24, units::inch));
  }
  void fewer_fish() const {
    const auto fish = design.stock.fish.find(kind);
    if (fish == design.stock.fish.end()) return;
    out.push_back(count(
        named("fish"), [kind = kind](auto& d) -> auto& { return d.stock.fish.at(kind).count; }, -1,
        fish->second.count));
  }
  void level() const {
    if (!tank().tilt) return;
    // a shim of 1/32 in under one end
    const Ratio step = from_si<Ratio>(si(1.0 / 32.0 * units::inch) / si(tank().outside_length));
    out.push_back(
        {named("out of level, end to end"), static_cast<int>(si(*tank().tilt) / si(step)),
         [kind = kind, step](Design& d, int n) { *d.tanks.kinds.at(kind).tilt -= static_cast<double>(n) * step; },
         [kind = kind](const Design& d) {
           const TankKind& t = d.tanks.kinds.at(kind);
           return number(in(si(*t.tilt) * t.outside_length, units::inch)) + " in";
         }});
  }
};

bool contains(std::string_view text, std::initializer_list<std::string_view> words) {
  return std::any_of(words.begin(), words.end(),
                     [text](std::string_view word) { return text.find(word) != std::string_view::npos; });
}

void structure_levers(const TankLevers& tank, std::string_view about) {
  if (contains(about, {"wave"})) {
    if (contains(about, {"scraping"})) tank.slower_strokes();
    tank.higher_walls();
    tank.lower_water();
    return;
  }
  if (contains(about, {"level"})) return tank.level();
  if (contains(about, {"sliding", "tipping"})) return tank.stand(-1.0 * units::inch, 16);
  if (contains(about, {"leg load"})) return tank.larger_leg_plates();
  if (contains(about, {"floor load"})) return tank.lower_walls();  // it counts water to the wall top
  const bool joints = contains(about, {"joints", "bond"});
  if (joints) tank.bite();
  tank.glass(joints);
  tank.rim_brace();
  tank.lower_water();
}

// ---- pipes, pump, sump ----------------------------------------------------------------------------------------------

/// Another bore for a pipe that runs full, and what it then holds when the pump stops.
void change_bore(Design& d, Length& bore, const Length& to) {
  PipeContent& content = d.pipes.content;
  if (const auto counted = content.counted_length.find(bore); counted != content.counted_length.end()) {
    const Length length = counted->second;
    content.counted_length.erase(counted);
    content.per_length.erase(bore);
    content.counted_length[to] += length;
    content.per_length.try_emplace(to, hydraulics::bore_area(to));
  }
  bore = to;
}
void change_main(Design& d, const Length& bore) {
  change_bore(d, d.pipes.main.bore, bore);
  if (!d.pipes.main.wall) return;
  for (const hydraulics::PipeSize& size : hydraulics::plastic_pipe_sizes())
    if (hydraulics::bore(size, Schedule::s40) == bore) d.pipes.main.wall = size.minimum_wall_s40;
}

void pipe_levers(const Design& design, std::string_view which, std::vector<Lever>& out) {
  if (which == "main")
    out.push_back(next_pipe(
        design, "main", [](auto& d) -> auto& { return d.pipes.main.bore; }, change_main));
  if (which == "main and headers") {
    const std::vector<Length> mains = wider_bores(design.pipes.main.bore),
                              headers = wider_bores(design.pipes.header.bore);
    out.push_back(
        {"main and headers", static_cast<int>(std::min(mains.size(), headers.size())),
         [mains, headers](Design& d, int n) {
           const auto i = static_cast<std::size_t>(n - 1);
           // headers first: the main may take the bore that they leave
           change_bore(d, d.pipes.header.bore, headers[i]);
           change_main(d, mains[i]);
         },
         [](const Design& d) { return pipe_text(d.pipes.main.bore) + " and " + pipe_text(d.pipes.header.bore); }});
  }
  if (which == "headers")
    out.push_back(next_pipe(
        design, "headers", [](auto& d) -> auto& { return d.pipes.header.bore; },
        [](Design& d, const Length& bore) { change_bore(d, d.pipes.header.bore, bore); }));
  if (which == "branches")
    out.push_back(next_pipe(
        design, "branches", [](auto& d) -> auto& { return d.pipes.branch.bore; },
        [](Design& d, const Length& bore) { change_bore(d, d.pipes.branch.bore, bore); }));
}

/// A valve in the main, partly shut: gives the flow up for the limit.
Lever throttle() {
  constexpr const char* valve = "throttled valve";
  return {"valve in the main throttled", 200,
          [](Design& d, int n) {
            d.pipes.main.K[valve] = {1, 0.5 * n};
          },
          [](const Design& d) {
            const auto found = d.pipes.main.K.find(valve);
            return "K " + number(found == d.pipes.main.K.end() ? 0.0 : found->second.K);
          }};
}

Lever running_depth(const Length& step) {
  return steps(
      "sump, running depth", [](auto& d) -> auto& { return d.sump.running_depth; }, step, 48, units::inch);
}

void system_levers(const Design& design, std::string_view about, std::vector<Lever>& out) {
  if (contains(about, {"velocity", "hammer"}))
    for (const char* which : {"main", "main and headers"}) pipe_levers(design, which, out);
  if (contains(about, {"velocity", "hammer", "operating region", "pump power", "NPSH"})) out.push_back(throttle());
  if (contains(about, {"balance"}))
    for (const char* which : {"headers", "main and headers"}) pipe_levers(design, which, out);
  if (contains(about, {"drain-back"})) {
    const Length step = 0.25 * units::inch;
    out.push_back(steps(
        "outlets below the surface", [](auto& d) -> auto& { return d.pipes.outlet_below_surface; }, -step,
        static_cast<int>(si(design.pipes.outlet_below_surface) / si(step)), units::inch));
    out.push_back(running_depth(-0.25 * units::inch));
    out.push_back({"sump, higher walls", 36,
                   [](Design& d, int n) {
                     const Length by = static_cast<double>(n) * units::inch;
                     d.sump.outside_height += by;
                     d.sump.highest_depth += by;
                   },
                   [](const Design& d) { return number(in(d.sump.outside_height, units::inch)) + " in"; }});
    out.push_back(steps(
        "sump, longer", [](auto& d) -> auto& { return d.sump.outside_length; }, 6.0 * units::inch, 40, units::inch));
  }
  if (contains(about, {"restart"})) {
    out.push_back(running_depth(0.25 * units::inch));
    out.push_back(steps(
        "sump, longer", [](auto& d) -> auto& { return d.sump.outside_length; }, 6.0 * units::inch, 40, units::inch));
  }
  if (contains(about, {"submergence"})) {
    out.push_back(next_pipe(
        design, "intake bell", [](auto& d) -> auto& { return d.pump.intake_bore; },
        [](Design& d, const Length& bore) { d.pump.intake_bore = bore; }));
    out.push_back(running_depth(0.25 * units::inch));
  }
  if (contains(about, {"sump floor load"}))
    out.push_back({"sump, lower walls", 24,
                   [](Design& d, int n) {
                     const Length by = static_cast<double>(n) * 0.5 * units::inch;
                     d.sump.outside_height -= by;
                     d.sump.highest_depth -= by;
                   },
                   [](const Design& d) { return number(in(d.sump.outside_height, units::inch)) + " in"; }});
}

void hydraulics_levers(const TankLevers& tank, std::string_view about) {
  if (contains(about, {"turnover"}))
    for (const char* which : {"branches", "headers", "main", "main and headers"})
      pipe_levers(tank.design, which, tank.out);
  if (contains(about, {"standpipe"})) {
    tank.main_drain();
    tank.out.push_back(throttle());
  }
  if (contains(about, {"running level"})) {
    tank.out.push_back(steps(tank.named("weir"), tank.of_kind([](auto& t) -> auto& { return t.weir.length; }),
                             1.0 * units::inch, 48, units::inch));
    tank.higher_walls();
  }
  if (contains(about, {"emergency drain", "tank A blocked", " blocked drain"})) tank.emergency_drain();
}

// ---- light, heat ----------------------------------------------------------------------------------------------------

void light_levers(const Design& design, std::string_view about, std::vector<Lever>& out) {
  const auto proposal = [name = design.money.lights_as](auto& d) -> auto& { return d.lights.proposals.at(name); };
  const auto fixtures = [proposal](auto& d) -> auto& { return proposal(d).per_tank; };
  const auto height = [proposal](auto& d) -> auto& { return proposal(d).mounting_height; };
  const bool too_bright = contains(about, {"largest", "brightest"});
  if (!too_bright) out.push_back(count("fixtures over each tank", fixtures, 1, 12));
  if (too_bright) out.push_back(count("fixtures over each tank", fixtures, -1, fixtures(design) - 1));
  const bool lower = contains(about, {"least mean"});
  const Length step = (lower ? -1.0 : 1.0) * units::inch;
  const int most = lower ? static_cast<int>(in(height(design), units::inch)) - 4 : 48;
  out.push_back(steps("mounting height", height, step, std::max(most, 0), units::inch));
}

void heat_levers(const Design&, std::string_view about, std::vector<Lever>& out) {
  if (contains(about, {"heaters"}))
    out.push_back(steps(
        "heaters", [](auto& d) -> auto& { return d.heat.heaters; }, 100.0 * units::watt, 200, units::watt));
  if (contains(about, {"chiller"}))
    out.push_back(steps(
        "chiller", [](auto& d) -> auto& { return d.heat.chiller; }, 500.0 * units::Btu_per_hour, 200,
        units::Btu_per_hour));
  if (contains(about, {"dehumidifier", "humidity"})) {
    out.push_back(count(
        "dehumidifiers installed", [](auto& d) -> auto& { return d.rooms.hall.dehumidifier.installed; }, 1, 20));
    out.push_back({"ventilation of the hall", 60,
                   [](Design& d, int n) { d.rooms.hall.ventilation += n * 0.05 * units::per_hour; },
                   [](const Design& d) {
                     return number(in(d.rooms.hall.ventilation, units::per_hour)) + " air changes an hour";
                   }});
  }
  if (contains(about, {"window"}))
    out.push_back({"U of the windows", 45,
                   [](Design& d, int n) { d.rooms.hall.window.U -= n * 0.01 * units::Btu_per_hour_ft2_degF; },
                   [](const Design& d) {
                     return number(in(d.rooms.hall.window.U, units::Btu_per_hour_ft2_degF)) + " Btu/h/ft2/degF";
                   }});
  if (contains(about, {"make-up"}))
    out.push_back(steps(
        "make-up water", [](auto& d) -> auto& { return d.chemistry.make_up_available; }, 5.0 * units::gallon_per_day,
        100, units::gallon_per_day));
}

// ---- people, stock, money -------------------------------------------------------------------------------------------

void person_levers(const TankLevers& tank, std::string_view about) {
  if (contains(about, {"reach"})) {
    tank.both_sides_open();
    tank.narrower();
    tank.rack_plane();
    tank.stand(-0.5 * units::inch, 48);
  }
  if (contains(about, {"work height"})) {
    // the hands of the tallest are too far under the elbow, or those of the smallest over it: either way may cure
    tank.stand(0.5 * units::inch, 48);
    tank.stand(-0.5 * units::inch, 48);
    tank.rack_plane();
  }
  if (contains(about, {"head clearance"})) light_levers(tank.design, "head clearance", tank.out);
  if (contains(about, {"oxygen"})) {
    tank.fewer_fish();
    tank.out.push_back(steps(
        "slot pitch", [](auto& d) -> auto& { return d.stock.slot_pitch; }, 0.125 * units::inch, 32, units::inch));
  }
  if (contains(about, {"grazers"}) && tank.design.stock.grazers_A)
    tank.out.push_back(count(
        tank.named("grazers"), [](auto& d) -> auto& { return d.stock.grazers_A->count; }, 1, 50));
}

void farm_levers(const Design& design, std::string_view about, std::vector<Lever>& out) {
  if (contains(about, {"lifting"})) {
    const Volume step = 0.25 * units::us_gallon;
    out.push_back(steps(
        "bucket", [](auto& d) -> auto& { return d.labour.lift.bucket; }, -step,
        static_cast<int>(si(design.labour.lift.bucket) / si(step)) - 1, units::us_gallon));
  }
  if (contains(about, {"labour"}))
    out.push_back({"hired hours", 200, [](Design& d, int n) { d.labour.hired += from_si<Ratio>(n * 0.5 / 168.0); },
                   [](const Design& d) { return number(si(d.labour.hired) * 168.0) + " h a week"; }});
  if (contains(about, {"circuits"}))
    out.push_back(count(
        "lighting circuits", [](auto& d) -> auto& { return d.electricity.lighting_circuits; }, 1, 40));
  if (contains(about, {"quarantine"}))
    out.push_back(count(
        "quarantine slots", [](auto& d) -> auto& { return d.stock.quarantine.slots; }, 5, 400));
  if (contains(about, {"mixing vat"}))
    out.push_back(steps(
        "mixing vat", [](auto& d) -> auto& { return d.chemistry.mixing_vat; }, 10.0 * units::us_gallon, 200,
        units::us_gallon));
  if (contains(about, {"dosing failure"}))
    out.push_back(steps(
        "alkalinity kept", [](auto& d) -> auto& { return d.chemistry.alkalinity; }, 0.1 * units::dKH, 40, units::dKH));
  if (contains(about, {"fits the fallow"}))
    out.push_back(share(
        "occupancy", [](auto& d) -> auto& { return d.production.occupancy; }, -0.01, 60));
  if (contains(about, {"cost per fragment"})) {
    out.push_back(steps(
        "slot pitch", [](auto& d) -> auto& { return d.stock.slot_pitch; }, -0.125 * units::inch, 16, units::inch));
    out.push_back(share(
        "occupancy", [](auto& d) -> auto& { return d.production.occupancy; }, 0.01,
        static_cast<int>(100.0 * (1.0 - design.production.occupancy))));
    out.push_back({"price of a fragment", 400, [](Design& d, int n) { d.money.price += n * 0.25 * units::dollar; },
                   [](const Design& d) { return number(in(d.money.price, units::dollar)) + " USD"; }});
  }
}

}  // namespace

std::vector<Lever> levers(const Design& design, const Check& check) {
  std::vector<Lever> found;
  const std::string_view name = check.name;
  const auto is_of = [name](std::string_view module) { return name.substr(0, module.size()) == module; };
  for (const auto& [kind, tank] : design.tanks.kinds) {
    const std::string subject = "tank " + kind + ' ';
    const std::size_t at = name.find(subject);
    if (at == std::string_view::npos) continue;
    const std::string_view about = name.substr(at + subject.size() - 1);
    const TankLevers of_tank{design, kind, found};
    if (is_of("structure")) structure_levers(of_tank, about);
    if (is_of("hydraulics")) hydraulics_levers(of_tank, about);
    if (is_of("light")) light_levers(design, about, found);
    if (is_of("farm")) person_levers(of_tank, about);
    return found;
  }
  if (is_of("structure") || is_of("hydraulics")) system_levers(design, name, found);
  if (is_of("light")) light_levers(design, name, found);
  if (is_of("thermal")) heat_levers(design, name, found);
  if (is_of("farm")) farm_levers(design, name, found);
  return found;
}

}  // namespace theca::study
