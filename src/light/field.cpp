#include "theca/light/field.hpp"

#include <vector>

#include "arrivals.hpp"
#include "theca/require.hpp"

namespace theca::light {
PhotonFluxDensity ppfd_at(std::span<const PlacedLuminaire> luminaires, const Waterbody& water,
                          const Length& plane_depth, const Length& x, const Length& y, const Receiver& receiver) {
  const Scene scene = make_scene(luminaires, water, plane_depth, receiver);
  require::within("x", x, Length(), water.length);
  require::within("y", y, Length(), water.width);
  std::vector<Arrival> arrivals;
  gather_arrivals(scene, si(x), si(y), arrivals);
  return from_si<PhotonFluxDensity>(sum_of(arrivals));
}

PpfdMap map(std::span<const PlacedLuminaire> luminaires, const Waterbody& water, const Length& plane_depth, int nx,
            int ny, const Receiver& receiver) {
  const Scene scene = make_scene(luminaires, water, plane_depth, receiver);
  require::within("nx", static_cast<double>(nx), 1.0, 2000.0);
  require::within("ny", static_cast<double>(ny), 1.0, 2000.0);
  PpfdMap result{.nx = nx,
                 .ny = ny,
                 .length = water.length,
                 .width = water.width,
                 .plane_depth = plane_depth,
                 .values = {},
                 .walls = water.walls,
                 .wall_reflectance = water.wall_reflectance};
  result.values.reserve(static_cast<std::size_t>(nx) * static_cast<std::size_t>(ny));
  std::vector<Arrival> arrivals;
  for (int j = 0; j < ny; ++j)
    for (int i = 0; i < nx; ++i) {
      gather_arrivals(scene, si(result.x(i)), si(result.y(j)), arrivals);
      result.values.push_back(sum_of(arrivals));
    }
  return result;
}

PhotonDose daily_light_integral(const PhotonFluxDensity& ppfd, const Time& photoperiod) {
  require::not_negative("ppfd", ppfd);
  require::within("photoperiod", photoperiod, Time(), 24.0 * units::hour);
  return ppfd * photoperiod;
}

}  // namespace theca::light
