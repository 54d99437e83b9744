#include "theca/structure/size.hpp"

#include <algorithm>
#include <vector>

#include "theca/require.hpp"

namespace theca::structure {

std::optional<Sizing> thinnest(const Panel& panel, const PressureLoad& load, const Pressure& allowable_tension,
                               const Length& allowable_deflection, std::span<const materials::StockThickness> stock) {
  require::positive("allowable tension", allowable_tension);
  require::positive("allowable deflection", allowable_deflection);
  require::that(!stock.empty(), "stock thicknesses", 0.0, "at least one");
  std::vector<materials::StockThickness> rising(stock.begin(), stock.end());
  for (const auto& sheet : rising) {
    require::positive("stock minimum thickness", sheet.minimum);
    require::positive("stock nominal thickness", sheet.nominal);
  }
  std::sort(rising.begin(), rising.end(), [](const auto& a, const auto& b) { return si(a.minimum) < si(b.minimum); });
  for (const auto& sheet : rising) {
    Panel tried = panel;
    tried.thickness = sheet.minimum;
    try {
      BentPanel bent = bend(tried, load);
      if (si(bent.max_tension) <= si(allowable_tension) && si(bent.max_deflection) <= si(allowable_deflection) &&
          bent.deflection_over_thickness <= linear_deflection_limit)
        return Sizing{sheet, std::move(bent)};
    } catch (const OutOfValidity&) {
      return std::nullopt;  // too stout for thin plate theory, and so are all that follow
    }
  }
  return std::nullopt;
}

}  // namespace theca::structure
