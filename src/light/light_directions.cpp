#include "theca/light/light_directions.hpp"

#include <algorithm>
#include <cmath>

#include "arrivals.hpp"
#include "obstruction.hpp"
#include "theca/require.hpp"

namespace theca::light {

std::vector<LightDirection> light_directions(std::span<const PlacedLuminaire> luminaires, const Waterbody& water,
                                             const Length& depth, const Length& x, const Length& y, const Angle& apart,
                                             const ShadingBodies& bodies) {
  const Scene scene = make_scene(luminaires, water, depth, {.spherical = true});
  require::within("x", x, Length(), water.length);
  require::within("y", y, Length(), water.width);
  require::positive("apart", apart);
  require::within("apart", apart, Angle(), 90.0 * units::degree);
  const Obstruction obstruction(bodies);
  std::vector<Arrival> arrivals;
  gather_arrivals(scene, si(x), si(y), arrivals);
  std::erase_if(arrivals, [&](const Arrival& a) { return obstruction.stops(scene, a, si(x), si(y)); });
  std::stable_sort(arrivals.begin(), arrivals.end(),
                   [](const Arrival& a, const Arrival& b) { return a.ppfd > b.ppfd; });
  const double all = sum_of(arrivals), cosine = std::cos(si(apart));

  struct Bundle {
    Arrival first;
    double ppfd, to_x, to_y, down;
  };
  std::vector<Bundle> bundles;
  for (const Arrival& a : arrivals) {
    auto own = std::find_if(bundles.begin(), bundles.end(), [&](const Bundle& b) {
      return a.to_x * b.first.to_x + a.to_y * b.first.to_y + a.down * b.first.down >= cosine;
    });
    if (own == bundles.end())
      own = bundles.insert(own, {.first = a, .ppfd = 0.0, .to_x = 0.0, .to_y = 0.0, .down = 0.0});
    own->ppfd += a.ppfd;
    own->to_x += a.ppfd * a.to_x;
    own->to_y += a.ppfd * a.to_y;
    own->down += a.ppfd * a.down;
  }
  std::stable_sort(bundles.begin(), bundles.end(), [](const Bundle& a, const Bundle& b) { return a.ppfd > b.ppfd; });
  std::vector<LightDirection> directions;
  for (const Bundle& b : bundles) {
    const double sideways = std::hypot(b.to_x, b.to_y);
    directions.push_back({.from_vertical = from_si<Angle>(std::atan2(sideways, b.down)),
                          .azimuth = from_si<Angle>(sideways > 0.0 ? std::atan2(-b.to_y, -b.to_x) : 0.0),
                          .share = b.ppfd / all});
  }
  return directions;
}

int distinct_directions(const std::vector<LightDirection>& directions, double least_share) {
  require::positive("least share", least_share);
  require::within("least share", least_share, 0.0, 1.0);
  return static_cast<int>(std::count_if(directions.begin(), directions.end(),
                                        [&](const LightDirection& d) { return d.share >= least_share; }));
}

}  // namespace theca::light
