#include "collector.hpp"
#include "theca/study/assessment.hpp"
#include "theca/study/parts.hpp"
#include "theca/study/validate.hpp"

namespace theca::study {
namespace {

void tank_checks(const Design& design, const std::string& tank, const TankKind& kind, Collector& checks) {
  const std::string& chosen = design.money.lights_as;
  const std::string subject = "light: " + tank + " (" + chosen + ") ";
  checks.group(subject + "field", [&] {
    const LightProposal& proposal = light_proposal(design, chosen);
    const light::PpfdTarget target = light_target(design);
    // Too little light and unevenness are judged without what the walls return, too little also at the end of the
    // fixtures' life; too much light with it, and as new. A coating behind the
    // glass may return more than clear panes do: the variant that mirrors.
    const light::PpfdMap low = rack_light(design, kind, proposal);
    const light::PpfdMap high = rack_light(design, kind, proposal, light::Walls::pane);
    const light::PpfdMap aged = light::aged(low, design.lights.ageing_factor);
    checks.add(subject + "least mean PPFD, aged", [&] { return light::lower_mean_check(aged, target); });
    checks.add(subject + "largest mean PPFD, as new", [&] { return light::upper_mean_check(high, target); });
    checks.add(subject + "brightest place, as new", [&] { return light::highest_check(high, target); });
    checks.add(subject + "uniformity", [&] { return light::uniformity_check(low, target); });
    checks.add(subject + "uniformity between panes", [&] { return light::uniformity_check(high, target); });
    if (!design.lights.wall_reflectance_variant) return;
    const light::PpfdMap mirrored = rack_light(design, kind, proposal, light::Walls::mirror);
    checks.add(subject + "largest mean PPFD, walls that mirror, as new",
               [&] { return light::upper_mean_check(mirrored, target); });
    checks.add(subject + "brightest place, walls that mirror, as new",
               [&] { return light::highest_check(mirrored, target); });
  });
}

}  // namespace

std::vector<Check> light_checks(const Design& design) {
  validate(design);
  Collector checks;
  for (const auto& [name, kind] : design.tanks.kinds) tank_checks(design, "tank " + name, kind, checks);
  return checks.take();
}

}  // namespace theca::study
