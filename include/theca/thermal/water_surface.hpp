// Everything that leaves the tank through its water surface: evaporation, convection and radiation of the free share,
// heat through a lid over the covered one.
#pragma once

#include <optional>

#include "theca/thermal/evaporation.hpp"
#include "theca/thermal/lid.hpp"
#include "theca/units.hpp"

namespace theca::thermal {

/// A water surface, free or partly under a lid.
struct WaterSurface {
  EvaporatingSurface free;                ///< the whole surface's length and width, and what is over it
  Temperature surroundings{};             ///< mean radiant temperature of what it looks at
  double emissivity = 0.96;               ///< of water, long-wave, 0 to 1
  std::optional<Lid> lid = std::nullopt;  ///< none: all of it is free
};

/// A heat flow with the range in which models put it; low <= central <= high, sign included.
struct PowerRange {
  Power central{}, low{}, high{};
};

/// Powers and water lost, of the whole surface; out of the water positive.
struct WaterSurfaceHeat {
  PowerRange evaporation;  ///< mean and extremes of the models, see EvaporationEstimate
  PowerRange convection;   ///< the film that the analogy also uses, with its spread
  Power radiation{};       ///< of the free share
  PowerRange lid;          ///< through the covered share
  MassFlow evaporated{}, evaporated_low{}, evaporated_high{};  ///< leaves as vapour; negative, the room condenses on it
  EvaporationEstimate per_area;                                ///< model by model
};

/// @throws InvalidInput  a bad field, named; OutOfValidity, NotConverged  from films and lid
WaterSurfaceHeat water_surface_heat(const WaterSurface& surface);

}  // namespace theca::thermal
