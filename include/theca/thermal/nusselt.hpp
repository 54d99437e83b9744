// Convection in dimensionless form: published correlations of the mean Nusselt number, each with its range.
#pragma once

#include <cmath>

namespace theca::thermal {

/// Unchecked kernels on plain scalars, dimensionless or in coherent SI.
namespace kernel {

/// @source Churchill & Chu 1975, Int. J. Heat Mass Transfer 18, 1323, eq. 9; isothermal vertical plate, mean Nusselt
///         number on the height, every Prandtl number, 0.1 < Ra < 1e12
template <class T>
T nusselt_vertical_plate(const T& rayleigh, const T& prandtl) {
  using std::pow;
  const T blend = pow(T(1.0) + pow(T(0.492) / prandtl, 9.0 / 16.0), 8.0 / 27.0);
  const T root = T(0.825) + T(0.387) * pow(rayleigh, 1.0 / 6.0) / blend;
  return root * root;
}

/// @source Churchill & Chu 1975, laminar form, Ra <= 1e9, somewhat closer there than the form above
template <class T>
T nusselt_vertical_plate_laminar(const T& rayleigh, const T& prandtl) {
  using std::pow;
  const T blend = pow(T(1.0) + pow(T(0.492) / prandtl, 9.0 / 16.0), 4.0 / 9.0);
  return T(0.68) + T(0.670) * pow(rayleigh, 0.25) / blend;
}

/// The older power laws for a vertical plate, for comparison with the two forms above.
/// @source McAdams 1954: 0.59 Ra^(1/4), 1e4 < Ra < 1e9; Warner & Arpaci 1968: 0.10 Ra^(1/3), 1e9 < Ra < 1e13; both as
/// in
///         Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, ch. 9, from memory. They differ by 4 % where
///         they meet
template <class T>
T nusselt_vertical_plate_power_law(const T& rayleigh) {
  using std::pow;
  return rayleigh < T(1e9) ? T(0.59) * pow(rayleigh, 0.25) : T(0.10) * pow(rayleigh, 1.0 / 3.0);
}

/// Light fluid rising off a horizontal surface (warm face up, cold face down); length = area / perimeter.
/// @source Lloyd & Moran 1974, J. Heat Transfer 96, 443, with McAdams 1954's constants: 0.54 Ra^(1/4) for
///         1e4 < Ra < 1e7, 0.15 Ra^(1/3) for 1e7 < Ra < 1e11. The two branches differ by 2 % where they meet
template <class T>
T nusselt_horizontal_unstable(const T& rayleigh) {
  using std::pow;
  return rayleigh < T(1e7) ? T(0.54) * pow(rayleigh, 0.25) : T(0.15) * pow(rayleigh, 1.0 / 3.0);
}

/// Light fluid held under a horizontal surface (warm face down, cold face up); length = area / perimeter.
/// @source McAdams 1954, Heat Transmission 3rd ed.: 0.27 Ra^(1/4), 1e5 < Ra < 1e10
template <class T>
T nusselt_horizontal_stable(const T& rayleigh) {
  using std::pow;
  return T(0.27) * pow(rayleigh, 0.25);
}

/// The same case by later measurements.
/// @source Radziemska & Lewandowski 2001: 0.52 Ra^(1/5), 1e4 < Ra < 1e9, Pr >= 0.7, as in Incropera et al. from the 7th
///         edition, ch. 9, from memory
template <class T>
T nusselt_horizontal_stable_later(const T& rayleigh) {
  using std::pow;
  return T(0.52) * pow(rayleigh, 0.2);
}

/// The unstable case without jump from Ra = 0 on, which an iteration passing through neutral air needs.
/// @source Raithby & Hollands in Rohsenow, Hartnett & Cho 1998, Handbook of Heat Transfer 3rd ed., ch. 4, as given in
///         Nellis & Klein 2021, Introduction to Engineering Heat Transfer; 1 < Ra < 1e10; length = area / perimeter.
///         Within 15 % of Lloyd & Moran over their range
template <class T>
T nusselt_horizontal_unstable_smooth(const T& rayleigh, const T& prandtl) {
  using std::log;
  using std::pow;
  if (!(rayleigh > T(0.0))) return T(0.0);
  const T shape = T(0.671) / pow(T(1.0) + pow(T(0.492) / prandtl, 9.0 / 16.0), 4.0 / 9.0);
  const T thin_layer = T(0.835) * shape * pow(rayleigh, 0.25);
  const T laminar = T(1.4) / log(T(1.0) + T(1.4) / thin_layer);
  const T turbulent =
      T(0.14) * (T(1.0) + T(0.0107) * prandtl) / (T(1.0) + T(0.01) * prandtl) * pow(rayleigh, 1.0 / 3.0);
  return pow(pow(laminar, 10.0) + pow(turbulent, 10.0), 0.1);
}

/// The stable case without jump from Ra = 0 on.
/// @source as above: thin layer 0.527 Ra^(1/5) / (1 + (1.9/Pr)^0.9)^(2/9), 1e3 < Ra < 1e10
template <class T>
T nusselt_horizontal_stable_smooth(const T& rayleigh, const T& prandtl) {
  using std::log;
  using std::pow;
  if (!(rayleigh > T(0.0))) return T(0.0);
  const T thin_layer = T(0.527) * pow(rayleigh, 0.2) / pow(T(1.0) + pow(T(1.9) / prandtl, 0.9), 2.0 / 9.0);
  return T(2.5) / log(T(1.0) + T(2.5) / thin_layer);
}

/// @source laminar boundary layer, Pohlhausen 1921: 0.664 Re^(1/2) Pr^(1/3), Re < 5e5, Pr > 0.6; past the transition
///         (0.037 Re^(4/5) - 871) Pr^(1/3), Re < 1e8, Pr < 60: Incropera & DeWitt, Fundamentals of Heat and Mass
///         Transfer, ch. 7, from memory
template <class T>
T nusselt_flat_plate(const T& reynolds, const T& prandtl) {
  using std::pow;
  using std::sqrt;
  const T wall = pow(prandtl, 1.0 / 3.0);
  return reynolds < T(5e5) ? T(0.664) * sqrt(reynolds) * wall : (T(0.037) * pow(reynolds, 0.8) - T(871.0)) * wall;
}

/// Forced and natural convection together, both as Nusselt numbers on one length or both as film coefficients.
/// @param exponent  3 for a vertical surface, 7/2 for a horizontal plate in transverse flow
/// @source Incropera & DeWitt, ch. 9.9 (Churchill 1983), from memory
template <class T>
T combine_forced_and_natural(const T& forced, const T& natural, double exponent) {
  using std::pow;
  return pow(pow(forced, exponent) + pow(natural, exponent), 1.0 / exponent);
}

/// Convection across a closed layer of gas, on its thickness; never less than conduction, Nu = 1.
/// @source EN 673:2011 / ISO 10292: A (Gr Pr)^n; vertical 0.035 and 0.38; horizontal with heat upwards 0.16 and 0.28;
///         with heat downwards convection counts as suppressed, Nu = 1
template <class T>
T nusselt_gap_vertical(const T& rayleigh) {
  using std::pow;
  const T free = T(0.035) * pow(rayleigh, 0.38);
  return free > T(1.0) ? free : T(1.0);
}
/// @source as above
template <class T>
T nusselt_gap_heat_upwards(const T& rayleigh) {
  using std::pow;
  const T free = T(0.16) * pow(rayleigh, 0.28);
  return free > T(1.0) ? free : T(1.0);
}

/// Convection across a wide horizontal layer of air heated from below, on its thickness; Ra <= 0: conduction, 1.
/// @source Hollands, Unny, Raithby & Konicek 1976, J. Heat Transfer 98, 189, for air, Ra < 1e8, as in many textbooks of
///         heat transfer; from memory: 1 + 1.44 (1 - 1708/Ra)+ + ((Ra/5830)^(1/3) - 1)+
template <class T>
T nusselt_gap_from_below(const T& rayleigh) {
  using std::pow;
  T nusselt(1.0);
  if (rayleigh > T(1708.0)) nusselt = nusselt + T(1.44) * (T(1.0) - T(1708.0) / rayleigh);
  if (rayleigh > T(5830.0)) nusselt = nusselt + pow(rayleigh / T(5830.0), 1.0 / 3.0) - T(1.0);
  return nusselt;
}

}  // namespace kernel

/// Mean Nusselt number of natural convection at an isothermal vertical plate, on its height.
/// @throws InvalidInput   rayleigh negative or not finite, prandtl not positive
/// @throws OutOfValidity  rayleigh > 1e12
/// @source kernel::nusselt_vertical_plate
double nusselt_vertical_plate(double rayleigh, double prandtl);

/// The laminar form, for Ra <= 1e9.  @throws as above, with the limit 1e9
double nusselt_vertical_plate_laminar(double rayleigh, double prandtl);

/// Mean Nusselt number over a horizontal surface from which the lighter fluid rises, on area / perimeter.
/// @throws InvalidInput   rayleigh not finite; @throws OutOfValidity  rayleigh outside 1e4 to 1e11
/// @source kernel::nusselt_horizontal_unstable
double nusselt_horizontal_unstable(double rayleigh);

/// Mean Nusselt number where the lighter fluid cannot leave the surface, on area / perimeter.
/// @throws InvalidInput   rayleigh not finite; @throws OutOfValidity  rayleigh outside 1e5 to 1e10
/// @source kernel::nusselt_horizontal_stable
double nusselt_horizontal_stable(double rayleigh);

/// Mean Nusselt number of forced flow along an isothermal plate, laminar or past the transition at Re = 5e5.
/// @throws InvalidInput   reynolds negative or not finite, prandtl not positive
/// @throws OutOfValidity  reynolds > 1e8, prandtl outside 0.6 to 60
/// @source kernel::nusselt_flat_plate
double nusselt_flat_plate(double reynolds, double prandtl);

}  // namespace theca::thermal
