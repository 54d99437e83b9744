#include "theca/light/placement.hpp"

#include "../root.hpp"
#include "limits.hpp"
#include "theca/require.hpp"

namespace theca::light {

void require_valid(const PpfdTarget& target) {
  require::not_negative("target lower mean", target.lower_mean);
  require::finite("target upper mean", target.upper_mean);
  require::that(target.upper_mean >= target.lower_mean, "target upper mean", target.upper_mean,
                "at least the lower mean, " + text(target.lower_mean));
  require::finite("target highest", target.highest);
  require::that(target.highest >= target.lower_mean, "target highest", target.highest,
                "at least the lower mean, " + text(target.lower_mean));
  require::within("target min over mean", target.min_over_mean, 0.0, 1.0);
}

bool meets(const PpfdMap& map, const PpfdTarget& target) {
  require_valid(target);
  const PhotonFluxDensity mean = map.mean();
  return mean >= target.lower_mean && mean <= target.upper_mean && map.max() <= target.highest &&
         map.min_over_mean() >= target.min_over_mean;
}

Length mounting_height_for(const PhotonFluxDensity& target_mean, const Luminaire& luminaire, int count,
                           const LitPlane& plane, const Length& lowest, const Length& highest, const Angle& heading) {
  require::positive("target mean", target_mean);
  limits::height("lowest mounting height", lowest);
  limits::height("highest mounting height", highest);
  require::that(lowest <= highest, "lowest mounting height", lowest, "at most the highest, " + text(highest));
  const auto excess = [&](double height_m) {
    const auto row =
        evenly_spaced(luminaire, count, plane.water.length, plane.water.width, from_si<Length>(height_m), heading);
    return si(map(row, plane.water, plane.depth, plane.nx, plane.ny).mean()) - si(target_mean);
  };
  const double at_lowest = excess(si(lowest)), at_highest = excess(si(highest));
  require::that(at_lowest == 0.0 || at_highest == 0.0 || (at_lowest > 0.0) != (at_highest > 0.0), "target mean",
                target_mean,
                "between the means at the highest and lowest mounting height, " +
                    text(target_mean + from_si<PhotonFluxDensity>(at_highest)) + " and " +
                    text(target_mean + from_si<PhotonFluxDensity>(at_lowest)));
  return from_si<Length>(
      theca::detail::root_between("mounting height", excess, si(lowest), si(highest), at_lowest, at_highest).at());
}

std::optional<Placement> fewest_luminaires(const PpfdTarget& target, const Luminaire& luminaire, const LitPlane& plane,
                                           const Length& mounting_height, int most, const Angle& heading) {
  require_valid(target);
  require_valid(luminaire);
  require_valid(plane.water);
  require::within("most", static_cast<double>(most), 1.0, 1000.0);
  for (int count = 1; count <= most; ++count) {
    if (!fits_in_row(luminaire, count, plane.water.length, heading)) break;
    auto row = evenly_spaced(luminaire, count, plane.water.length, plane.water.width, mounting_height, heading);
    auto lit = map(row, plane.water, plane.depth, plane.nx, plane.ny);
    if (meets(lit, target)) return Placement{.luminaires = std::move(row), .map = std::move(lit)};
  }
  return std::nullopt;
}

}  // namespace theca::light
