#include "theca/light/checks.hpp"

#include <string>

#include "theca/require.hpp"

namespace theca::light {
namespace {

constexpr const char* over_water =
    "Electricity near water: residual-current protection on every circuit, drip loops, continuous load at 80 % of the "
    "breaker, installed by a licensed electrician. A luminaire over water needs a mounting that holds it when one "
    "fastening lets go. Bright light harms eyes: nobody looks into a lit luminaire, and it hangs clear of heads.";

std::string model(const PpfdMap& map) {
  return std::string(
             "superposed angular intensity, Snell and Fresnel at a flat surface, flux-tube spreading, absorption along "
             "the path; ") +
         (map.walls == Walls::ignored  ? std::string("walls ignored")
          : map.walls == Walls::mirror ? "walls mirror " + number(100.0 * map.wall_reflectance, 3) + " %"
          : map.walls == Walls::pane   ? std::string("walls are clear panes")
                                       : std::string("each wall as it is"));
}

std::string where(const MapPlace& place) {
  return "at " + number(in(place.x, units::inch)) + " in along, " + number(in(place.y, units::inch)) +
         " in across, from an inside corner";
}

std::string plane(const PpfdMap& map) {
  return "plane " + number(in(map.plane_depth, units::inch)) + " in below the surface";
}

Measure shown(const PhotonFluxDensity& ppfd) { return measure(ppfd, units::umol_per_square_metre_second); }

}  // namespace

Check lower_mean_check(const PpfdMap& map, const PpfdTarget& target) {
  require_valid(target);
  return make_check({.name = "light: lower mean PPFD",
                     .question = "Is there enough light on average?",
                     .where = plane(map),
                     .source = model(map),
                     .caution = over_water},
                    shown(target.lower_mean), shown(map.mean()), ppfd_uncertainty);
}

Check upper_mean_check(const PpfdMap& map, const PpfdTarget& target) {
  require_valid(target);
  return make_check({.name = "light: upper mean PPFD",
                     .question = "Is there no more light on average than the stock is meant to get?",
                     .where = plane(map),
                     .source = model(map),
                     .caution = over_water},
                    shown(map.mean()), shown(target.upper_mean), ppfd_uncertainty);
}

Check highest_check(const PpfdMap& map, const PpfdTarget& target) {
  require_valid(target);
  return make_check({.name = "light: highest PPFD",
                     .question = "Is every place below the highest light level allowed?",
                     .where = where(map.brightest()),
                     .source = model(map),
                     .caution = over_water},
                    shown(map.max()), shown(target.highest), ppfd_uncertainty);
}

Check uniformity_check(const PpfdMap& map, const PpfdTarget& target) {
  require_valid(target);
  return make_check({.name = "light: uniformity",
                     .question = "Is the light even enough: darkest place at least this share of the mean?",
                     .where = where(map.darkest()),
                     .source = model(map),
                     .caution = over_water},
                    measure(target.min_over_mean * units::one, units::percent),
                    measure(map.min_over_mean() * units::one, units::percent), ppfd_uncertainty);
}

}  // namespace theca::light
