#include "collector.hpp"
#include "theca/study/assessment.hpp"
#include "theca/study/parts.hpp"

namespace theca::study {

std::vector<Check> light_checks(const Design& design) {
  Collector checks;
  const std::string& chosen = design.money.lights_as;
  const LightProposal& proposal = light_proposal(design, chosen);
  const light::PpfdTarget target = light_target(design);
  for (const auto& [name, kind] : design.tanks.kinds) {
    const std::string subject = "light: tank " + name + " (" + chosen + ") ";
    const light::PpfdMap as_new = rack_light(design, kind, proposal);
    // Too little light is judged at the end of the fixtures' life, too much when they are new.
    const light::PpfdMap aged = light::aged(as_new, design.lights.ageing_factor);
    checks.add(subject + "least mean PPFD, aged", [&] { return light::lower_mean_check(aged, target); });
    checks.add(subject + "largest mean PPFD, as new", [&] { return light::upper_mean_check(as_new, target); });
    checks.add(subject + "brightest place, as new", [&] { return light::highest_check(as_new, target); });
    checks.add(subject + "uniformity", [&] { return light::uniformity_check(as_new, target); });
  }
  return checks.take();
}

}  // namespace theca::study
