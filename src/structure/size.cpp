#include "theca/structure/size.hpp"

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

#include "theca/require.hpp"

namespace theca::structure {

namespace {

/// Then the shape of the bent panel does not depend on its thickness: stress goes with 1 / t^2, deflection with 1 /
/// t^3.
bool rigid_or_free(const Panel& panel) {
  for (const Edge& edge : {panel.bottom, panel.left, panel.right, panel.top}) {
    const bool translation = si(edge.translation) == 0.0 || std::isinf(si(edge.translation));
    const bool rotation = si(edge.rotation) == 0.0 || std::isinf(si(edge.rotation));
    if (!translation || !rotation || edge.beam != EdgeBeam{}) return false;
  }
  return true;
}

BentPanel of_thickness(BentPanel bent, const Length& thickness) {
  const double thinner = si(bent.panel.thickness) / si(thickness);
  bent.panel.thickness = thickness;
  bent.max_tension *= thinner * thinner;
  bent.max_deflection *= thinner * thinner * thinner;
  bent.deflection_over_thickness = si(bent.max_deflection) / si(thickness);
  return bent;  // coefficients and reactions do not depend on the thickness
}

}  // namespace

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
  const bool scales = rigid_or_free(panel);
  std::optional<BentPanel> solved;
  for (const auto& sheet : rising) {
    const double slenderness = si(sheet.minimum) / side;
    if (slenderness > thickest_over_side) break;     // too stout for a thin plate, and so are all that follow
    if (slenderness < thinnest_over_side) continue;  // a foil that no wall is made of
    if (!solved || !scales) {
      Panel tried = panel;
      tried.thickness = sheet.minimum;
      solved = bend(tried, load);
    }
    const double thinner = si(solved->panel.thickness) / si(sheet.minimum);
    const double tension = si(solved->max_tension) * thinner * thinner;
    const double deflection = si(solved->max_deflection) * thinner * thinner * thinner;
    if (tension <= si(allowable_tension) && deflection <= si(allowable_deflection) &&
        deflection / si(sheet.minimum) <= linear_deflection_limit)
      return Sizing{sheet, of_thickness(std::move(*solved), sheet.minimum)};
  }
  return std::nullopt;
}

}  // namespace theca::structure
