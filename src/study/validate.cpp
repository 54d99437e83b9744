#include "theca/study/validate.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "text_forms.hpp"
#include "theca/light/intensity.hpp"
#include "theca/require.hpp"
#include "theca/study/schema.hpp"

namespace theca::study {
namespace {

using text_forms::exact;
using text_forms::in_quotes;
using text_forms::join;

/// How far a stated photon flux may lie from the integral of its table, which has rounded values at few angles.
constexpr double ppf_tolerance = 0.01;

/// What a sum or difference of stated sizes may be off by rounding: 23.5 in fit where 24 in less 0.5 in are left.
constexpr double rounding = 1e-12;

// A computed quantity may need all its digits in every unit; then it is shown rounded.
template <class Q>
std::string readable(const Q& q) {
  constexpr std::size_t longest = 14;
  std::string all_digits = exact(q);
  return all_digits.size() <= longest ? all_digits : text(q);
}

class Examination {
 public:
  explicit Examination(const Design& design) : d_(design) {}

  std::vector<Contradiction> run() {
    tanks();
    rows();
    strips();
    sump();
    pump();
    pipes();
    lights();
    stock();
    production();
    workers();
    return std::move(found_);
  }

 private:
  void report(std::string key, std::string value, std::string accepted) {
    found_.push_back({std::move(key), std::move(value), std::move(accepted)});
  }

  // The words say what the other quantity is.
  template <class Q>
  void at_most(const std::string& key, const Q& value, const Q& high, const std::string& high_words,
               double slack = 0.0) {
    if (!(value <= (1.0 + slack) * high)) report(key, exact(value), "at most " + high_words + ", " + readable(high));
  }
  template <class Q>
  void below(const std::string& key, const Q& value, const Q& high, const std::string& high_words) {
    if (!(value < high)) report(key, exact(value), "less than " + high_words + ", " + readable(high));
  }
  void room_between(const std::string& key, const Length& wall, const Length& outside) {
    below(key, wall, 0.5 * outside, "half of the smaller outside size");
  }

  void tanks() {
    if (d_.tanks.kinds.empty()) report("tanks", "no kind of tank", "at least one");
    std::set<std::string> names;
    for (const auto& [kind, t] : d_.tanks.kinds) {
      const std::string here = join("tanks", kind);
      for (std::size_t i = 0; i < t.names.size(); ++i)
        if (!names.insert(t.names[i]).second)
          report(join(here + ".names", i), in_quotes(t.names[i]), "a name that no other tank has");
      tank(here, t);
    }
    at_most("tanks.joint.allowable_permanent", d_.tanks.joint.allowable_permanent, d_.tanks.joint.allowable_short_term,
            "the short-term stress");
  }

  void tank(const std::string& here, const TankKind& t) {
    const Length wall = t.outside_height - t.glass_base;
    const Length smaller = std::min(t.outside_length, t.outside_width);
    const std::string wall_words = "the wall height over the inside base";
    at_most(here + ".glass_design", t.glass_design, t.glass_nominal, "the nominal thickness");
    room_between(here + ".glass_nominal", t.glass_nominal, smaller);
    below(here + ".glass_base", t.glass_base, t.outside_height, "the outside height");
    at_most(here + ".joint_bite", t.joint_bite, t.glass_nominal, "the thickness of the pane it bonds");
    at_most(here + ".water_depth", t.water_depth, wall, wall_words);
    at_most(here + ".rack_plane", t.rack_plane, t.water_depth, "the water depth");
    const Area plates = double(t.legs) * t.leg_plate.length * t.leg_plate.width;
    if (!(plates <= (1.0 + rounding) * t.outside_length * t.outside_width))
      report(here + ".leg_plate", text_forms::write(t.leg_plate),
             "plates that all fit under the tank, " + text(t.outside_length * t.outside_width));
    below(here + ".weir.crest", t.weir.crest, wall, wall_words);
    at_most(here + ".weir.length", t.weir.length, std::max(t.outside_length, t.outside_width) - 2.0 * t.glass_nominal,
            "the longer inside size", rounding);
    brace(here + ".rim_brace", t.rim_brace, smaller - 2.0 * t.glass_nominal);
    brace(here + ".rim_brace_variant", t.rim_brace_variant, smaller - 2.0 * t.glass_nominal);
    if (t.cross_brace_variant) {
      const Length rim = t.rim_brace ? 2.0 * t.rim_brace->width : Length();
      below(here + ".cross_brace_variant.width", t.cross_brace_variant->width,
            t.outside_length - 2.0 * t.glass_nominal - rim, "the clear length of the tank");
    }
    if (const auto& drain = t.emergency_drain) {
      below(here + ".emergency_drain.rim", drain->rim, drain->highest_level, "the highest level");
      at_most(here + ".emergency_drain.highest_level", drain->highest_level, wall, wall_words, rounding);
    }
    at_most("pipes.outlet_below_surface", d_.pipes.outlet_below_surface, t.water_depth, "the water depth of " + here);
  }

