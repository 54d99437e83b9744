// Local losses that depend on the Reynolds number and the size: Darby's three constants and Hooper's two.
#pragma once

#include <span>
#include <string_view>

#include "theca/units.hpp"

namespace theca::hydraulics {

/// Range of K that makers' fittings of one kind show, as fractions of K.
struct Spread {
  double less;  ///< K (1 - less) is the lowest
  double more;  ///< K (1 + more) is the highest
};

/// Fitting of Darby: K = K1/Re + Ki (1 + Kd / d^0.3), d the nominal size in inches.
struct ThreeKFitting {
  std::string_view name;
  double K1;
  double Ki;
  double Kd;  ///< in^0.3
  Spread spread;
};

/// Fitting of Hooper: K = K1/Re + K_infinity (1 + 1 / D), D the bore in inches.
struct TwoKFitting {
  std::string_view name;
  double K1;
  double K_infinity;
  Spread spread;
};

/// Threaded and flanged elbows, tees and valves. Solvent-weld plastic is nearest to threaded: a plain socket with a
/// tight turn (common practice, no source).
/// @source Darby 1999, Chem. Eng. 106(7):101 and 2001, 108(4):127, as in the package fluids 1.0.22. Spread: ASHRAE
///         Handbook Fundamentals, "approximate range of variation for K factors", after Hydraulic Institute,
///         Engineering Data Book, from memory; for the ball valve an estimate
std::span<const ThreeKFitting> three_K_fittings();

/// @source Hooper 1981, Chem. Eng. 88(17):97-100, as in the package fluids 1.0.22; spread as three_K_fittings()
std::span<const TwoKFitting> two_K_fittings();

/// @throws InvalidInput  unknown name; the message lists the known ones
const ThreeKFitting& three_K_fitting(std::string_view name);

/// @throws InvalidInput  unknown name; the message lists the known ones
const TwoKFitting& two_K_fitting(std::string_view name);

/// Loss over v^2/(2g), laminar and turbulent.
/// @param reynolds      0 < Re <= 1e8
/// @param nominal_size  1/2 to 24 in (range of use, common practice): "1-1/2" is 1.5 in, whatever the bore
/// @throws InvalidInput  outside these ranges
double loss_K(const ThreeKFitting& fitting, double reynolds, const Length& nominal_size);

/// Loss over v^2/(2g), laminar and turbulent.
/// @param reynolds  0 < Re <= 1e8
/// @param bore      1/2 to 24 in (range of use, common practice)
/// @throws InvalidInput  outside these ranges
double loss_K(const TwoKFitting& fitting, double reynolds, const Length& bore);

}  // namespace theca::hydraulics
