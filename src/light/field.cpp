#include "theca/light/field.hpp"

#include <vector>

#include "arrivals.hpp"
#include "map_cells.hpp"
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

PpfdMap map(Scene& scene, const Waterbody& water, int nx, int ny) {
  require_cells(nx, ny);
  tabulate_paths(scene, static_cast<std::size_t>(nx) * static_cast<std::size_t>(ny));
  std::vector<Arrival> arrivals;
  return map_of(water, from_si<Length>(scene.depth_m), nx, ny, [&](double x_m, double y_m) {
    gather_arrivals(scene, x_m, y_m, arrivals);
    return sum_of(arrivals);
  });
}

PpfdMap map(std::span<const PlacedLuminaire> luminaires, const Waterbody& water, const Length& plane_depth, int nx,
            int ny, const Receiver& receiver) {
  Scene scene = make_scene(luminaires, water, plane_depth, receiver);
  return map(scene, water, nx, ny);
}

PhotonDose daily_light_integral(const PhotonFluxDensity& ppfd, const Time& photoperiod) {
  require::not_negative("ppfd", ppfd);
  require::within("photoperiod", photoperiod, Time(), 24.0 * units::hour);
  return ppfd * photoperiod;
}

}  // namespace theca::light
