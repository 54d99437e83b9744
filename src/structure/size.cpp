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
  // One aspect ratio for all sheets: refused once, up front, and not taken for a thickness that does not suit.
  require::positive("width", panel.width);
  require::positive("height", panel.height);
  require::valid("panel bending", "width / height", si(panel.width) / si(panel.height), 1.0 / 20.0, 20.0);
  const double side = std::min(si(panel.width), si(panel.height));
  for (const auto& sheet : rising) {
    const double slenderness = si(sheet.minimum) / side;
    if (slenderness > thickest_over_side) break;     // too stout for a thin plate, and so are all that follow
    if (slenderness < thinnest_over_side) continue;  // a foil that no wall is made of
    Panel tried = panel;
    tried.thickness = sheet.minimum;
    BentPanel bent = bend(tried, load);
    if (si(bent.max_tension) <= si(allowable_tension) && si(bent.max_deflection) <= si(allowable_deflection) &&
        bent.deflection_over_thickness <= linear_deflection_limit)
      return Sizing{sheet, std::move(bent)};
  }
  return std::nullopt;
}

}  // namespace theca::structure
