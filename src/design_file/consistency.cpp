#include "consistency.hpp"

#include <algorithm>
#include <set>

#include "text_forms.hpp"

namespace theca::study {
namespace {

class Examination {
 public:
  explicit Examination(const Design& design) : d_(design) {}

  std::vector<Contradiction> run() {
    tanks();
    rows();
    sump();
    pump();
    pipes();
    lights();
    stock();
    production();
    return std::move(found_);
  }

 private:
  void report(std::vector<std::string> keys, std::string text) { found_.push_back({std::move(keys), std::move(text)}); }

  // Reports when not low <= high; the words say what is compared.
  void ordered(const Length& low, const Length& high, std::vector<std::string> keys, const std::string& high_words) {
    if (!(low <= high))
      report(std::move(keys), text_forms::exact(low) + " is more than " + high_words + ", " + text_forms::exact(high));
  }

  void room_between(const Length& wall, const Length& outside, std::vector<std::string> keys) {
    if (!(2.0 * wall < outside))
      report(std::move(keys),
             "two walls of " + text_forms::exact(wall) + " leave no room in " + text_forms::exact(outside));
  }

  void tanks() {
    if (d_.tanks.kinds.empty()) report({"tanks"}, "there is no kind of tank");
    std::set<std::string> names;
    for (const auto& [kind, t] : d_.tanks.kinds) {
      const std::vector<std::string> here = {"tanks", kind};
      const auto key = [&](auto... more) {
        auto keys = here;
        (keys.push_back(more), ...);
        return keys;
      };
      for (std::size_t i = 0; i < t.names.size(); ++i)
        if (!names.insert(t.names[i]).second)
          report(key("names", std::to_string(i)), "the name \"" + t.names[i] + "\" is given twice");
      const Length wall = t.outside_height - t.glass_base;
      ordered(t.glass_design, t.glass_nominal, key("glass_design"), "the nominal thickness");
      room_between(t.glass_nominal, std::min(t.outside_length, t.outside_width), key("glass_nominal"));
      ordered(t.water_depth, wall, key("water_depth"), "the wall height over the base");
      ordered(t.weir.crest, wall, key("weir", "crest"), "the wall height over the base");
      ordered(t.rack_plane, t.water_depth, key("rack_plane"), "the water depth");
      const auto brace = [&](const std::optional<RimBrace>& b, const char* name) {
        if (b) ordered(b->design_thickness, b->thickness, key(name, "design_thickness"), "the nominal thickness");
      };
      brace(t.rim_brace, "rim_brace");
      brace(t.rim_brace_variant, "rim_brace_variant");
      if (t.emergency_drain)
        ordered(t.emergency_drain->rim, t.emergency_drain->highest_level, key("emergency_drain", "rim"),
                "the highest level");
    }
  }

  void rows() {
    std::set<std::string> known, placed;
    for (const auto& [kind, t] : d_.tanks.kinds) known.insert(t.names.begin(), t.names.end());
    const auto& layout = d_.rooms.layout;
    for (const auto& [row, names] : layout.rows)
      for (std::size_t i = 0; i < names.size(); ++i) {
        const std::vector<std::string> keys = {"rooms", "layout", "rows", row, std::to_string(i)};
        if (!known.contains(names[i])) report(keys, "there is no tank \"" + names[i] + "\" in [tanks]");
        if (!placed.insert(names[i]).second) report(keys, "tank \"" + names[i] + "\" stands in two places");
      }
    for (const auto& name : known)
      if (!placed.contains(name)) report({"rooms", "layout", "rows"}, "tank \"" + name + "\" stands in no row");
    for (std::size_t i = 0; i < layout.across_width.size(); ++i) {
      const auto& tag = layout.across_width[i].tag;
      if (tag != "aisle" && !layout.rows.contains(tag) && !d_.tanks.kinds.contains(tag))
        report({"rooms", "layout", "across_width", std::to_string(i)},
               "\"" + tag + "\" is neither an aisle, nor a row, nor a kind of tank");
    }
    same_keys(layout.rows, "rooms.layout.rows", d_.pipes.header.to_first_branch,
              {"pipes", "header", "to_first_branch"});
  }

