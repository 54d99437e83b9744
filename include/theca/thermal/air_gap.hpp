// A closed gap of air between two faces of a wall: conduction, convection and radiation across it.
#pragma once

#include "theca/units.hpp"

namespace theca::thermal {

/// Emissivities of the two faces of a gap; 0.837 is plain soda-lime glass.
/// @source EN 673:2011, corrected emissivity of uncoated glass
struct AirGap {
  double inner_emissivity = 0.837;  ///< of the face on the water's side, 0 to 1
  double outer_emissivity = 0.837;  ///< of the face on the room's side, 0 to 1
};

/// How a gap lies and which way the heat goes in it.
enum class GapHeat { sideways, upwards, downwards };

/// Mean Nusselt number across a closed gap, on its thickness; 1 is conduction alone.
/// @throws InvalidInput  rayleigh negative or not finite
/// @source EN 673:2011 / ISO 10292, kernel::nusselt_gap_vertical and kernel::nusselt_gap_heat_upwards; with heat
///         downwards 1. The standard states no upper end; it is meant for gaps of glazing, up to some 50 mm
double nusselt_gap(double rayleigh, GapHeat heat);

/// Conductance of a closed air gap: convection and radiation together, h_s = h_g + h_r of EN 673.
///
/// Air properties from theca/air.hpp at the mean temperature. Radiation is taken between the two face temperatures in
/// fourth powers.
/// @param inner, outer  face temperatures, -40 to 100 degC
/// @throws InvalidInput  thickness not positive, an emissivity outside 0 to 1, a temperature out of range
/// @source EN 673:2011, 5.3
ThermalTransmittance gap_conductance(const AirGap& gap, const Length& thickness, const Temperature& inner,
                                     const Temperature& outer, GapHeat heat = GapHeat::sideways,
                                     const AbsolutePressure& pressure = standard_atmosphere);

}  // namespace theca::thermal