  void brace(const std::string& here, const std::optional<RimBrace>& b, const Length& inside) {
    if (!b) return;
    at_most(here + ".design_thickness", b->design_thickness, b->thickness, "the nominal thickness");
    below(here + ".width", b->width, 0.5 * inside, "half of the smaller inside size");
  }

  void rows() {
    std::set<std::string> known, placed;
    for (const auto& [kind, t] : d_.tanks.kinds) known.insert(t.names.begin(), t.names.end());
    const auto& layout = d_.rooms.layout;
    for (const auto& [row, names] : layout.rows)
      for (std::size_t i = 0; i < names.size(); ++i) {
        const std::string key = join(join("rooms.layout.rows", row), i);
        if (!known.contains(names[i])) report(key, in_quotes(names[i]), "the name of a tank in [tanks]");
        if (!placed.insert(names[i]).second)
          report(key, in_quotes(names[i]), "a tank that has no other place in the rows");
      }
    for (const auto& name : known)
      if (!placed.contains(name))
        report("rooms.layout.rows", "no row with " + in_quotes(name), "every tank in one row");
    same_keys("pipes.header.to_first_branch", d_.pipes.header.to_first_branch, "rooms.layout.rows", layout.rows);
  }

  void strips() {
    const auto& layout = d_.rooms.layout;
    int aisles = 0;
    for (std::size_t i = 0; i < layout.across_width.size(); ++i) {
      const auto& strip = layout.across_width[i];
      const std::string key = join("rooms.layout.across_width", i);
      if (strip.tag == "aisle") {
        ++aisles;
      } else if (const auto row = layout.rows.find(strip.tag); row != layout.rows.end()) {
        for (const auto& name : row->second)
          for (const auto& [kind, t] : d_.tanks.kinds)
            if (std::find(t.names.begin(), t.names.end(), name) != t.names.end()) holds(key, strip, kind, t);
      } else if (const auto kind = d_.tanks.kinds.find(strip.tag); kind != d_.tanks.kinds.end()) {
        holds(key, strip, kind->first, kind->second);
      } else {
        report(key, in_quotes(strip.tag), "\"aisle\", a row of the layout or a kind of tank");
      }
    }
    if (aisles == 0) report("rooms.layout.across_width", "no aisle", "at least one");
  }

  void holds(const std::string& key, const Strip& strip, const std::string& kind, const TankKind& t) {
    // One report of a strip is enough for all the tanks in it.
    if ((1.0 + rounding) * strip.width >= t.outside_width || (!found_.empty() && found_.back().key == key)) return;
    report(key, exact(strip.width),
           "at least the outside width of tank kind " + in_quotes(kind) + ", " + exact(t.outside_width));
  }

  static std::string name_of(const std::string& key) { return key; }
  static std::string name_of(const Length& key) { return exact(key); }

  template <class A, class B>
  void same_keys(const std::string& here, const A& one, const std::string& other_name, const B& other) {
    for (const auto& entry : other)
      if (!one.contains(entry.first))
        report(here, "no " + in_quotes(name_of(entry.first)), "every key of " + other_name);
    for (const auto& entry : one)
      if (!other.contains(entry.first)) report(here, in_quotes(name_of(entry.first)), "keys of " + other_name);
  }

  void sump() {
    const auto& s = d_.sump;
    at_most("sump.running_depth", s.running_depth, s.highest_depth, "the highest depth");
    at_most("sump.highest_depth", s.highest_depth, s.outside_height - s.base, "the wall height over the inside base",
            rounding);
    below("sump.intake_centre", s.intake_centre, s.running_depth, "the running depth");
    below("sump.pump_draws_air_below", s.pump_draws_air_below, s.running_depth, "the running depth");
    room_between("sump.wall", s.wall, std::min(s.outside_length, s.outside_width));
  }

  // Reports the first element that does not follow the one before it.
  template <class List, class Value>
  void rising(const std::string& here, const List& list, std::size_t least, const Value& value) {
    if (list.size() < least)
      report(here, std::to_string(list.size()) + " in the list", "at least " + std::to_string(least));
    for (std::size_t i = 1; i < list.size(); ++i)
      if (!(value(list[i]) > value(list[i - 1]))) {
        report(join(here, i), exact(value(list[i])), "more than the value before it, " + exact(value(list[i - 1])));
        return;
      }
  }

