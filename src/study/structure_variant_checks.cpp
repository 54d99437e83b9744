#include <algorithm>
#include <string>
#include <vector>

#include "bent_tank.hpp"
#include "collector.hpp"
#include "theca/study/assessment.hpp"
#include "theca/study/parts.hpp"
#include "theca/study/validate.hpp"

namespace theca::study {
namespace {

using structure::TankPart;

constexpr int wall_degree = 20;  ///< of a single wall, six times as long as high

class Variants {
 public:
  Variants(const Design& design, Collector& checks) : design_(design), checks_(checks) {}

  void look_at(const std::string& tank, const TankKind& kind) {
    if (kind.rim_brace_variant) {
      TankKind braced = kind;
      braced.rim_brace = kind.rim_brace_variant;
      whole_tank(tank + " variant rim brace", kind, built_tank(design_, braced));
    }
    if (kind.cross_brace_variant) whole_tank(tank + " variant cross brace", kind, with_cross_brace(kind));
    for (const GlassVariant& glass : kind.glass_variants) {
      TankKind other = kind;
      other.rim_brace.reset();
      std::string name = tank + " variant ";
      if (glass.thickness) {
        name += number(in(*glass.thickness, units::millimetre)) + " mm ";
        // A measured thickness, of walls and base alike.
        other.glass_nominal = other.glass_design = other.glass_base = *glass.thickness;
        other.joint_bite = std::min(other.joint_bite, *glass.thickness);
        // A thicker base leaves a lower wall: the water then stands at its top at most.
        other.water_depth = std::min(other.water_depth, structure::wall_height(shell(design_, other)));
      }
      if (glass.top_edge == TopEdge::rimless)
        whole_tank(name + "rimless", other, built_tank(design_, other));
      else
        wall_with_held_top(name + "held top edge", other);
    }
  }

 private:
  template <class Make>
  void add(const std::string& name, Make&& make) {
    checks_.add("structure: " + name, [&] {
      Check check = make();
      check.caution.insert(0, "This is a variant, not the tank as designed. ");
      return check;
    });
  }

  structure::Tank with_cross_brace(const TankKind& kind) const {
    structure::Tank tank = built_tank(design_, kind);
    const Length thickness = tank.rim ? tank.rim->thickness : tank.wall_thickness;
    tank.cross_braces.push_back({.at = 0.5 * tank.inside_length,
                                 .width = kind.cross_brace_variant->width,
                                 .thickness = thickness,
                                 .material = tank.material,
                                 .bond = joint_bead(design_, std::min(kind.joint_bite, thickness))});
    return tank;
  }

  void whole_tank(const std::string& variant, const TankKind& kind, const structure::Tank& tank) {
    Bent bent(design_, tank, kind.water_depth);
    const std::string wall = variant + " long wall";
    add(wall + " stress", [&] {
      return structure::tank_stress_check(wall, bent.limits(), TankPart::front_wall, glass_criterion(design_));
    });
    add(wall + " deflection", [&] {
      const Length width = structure::part(bent.limits().hinged, TankPart::front_wall).width;
      return structure::tank_deflection_check(wall, bent.limits(), TankPart::front_wall, limit(width),
                                              deflection_limit_source);
    });
    if (!tank.rim && tank.cross_braces.empty()) return;
    add(variant + " braces stress", [&] {
      return structure::tank_brace_stress_check(variant + " braces", bent.limits(), glass_criterion(design_));
    });
  }

  /// No brace holds a top edge in place: the long wall alone, as the best that one could do.
  void wall_with_held_top(const std::string& variant, const TankKind& kind) {
    const std::string wall = variant + " long wall";
    const auto bent = [&] {
      return structure::bend(long_wall(design_, kind, structure::hinged()), water_load(design_, kind), wall_degree);
    };
    add(wall + " stress", [&] { return structure::panel_stress_check(wall, bent(), glass_criterion(design_)); });
    add(wall + " deflection", [&] {
      const structure::BentPanel panel = bent();
      return structure::panel_deflection_check(wall, panel, limit(panel.panel.width), deflection_limit_source);
    });
  }

  Length limit(const Length& width) const { return width / design_.tanks.glass.deflection_limit.divisor; }

  const Design& design_;
  Collector& checks_;
};

}  // namespace

std::vector<Check> structure_variant_checks(const Design& design) {
  validate(design);
  Collector checks;
  Variants variants(design, checks);
  for (const auto& [name, kind] : design.tanks.kinds) variants.look_at("tank " + name, kind);
  return checks.take();
}

}  // namespace theca::study
