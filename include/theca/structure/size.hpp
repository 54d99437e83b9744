// The inverse of bending: the thinnest stock sheet that meets an allowable stress and an allowable deflection.
#pragma once

#include <optional>
#include <span>

#include "theca/materials/thickness.hpp"
#include "theca/structure/bend.hpp"
#include "theca/structure/panel.hpp"
#include "theca/units.hpp"

namespace theca::structure {

struct Sizing {
  materials::StockThickness thickness;
  BentPanel bent;  ///< at the minimum thickness
};

/// The stock sheet of least minimum thickness whose largest tension and deflection stay within the allowables, or
/// nothing when none does. The thickness of `panel` is ignored. A sheet for which linear theory does not hold
/// (`linear_deflection_limit`, or a foil under 1e-5 of the shorter side) is passed over; one so thick that it is no
/// thin plate ends the search. With rigid and free edges one solution serves the whole list (stress goes with 1 / t^2,
/// deflection with 1 / t^3); elastic edges and beams are solved for each sheet.
///
/// @throws InvalidInput   allowables not > 0 and finite, empty stock, a thickness not > 0; as `bend`
/// @throws OutOfValidity  width over height outside 1/20 to 20
std::optional<Sizing> thinnest(const Panel& panel, const PressureLoad& load, const Pressure& allowable_tension,
                               const Length& allowable_deflection, std::span<const materials::StockThickness> stock);

}  // namespace theca::structure
