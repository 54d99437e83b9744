// Water in a shaken rectangular tank: masses and heights that push and that swing, base shear and overturning moment.
#pragma once

#include <vector>

#include "theca/structure/sloshing.hpp"
#include "theca/units.hpp"

namespace theca::structure {

/// A mass of water that acts as if fixed at a height over the inside base. The height including base pressure also
/// holds the moment of the pressure on the base: it is for the tank on what it stands on, the other one for the walls.
struct WaterMass {
  Mass mass;
  Length height_walls;  ///< excluding base pressure
  Length height_whole;  ///< including base pressure
};

struct WaterModel {
  WaterMass impulsive;                ///< moves with the tank
  std::vector<WaterMass> convective;  ///< swings, by odd mode 1, 3, 5...; Housner's model has the first only
  std::vector<Time> periods;          ///< of the swinging masses
};

/// Housner's two masses and their heights.
/// @throws InvalidInput  an argument not > 0 and finite
/// @source G. W. Housner, Bull. Seism. Soc. Am. 53 (1963), in the form of ACI 350.3-06, 9.2.1 to 9.2.4 (rectangular)
WaterModel housner_water(const Length& length, const Length& depth, const Mass& water,
                         const Acceleration& gravity = standard_gravity);

/// Exact potential flow with rigid walls and small waves, `modes` odd modes; what is left moves with the tank.
///
/// EN 1998-4:2006 Annex A.4 uses these exact convective periods, and reads the impulsive part from this theory's
/// charts; it differs from Housner by up to about a tenth in the impulsive mass.
/// @param modes  1 to 200
/// @throws InvalidInput  an argument not > 0 and finite, modes outside 1 to 200
/// @source E. W. Graham, A. M. Rodriguez, J. Appl. Mech. 19 (1952); heights from moments of the modal pressure,
///         derived here and tested against the direct series of the impulsive pressure (from memory)
WaterModel potential_flow_water(const Length& length, const Length& depth, const Mass& water, int modes = 40,
                                const Acceleration& gravity = standard_gravity);

/// A solid that is shaken: walls, base, stand, loads.
struct SolidMass {
  Mass mass;
  Length height;  ///< of its centre over the plane of tipping
};

/// Horizontal accelerations as fractions of gravity, importance and response modification already in.
struct ShakingCoefficients {
  double impulsive = 0.0;   ///< for the tank and the water that moves with it, >= 0
  double convective = 0.0;  ///< for the water that swings, >= 0
};

/// S_DS I / R_i and C_c I / R_c, for a tank stiff enough to stay on the plateau of the spectrum (T_i <= T_s).
/// @param impulsive_response, convective_response  R_i and R_c, 1 to 8; R_c is 1 in ACI 350.3-06, table 4.1.1(b)
/// @throws InvalidInput  as convective_spectral_factor, responses outside 1 to 8
/// @source ACI 350.3-06, 4.1.1 and 9.4 (article numbers from memory)
ShakingCoefficients shaking_coefficients(const Earthquake& earthquake, const Time& slosh_period,
                                         double impulsive_response = 1.0, double convective_response = 1.0);

struct ShakingLoad {
  Force impulsive_shear;   ///< with the solids
  Force convective_shear;  ///< root of the sum of squares over its modes
  Force base_shear;        ///< root of the sum of squares of both
  Moment wall_moment;      ///< at the inside base, excluding base pressure
  Moment overturning;      ///< about the plane of tipping, including base pressure
};

/// Base shear and moments, the moving and the swinging part combined by the root of the sum of squares.
/// @param solids  those above the plane of tipping
/// @param rise    height of the inside base over that plane: base thickness, or with the stand, >= 0
/// @throws InvalidInput  model without swinging masses, masses or heights or coefficients negative or not finite
/// @source ACI 350.3-06, 4.1.1 to 4.1.4 (article numbers from memory); IITK-GSDMA Guidelines (2007), 4.6 and 4.7
ShakingLoad shaking_load(const WaterModel& water, const std::vector<SolidMass>& solids,
                         const ShakingCoefficients& coefficients, const Length& rise = Length(),
                         const Acceleration& gravity = standard_gravity);

}  // namespace theca::structure
