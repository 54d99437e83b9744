#include <string>
#include <vector>

#include "bent_tank.hpp"
#include "collector.hpp"
#include "stand_and_motion_checks.hpp"
#include "theca/require.hpp"
#include "theca/study/assessment.hpp"
#include "theca/study/parts.hpp"
#include "theca/study/validate.hpp"

namespace theca::study {
namespace {

using structure::LoadDuration;
using structure::TankBetweenLimits;
using structure::TankPart;

/// For how long the water is to stand when the probability of breakage is asked.
constexpr Time service_life = 10.0 * units::year;

void glass_checks(const Design& design, const std::string& tank, Bent& running, Collector& checks) {
  const auto stress = [&](const std::string& subject, TankPart part) {
    checks.add("structure: " + subject + " stress",
               [&] { return structure::tank_stress_check(subject, running.limits(), part, glass_criterion(design)); });
  };
  const auto wall = [&](const std::string& subject, TankPart part) {
    stress(subject, part);
    checks.add("structure: " + subject + " deflection", [&] {
      const Length width = structure::part(running.limits().hinged, part).width;
      return structure::tank_deflection_check(subject, running.limits(), part,
                                              width / design.tanks.glass.deflection_limit.divisor,
                                              deflection_limit_source);
    });
  };
  wall(tank + " long wall", TankPart::front_wall);
  wall(tank + " end wall", TankPart::left_wall);
  stress(tank + " base", TankPart::base);
}

void brace_checks(const Design& design, const std::string& brace, Bent& running, const Length& bite,
                  Collector& checks) {
  checks.add("structure: " + brace + " stress",
             [&] { return structure::tank_brace_stress_check(brace, running.limits(), glass_criterion(design)); });
  checks.add("structure: " + brace + " bond, permanent", [&] {
    return structure::tank_bond_check(brace + " bond", running.limits(), bite, LoadDuration::permanent,
                                      {design.tanks.joint.allowable_permanent, "permanent", "stated in the design"});
  });
}

void joint_checks(const Design& design, const std::string& tank, const TankKind& kind, Bent& running, Bent& full,
                  Collector& checks) {
  const Joint& joint = design.tanks.joint;
  checks.add("structure: " + tank + " joints, permanent", [&] {
    return structure::tank_joint_check(tank + " joints", running.limits(), kind.joint_bite, LoadDuration::permanent,
                                       {joint.allowable_permanent, "permanent", "stated in the design"});
  });
  // The water stands at the rim for as long as it takes to notice a blocked drain.
  checks.add("structure: " + tank + " joints, drain blocked", [&] {
    return structure::tank_joint_check(tank + " joints", full.limits(), kind.joint_bite, LoadDuration::short_term,
                                       {joint.allowable_short_term, "short term", "stated in the design"});
  });
}

/// Wall or base with the largest tension under any joint model.
struct WorstPane {
  const structure::BentTank* bent = nullptr;
  structure::BentPart part;
};
WorstPane worst_pane(const TankBetweenLimits& limits) {
  WorstPane worst;
  const auto look = [&worst](const structure::BentTank& bent) {
    for (const TankPart which : {TankPart::front_wall, TankPart::left_wall, TankPart::base}) {
      const structure::BentPart part = structure::part(bent, which);
      if (!worst.bent || part.max_tension > worst.part.max_tension) worst = {&bent, part};
    }
  };
  look(limits.hinged);
  look(limits.monolithic);
  if (limits.as_bonded) look(*limits.as_bonded);
  return worst;
}

std::string words_of(const WorstPane& pane) {
  return std::string(name(pane.part.part)) + ", joints " + std::string(name(pane.bent->joints));
}

/// Samples a pane at the middles of cells. The state of a tank's part holds the larger principal tension of both faces
/// only: it is taken as the same in all directions on one face, on the heavy side of bending, which pulls one face
/// where it presses the other.
structure::GlassFailure breakage(const WorstPane& pane) {
  constexpr int along = 40, up = 16;
  const structure::BentPart& part = pane.part;
  const Area cell = part.width * part.height / double(along * up);
  std::vector<structure::SurfaceStress> samples;
  for (int i = 0; i < along; ++i)
    for (int j = 0; j < up; ++j) {
      const Pressure tension =
          structure::state_at(*pane.bent, part.part, (i + 0.5) / along * part.width, (j + 0.5) / up * part.height)
              .max_tension;
      samples.push_back({cell, tension, tension});
    }
  return structure::glass_failure(samples, service_life);
}

/// The recognised criteria side by side, at the pane with the largest tension.
void criteria_checks(const std::string& tank, Bent& running, Collector& checks) {
  const std::string subject = tank + " glass";
  checks.group("structure: " + subject + " criteria", [&] {
    const WorstPane pane = worst_pane(running.limits());
    // Beyond linear theory the figures of bending alone say too little of the glass.
    require::valid("bending without stretching", "deflection / thickness", pane.part.deflection_over_thickness, 0.0,
                   structure::linear_deflection_limit);
    const auto criteria =
        structure::annealed_glass_criteria(materials::permanent_load, pane.part.width * pane.part.height);
    for (Check& check : structure::glass_criteria_checks(subject, pane.part.max_tension, words_of(pane), criteria)) {
      const std::string own = check.name;
      checks.add(own, [&] { return check; });
    }
    checks.add("structure: " + subject + " breakage", [&] {
      return structure::glass_breakage_check(subject, breakage(pane),
                                             words_of(pane) + ", over " + number(in(service_life, units::year)) +
                                                 " years, tension taken as equal both ways");
    });
  });
}

void sump_checks(const Design& design, Collector& checks) {
  sump_floor_check(design, checks);
  checks.add_unjudged(
      {.name = "structure: sump walls",
       .question = "Do the walls and joints of the sump bear the water?",
       .where = "sump",
       .source = "none",
       .caution = "A sump bows and breaks like any tank; have its maker or an engineer state the depth it "
                  "is built for."},
      "The design states no material for the sump, so that nothing is computed.");
}

}  // namespace

std::vector<Check> structure_checks(const Design& design) {
  validate(design);
  Collector checks;
  for (const auto& [name, kind] : design.tanks.kinds) {
    const std::string tank = "tank " + name;
    const structure::Tank built = built_tank(design, kind);
    Bent running(design, built, kind.water_depth), full(design, built, built.wall_height);
    glass_checks(design, tank, running, checks);
    criteria_checks(tank, running, checks);
    if (built.rim) brace_checks(design, tank + " rim brace", running, built.rim->bond->bite, checks);
    joint_checks(design, tank, kind, running, full, checks);
    stand_and_motion_checks(design, tank, kind, checks);
  }
  sump_checks(design, checks);
  return checks.take();
}

}  // namespace theca::study
