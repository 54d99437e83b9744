// Stock thicknesses of float glass: the nominal size it is sold by and the least it may measure.
#pragma once

#include <span>

#include "theca/units.hpp"

namespace theca::materials {

/// Two numbers, not one: a pane sold as 12 mm may measure 11.91 mm, and 10 mm only 9.02 mm. Strength and deflection go
/// with the minimum.
struct StockThickness {
  Length nominal;
  Length minimum;
};

/// The stock sizes in rising order.
/// @source ASTM C1036 / ASTM E1300 Table 4, nominal metric designation and minimum thickness
std::span<const StockThickness> float_glass_thicknesses();

/// Minimum thickness of a stock size.
/// @param nominal  one of the sizes above, within 0.01 mm; an inch fraction goes by its metric designation (1/2 in is
///                 12 mm stock)
/// @throws InvalidInput  not a stock size; the message lists those there are
Length minimum_thickness(const Length& nominal);

}  // namespace theca::materials
