// The table of stock thicknesses.
#include "theca/materials/thickness.hpp"

#include <array>
#include <cmath>
#include <string>

#include "theca/require.hpp"

namespace theca::materials {
namespace {

constexpr StockThickness stock(double nominal_mm, double minimum_mm) {
  return {nominal_mm * units::millimetre, minimum_mm * units::millimetre};
}

constexpr std::array stock_sizes{stock(2.5, 2.16),   stock(3.0, 2.92),   stock(4.0, 3.78),  stock(5.0, 4.57),
                                 stock(6.0, 5.56),   stock(8.0, 7.42),   stock(10.0, 9.02), stock(12.0, 11.91),
                                 stock(16.0, 15.09), stock(19.0, 18.26), stock(22.0, 21.44)};

}  // namespace

std::span<const StockThickness> float_glass_thicknesses() { return stock_sizes; }

Length minimum_thickness(const Length& nominal) {
  require::positive("nominal thickness", nominal);
  constexpr double tolerance_m = 1e-5;
  std::string sizes;
  for (const StockThickness& size : stock_sizes) {
    if (std::abs(si(nominal) - si(size.nominal)) <= tolerance_m) return size.minimum;
    if (!sizes.empty()) sizes += ", ";
    sizes += text(in(size.nominal, units::millimetre), "");
  }
  throw InvalidInput("nominal thickness", text(in(nominal, units::millimetre), "mm"), "a stock size: " + sizes + " mm");
}

}  // namespace theca::materials
