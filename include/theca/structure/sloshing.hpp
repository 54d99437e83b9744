// Water swinging in a rectangular tank: natural frequency, the part of the water that swings, earthquake wave height.
#pragma once

#include <cmath>

#include "theca/units.hpp"

namespace theca::structure {

namespace kernel {
/// f = sqrt(g k tanh(k h)) / (2 pi), k = n pi / L, in 1/s; coherent SI, unchecked.
template <class T>
T slosh_frequency(T length_m, T depth_m, T gravity_m_s2, int mode) {
  using std::sqrt;
  using std::tanh;
  constexpr double pi = 3.14159265358979323846;
  const T k = T(mode * pi) / length_m;
  return sqrt(gravity_m_s2 * k * tanh(k * depth_m)) / T(2.0 * pi);
}
/// Impulsive share of the water, tanh(0.866 L/H) / (0.866 L/H).
template <class T>
T impulsive_share(T length_over_depth) {
  using std::tanh;
  const T a = T(0.866) * length_over_depth;
  return tanh(a) / a;
}
/// Convective share of the water, 0.264 (L/H) tanh(3.16 H/L).
template <class T>
T convective_share(T length_over_depth) {
  using std::tanh;
  return T(0.264) * length_over_depth * tanh(T(3.16) / length_over_depth);
}
}  // namespace kernel

/// Natural frequency of standing waves of a mode along the inside length `length`. Small waves, rigid walls.
///
/// @param mode  number of half waves, 1 to 100; odd modes answer a push of the whole tank
/// @throws InvalidInput  length, depth or gravity not > 0 and finite, mode outside 1 to 100
/// @source linear wave theory, H. Lamb, Hydrodynamics, 6th ed. 1932, art. 228 and 257 (from memory)
Frequency slosh_frequency(const Length& length, const Length& depth, int mode = 1,
                          const Acceleration& gravity = standard_gravity);

/// Housner's two masses of the water: one moves with the tank, one swings. They need not add up to the whole.
struct SloshMasses {
  Mass impulsive, convective;
};

/// @param length  inside length in the direction of shaking
/// @param water   mass of all the water, > 0
/// @throws InvalidInput  an argument not > 0 and finite
/// @source G. W. Housner, The dynamic behavior of water tanks, Bull. Seism. Soc. Am. 53 (1963), in the form of
///         ACI 350.3, section 9.2 (rectangular tanks), eq. (9-1) and (9-2)
///         (article and equation numbers from memory)
SloshMasses slosh_masses(const Length& length, const Length& depth, const Mass& water);

/// Earthquake of a site, as fractions of gravity at 5 % damping.
struct Earthquake {
  double short_period = 0.0;       ///< S_DS, design spectral acceleration at short periods, in g, > 0
  double one_second = 0.0;         ///< S_D1, design spectral acceleration at 1 s, in g, > 0
  double importance_factor = 1.0;  ///< I, 1 to 1.5
};

/// Spectral factor C_c of the swinging water at 0.5 % damping.
///
/// 1.5 S_D1 / T_c but at most 1.5 S_DS while T_c <= 1.6 / T_s, and 2.4 S_DS / T_c^2 beyond; T_s = S_D1 / S_DS.
/// @param period  T_c, of the first mode, > 0
/// @throws InvalidInput  period not > 0 and finite, spectral values outside 0 to 5, importance outside 1 to 1.5
/// @source ACI 350.3-06, section 9.4 (article and equation numbers from memory)
double convective_spectral_factor(const Time& period, const Earthquake& earthquake);

/// Largest rise of the water over its level at rest, d_max = (L/2) C_c I.
/// @throws InvalidInput  as above
/// @source ACI 350.3-06, chapter 7 (freeboard), rectangular tanks (article and equation numbers from memory)
Length slosh_wave_height(const Length& length, const Length& depth, const Earthquake& earthquake,
                         const Acceleration& gravity = standard_gravity);

/// Rate of hand strokes over the natural frequency of the first mode along the strokes: near 1 it builds up a wave.
/// @throws InvalidInput  an argument not > 0 and finite
double stroke_frequency_ratio(const Frequency& strokes, const Length& length, const Length& depth,
                              const Acceleration& gravity = standard_gravity);

}  // namespace theca::structure