  void pump() {
    const auto& curve = d_.pump.curve;
    rising("pump.curve", curve, 2, [](const PumpPoint& p) { return p.flow; });
    for (std::size_t i = 1; i < curve.size(); ++i)
      if (!(curve[i].head < curve[i - 1].head)) {
        report(join("pump.curve", i), exact(curve[i].head),
               "a head that falls from point to point, less than " + exact(curve[i - 1].head));
        break;
      }
    const auto& p = d_.pump;
    const auto flow = [](const auto& point) { return point.flow; };
    if (!p.npsh_required.empty()) rising("pump.npsh_required", p.npsh_required, 2, flow);
    if (!p.efficiency.empty()) rising("pump.efficiency", p.efficiency, 2, flow);
    if (p.best_efficiency_flow && !curve.empty())
      at_most("pump.best_efficiency_flow", *p.best_efficiency_flow, curve.back().flow, "the last flow of the curve");
    if (p.allowable_region && !(p.allowable_region->low < 1.0 && p.allowable_region->high > 1.0))
      report("pump.allowable_region", exact(p.allowable_region->low) + " to " + exact(p.allowable_region->high),
             "shares below and above 1, the flow of best efficiency");
  }

  void pipes() {
    const auto& main = d_.pipes.main;
    double K = 0.0;
    for (const auto& [name, fitting] : main.K) K += fitting.count * fitting.K;
    if (main.K_suction && !(*main.K_suction <= K))
      report("pipes.main.K_suction", exact(*main.K_suction), "at most the sum of pipes.main.K, " + exact(K));
    if (main.wall) at_most("pipes.main.wall", *main.wall, 0.25 * main.bore, "a quarter of the bore");
    const auto& c = d_.pipes.content;
    same_keys("pipes.content.counted_length", c.counted_length, "pipes.content.per_length", c.per_length);
  }

  void lights() {
    const auto& l = d_.lights;
    const std::size_t before = found_.size();
    rising("lights.angle", l.angle, 2, [](const Angle& a) { return a; });
    if (l.angle.size() != l.intensity.size())
      report("lights.intensity", std::to_string(l.intensity.size()) + " values",
             "one for each of the " + std::to_string(l.angle.size()) + " angles");
    if (!l.angle.empty() && l.angle.front() != Angle()) report("lights.angle[0]", exact(l.angle.front()), "0 deg");
    if (!l.angle.empty() && !(l.angle.back() >= 90.0 * units::degree))
      report(join("lights.angle", l.angle.size() - 1), exact(l.angle.back()), "a last angle of 90 deg or more");
    if (found_.size() == before) photon_flux();
    if (!l.proposals.contains(d_.money.lights_as)) {
      std::string names;
      for (const auto& [name, proposal] : l.proposals) names += (names.empty() ? "" : ", ") + name;
      report("money.lights_as", in_quotes(d_.money.lights_as), "one of lights.proposals: " + names);
    }
  }

  void photon_flux() {
    const auto& l = d_.lights;
    PhotonFlux table{};
    try {
      table = light::photon_flux(light::TabulatedIntensity{.angles = l.angle, .values = l.intensity});
    } catch (const InvalidInput& e) {
      report("lights.intensity", e.value(), e.accepted());
      return;
    }
    if (!(std::abs(l.PPF.value() / table.value() - 1.0) <= ppf_tolerance))
      report("lights.PPF", exact(l.PPF),
             "the integral of lights.intensity within 1 %, " + text(1e6 * table.value(), "umol/s"));
  }

  void stock() {
    const auto& s = d_.stock;
    same_keys("stock.fish", s.fish, "tanks", d_.tanks.kinds);
    const auto kind_A = [&](const std::string& key, bool stated) {
      if (stated && !d_.tanks.kinds.contains("A"))
        report(key, "a value for tank kind \"A\"", "kinds of tank in [tanks]");
    };
    kind_A("stock.grazers_A", s.grazers_A.has_value());
    kind_A("stock.lit_surface_A", s.lit_surface_A.has_value());
    for (std::size_t i = 1; i < s.power_cuts.size(); ++i)
      if (std::find(s.power_cuts.begin(), s.power_cuts.begin() + std::ptrdiff_t(i), s.power_cuts[i]) !=
          s.power_cuts.begin() + std::ptrdiff_t(i))
        report(join("stock.power_cuts", i), exact(s.power_cuts[i]), "a duration that is not in the list yet");
    const auto& generation = s.quarantine.generation;
    rising("stock.quarantine.generation", generation, 2, [](const PestGeneration& g) { return g.temperature; });
  }

