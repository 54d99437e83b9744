#include "theca/light/ppfd_map.hpp"

#include <algorithm>
#include <cstddef>
#include <numeric>

#include "theca/require.hpp"

namespace theca::light {
namespace {

void require_cells(const PpfdMap& map) {
  require::that(map.nx >= 1 && map.ny >= 1 &&
                    map.values.size() == static_cast<std::size_t>(map.nx) * static_cast<std::size_t>(map.ny),
                "map: number of values", static_cast<double>(map.values.size()), "nx x ny, at least 1");
}

MapPlace place(const PpfdMap& map, std::size_t index) {
  const int i = static_cast<int>(index % static_cast<std::size_t>(map.nx));
  const int j = static_cast<int>(index / static_cast<std::size_t>(map.nx));
  return {.value = from_si<PhotonFluxDensity>(map.values[index]), .x = map.x(i), .y = map.y(j)};
}

}  // namespace

PhotonFluxDensity PpfdMap::at(int i, int j) const {
  require_cells(*this);
  require::within("i", static_cast<double>(i), 0.0, static_cast<double>(nx - 1));
  require::within("j", static_cast<double>(j), 0.0, static_cast<double>(ny - 1));
  return from_si<PhotonFluxDensity>(
      values[static_cast<std::size_t>(j) * static_cast<std::size_t>(nx) + static_cast<std::size_t>(i)]);
}

Length PpfdMap::x(int i) const {
  require::within("i", static_cast<double>(i), 0.0, static_cast<double>(nx - 1));
  return (static_cast<double>(i) + 0.5) / static_cast<double>(nx) * length;
}

Length PpfdMap::y(int j) const {
  require::within("j", static_cast<double>(j), 0.0, static_cast<double>(ny - 1));
  return (static_cast<double>(j) + 0.5) / static_cast<double>(ny) * width;
}

PhotonFluxDensity PpfdMap::mean() const {
  require_cells(*this);
  return from_si<PhotonFluxDensity>(std::accumulate(values.begin(), values.end(), 0.0) /
                                    static_cast<double>(values.size()));
}

PhotonFluxDensity PpfdMap::min() const { return darkest().value; }
PhotonFluxDensity PpfdMap::max() const { return brightest().value; }

MapPlace PpfdMap::darkest() const {
  require_cells(*this);
  return place(*this, static_cast<std::size_t>(std::min_element(values.begin(), values.end()) - values.begin()));
}

MapPlace PpfdMap::brightest() const {
  require_cells(*this);
  return place(*this, static_cast<std::size_t>(std::max_element(values.begin(), values.end()) - values.begin()));
}

double PpfdMap::min_over_mean() const {
  const double average = si(mean());
  return average > 0.0 ? si(min()) / average : 0.0;
}

PpfdMap aged(const PpfdMap& as_new, double factor) {
  require::that(factor > 0.0 && factor <= 1.0, "ageing factor", factor, "> 0 and <= 1");
  PpfdMap result = as_new;
  for (double& value : result.values) value *= factor;
  return result;
}

}  // namespace theca::light