  static std::string name_of(const std::string& key) { return key; }
  static std::string name_of(const Length& key) { return text_forms::exact(key); }

  template <class A, class B>
  void same_keys(const A& one, const std::string& one_name, const B& other,
                 const std::vector<std::string>& other_keys) {
    for (const auto& entry : one)
      if (!other.contains(entry.first))
        report(other_keys, "\"" + name_of(entry.first) + "\" of " + one_name + " is missing here");
    for (const auto& entry : other)
      if (!one.contains(entry.first)) report(other_keys, "\"" + name_of(entry.first) + "\" is not in " + one_name);
  }

  void sump() {
    const auto& s = d_.sump;
    ordered(s.running_depth, s.highest_depth, {"sump", "running_depth"}, "the highest depth");
    ordered(s.highest_depth, s.outside_height - s.base, {"sump", "highest_depth"}, "the wall height over the base");
    ordered(s.pump_draws_air_below, s.running_depth, {"sump", "pump_draws_air_below"}, "the running depth");
    room_between(s.wall, std::min(s.outside_length, s.outside_width), {"sump", "wall"});
  }

  void pump() {
    const auto& curve = d_.pump.curve;
    if (curve.size() < 2) report({"pump", "curve"}, "a curve needs two points or more");
    for (std::size_t i = 1; i < curve.size(); ++i)
      if (!(curve[i].flow > curve[i - 1].flow))
        report({"pump", "curve", std::to_string(i)}, "the flow does not increase from point to point");
  }

  void pipes() {
    const auto& c = d_.pipes.content;
    same_keys(c.per_length, "pipes.content.per_length", c.counted_length, {"pipes", "content", "counted_length"});
  }

  void lights() {
    const auto& l = d_.lights;
    if (l.angle.size() < 2) report({"lights", "angle"}, "a distribution needs two angles or more");
    if (l.angle.size() != l.intensity.size())
      report({"lights", "intensity"}, "there are " + std::to_string(l.intensity.size()) + " intensities for " +
                                          std::to_string(l.angle.size()) + " angles");
    for (std::size_t i = 1; i < l.angle.size(); ++i)
      if (!(l.angle[i] > l.angle[i - 1]))
        report({"lights", "angle", std::to_string(i)}, "the angle does not increase from value to value");
    if (!l.proposals.contains(d_.money.lights_as))
      report({"money", "lights_as"}, "there is no \"" + d_.money.lights_as + "\" in lights.proposals");
  }

  void stock() {
    const auto& s = d_.stock;
    same_keys(d_.tanks.kinds, "tanks", s.fish, {"stock", "fish"});
    if (s.grazers_A && !d_.tanks.kinds.contains("A"))
      report({"stock", "grazers_A"}, "there is no kind of tank \"A\" in [tanks]");
    if (s.lit_surface_A && !d_.tanks.kinds.contains("A"))
      report({"stock", "lit_surface_A"}, "there is no kind of tank \"A\" in [tanks]");
    const auto& generation = s.quarantine.generation;
    if (generation.size() < 2) report({"stock", "quarantine", "generation"}, "interpolation needs two points or more");
    for (std::size_t i = 1; i < generation.size(); ++i)
      if (!(generation[i].temperature > generation[i - 1].temperature))
        report({"stock", "quarantine", "generation", std::to_string(i)},
               "the temperature does not increase from point to point");
  }

  void production() {
    const auto& p = d_.production;
    if (!(p.cut_area < p.sale_area))
      report({"production", "cut_area"},
             text_forms::exact(p.cut_area) + " is not less than the sale area, " + text_forms::exact(p.sale_area));
    std::size_t tanks = 0;
    for (const auto& [kind, t] : d_.tanks.kinds) tanks += t.names.size();
    if (static_cast<std::size_t>(p.rotation.fallow_tanks) >= tanks)
      report({"production", "rotation", "fallow_tanks"}, "no tank is stocked when " +
                                                             std::to_string(p.rotation.fallow_tanks) + " of " +
                                                             std::to_string(tanks) + " are fallow");
  }

  const Design& d_;
  std::vector<Contradiction> found_;
};

}  // namespace

std::vector<Contradiction> contradictions(const Design& design) { return Examination(design).run(); }

}  // namespace theca::study