  void production() {
    const auto& p = d_.production;
    below("production.cut_area", p.cut_area, p.sale_area, "the sale area");
    std::size_t tanks = 0;
    for (const auto& [kind, t] : d_.tanks.kinds) tanks += t.names.size();
    if (static_cast<std::size_t>(p.rotation.fallow_tanks) >= tanks)
      report("production.rotation.fallow_tanks", std::to_string(p.rotation.fallow_tanks),
             "fewer than the tanks, " + std::to_string(tanks));
  }

  void workers() {
    for (const auto& [name, b] : d_.workers.bodies) {
      const std::string here = join("workers", name);
      below(here + ".shoulder", b.shoulder, b.stature, "the stature");
      below(here + ".elbow", b.elbow, b.shoulder, "the height of the shoulder");
    }
  }

  const Design& d_;
  std::vector<Contradiction> found_;
};

// ---- limits ---------------------------------------------------------------------------------------------------------

// Applies the limits of the schema to every number, list, text and word inside a structure.
class LimitWalk {
 public:
  explicit LimitWalk(std::string path) : path_(std::move(path)) {}

  template <class T>
  void operator()(std::string_view key, const T& member, const schema::Limit& limit,
                  schema::Presence presence = schema::Presence::required) {
    check(join(path_, key), member, limit, presence);
  }
  template <class T>
  void operator()(std::string_view key, const std::optional<T>& member, const schema::Limit& limit) {
    if (member) check(join(path_, key), *member, limit, schema::Presence::required);
  }
  template <class T>
  void rest(std::string_view, const std::map<std::string, T>& members, const schema::Limit& limit) {
    for (const auto& [name, member] : members) check(join(path_, name), member, limit, schema::Presence::required);
  }

 private:
  template <class T>
  static std::string shown(const T& value) {
    if constexpr (std::same_as<T, PracticalSalinity>)
      return text(value.value, "");
    else if constexpr (std::same_as<T, int>)
      return std::to_string(value);
    else if constexpr (std::same_as<T, double>)
      return text(value, "");
    else
      return std::isfinite(schema::magnitude(value)) ? exact(value) : text(value);
  }

  template <class T>
  static void check(const std::string& path, const T& value, const schema::Limit& limit, schema::Presence presence) {
    if constexpr (std::same_as<T, bool>) {
      return;
    } else if constexpr (std::same_as<T, std::string>) {
      if (value.empty()) throw InvalidInput(path, "\"\"", "text that is not empty");
    } else if constexpr (std::is_enum_v<T>) {
      if (std::none_of(schema::choices<T>.begin(), schema::choices<T>.end(),
                       [&](const auto& choice) { return choice.value == value; }))
        throw InvalidInput(path, "enumerator " + std::to_string(static_cast<long>(value)), "one of the named values");
    } else if constexpr (std::is_arithmetic_v<T> || std::same_as<T, PracticalSalinity> || text_forms::is_quantity<T>) {
      if (limit.accepts(value)) return;
      const std::string range = text_forms::range_text<T>(limit);
      throw InvalidInput(path, shown(value), range.empty() ? "a finite number" : range);
    } else if constexpr (requires { typename T::mapped_type; }) {
      if (value.empty()) throw InvalidInput(path, "nothing", "at least one");
      for (const auto& [key, member] : value) {
        if constexpr (std::same_as<typename T::key_type, std::string>) {
          check(join(path, key), member, limit, schema::Presence::required);
        } else {
          if (!schema::positive.accepts(key)) throw InvalidInput(path + ", key", shown(key), "> 0");
          check(join(path, exact(key)), member, limit, schema::Presence::required);
        }
      }
    } else if constexpr (text_forms::is_vector<T>) {
      if (value.empty() && presence == schema::Presence::required) throw InvalidInput(path, "nothing", "at least one");
      for (std::size_t i = 0; i < value.size(); ++i) check(join(path, i), value[i], limit, schema::Presence::required);
    } else {
      LimitWalk inside(path);
      if constexpr (schema::is_range<T>) {
        schema::fields(inside, value, limit);
        if (!(value.low <= value.high))
          throw InvalidInput(path + ".low", exact(value.low), "at most the second limit, " + exact(value.high));
      } else {
        schema::fields(inside, value);
      }
    }
  }

  std::string path_;
};

}  // namespace

std::vector<Contradiction> contradictions(const Design& design) { return Examination(design).run(); }

void validate(const Design& design) {
  LimitWalk walk{std::string()};
  schema::fields(walk, design);
  const auto found = contradictions(design);
  if (!found.empty()) throw InvalidInput(found.front().key, found.front().value, found.front().accepted);
}

}  // namespace theca::study
