// Fills a map cell by cell.
#pragma once

#include "theca/light/ppfd_map.hpp"
#include "theca/require.hpp"

namespace theca::light {

inline void require_cells(int nx, int ny) {
  require::within("nx", static_cast<double>(nx), 1.0, 2000.0);
  require::within("ny", static_cast<double>(ny), 1.0, 2000.0);
}

/// @param value  mol/(m2 s) at (x, y) in metres
template <class Value>
PpfdMap map_of(const Waterbody& water, const Length& plane_depth, int nx, int ny, Value&& value) {
  require_cells(nx, ny);
  PpfdMap result{.nx = nx,
                 .ny = ny,
                 .length = water.length,
                 .width = water.width,
                 .plane_depth = plane_depth,
                 .values = {},
                 .walls = water.walls,
                 .wall_reflectance = water.wall_reflectance};
  result.values.reserve(static_cast<std::size_t>(nx) * static_cast<std::size_t>(ny));
  for (int j = 0; j < ny; ++j)
    for (int i = 0; i < nx; ++i) result.values.push_back(value(si(result.x(i)), si(result.y(j))));
  return result;
}

}  // namespace theca::light
