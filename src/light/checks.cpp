#include "theca/light/checks.hpp"

#include <cstdio>

namespace theca::light {
namespace {

constexpr const char* model =
    "superposed angular intensity, Snell and Fresnel at a flat surface, flux-tube spreading, absorption along the path";

constexpr const char* over_water =
    "Electricity near water: residual-current protection on every circuit, drip loops, continuous load at 80 % of the "
    "breaker, installed by a licensed electrician. A luminaire over water needs a mounting that holds it when one "
    "fastening lets go. Bright light harms eyes: nobody looks into a lit luminaire, and it hangs clear of heads.";

std::string where(const MapPlace& place) {
  char words[96];
  std::snprintf(words, sizeof words, "at %.1f in along, %.1f in across, from an inside corner",
                in(place.x, units::inch), in(place.y, units::inch));
  return words;
}

std::string plane(const PpfdMap& map) {
  char words[64];
  std::snprintf(words, sizeof words, "plane %.1f in below the surface", in(map.plane_depth, units::inch));
  return words;
}

Measure shown(const PhotonFluxDensity& ppfd) { return measure(ppfd, units::umol_per_square_metre_second); }

}  // namespace

Check lower_mean_check(const PpfdMap& map, const PpfdTarget& target) {
  require_valid(target);
  return make_check({.name = "light: lower mean PPFD",
                     .question = "Is there enough light on average?",
                     .where = plane(map),
                     .source = model,
                     .caution = over_water},
                    shown(target.lower_mean), shown(map.mean()), ppfd_uncertainty);
}

Check upper_mean_check(const PpfdMap& map, const PpfdTarget& target) {
  require_valid(target);
  return make_check({.name = "light: upper mean PPFD",
                     .question = "Is there no more light on average than the stock is meant to get?",
                     .where = plane(map),
                     .source = model,
                     .caution = over_water},
                    shown(map.mean()), shown(target.upper_mean), ppfd_uncertainty);
}

Check highest_check(const PpfdMap& map, const PpfdTarget& target) {
  require_valid(target);
  return make_check({.name = "light: highest PPFD",
                     .question = "Is every place below the highest light level allowed?",
                     .where = where(map.brightest()),
                     .source = model,
                     .caution = over_water},
                    shown(map.max()), shown(target.highest), ppfd_uncertainty);
}

Check uniformity_check(const PpfdMap& map, const PpfdTarget& target) {
  require_valid(target);
  return make_check({.name = "light: uniformity",
                     .question = "Is the light even enough: darkest place over mean?",
                     .where = where(map.darkest()),
                     .source = model,
                     .caution = over_water},
                    measure(target.min_over_mean, "min/mean"), measure(map.min_over_mean(), "min/mean"),
                    ppfd_uncertainty);
}

}  // namespace theca::light
