// Salinity and relative humidity: ratios that must not be mistaken for one another or for plain numbers.
#pragma once

namespace theca {

/// Practical Salinity of PSS-78 (UNESCO 1983), the number that a conductivity meter shows; dimensionless.
struct PracticalSalinity {
  double value;
  constexpr explicit PracticalSalinity(double practical) : value(practical) {}
  constexpr bool operator==(const PracticalSalinity&) const = default;
};

/// Absolute (reference-composition) salinity, mass of salt per mass of seawater.
struct AbsoluteSalinity {
  double grams_per_kg;
  constexpr explicit AbsoluteSalinity(double g_per_kg) : grams_per_kg(g_per_kg) {}
  /// kg of salt per kg of seawater
  constexpr double mass_fraction() const { return 1e-3 * grams_per_kg; }
  constexpr bool operator==(const AbsoluteSalinity&) const = default;
};

/// @source Millero, Feistel, Wright & McDougall 2008, reference-composition salinity scale:
///         S_R = (35.16504 / 35) g/kg per unit of practical salinity, exact by definition, 2 < S_P < 42
constexpr AbsoluteSalinity absolute_salinity(PracticalSalinity s) {
  return AbsoluteSalinity(35.16504 / 35.0 * s.value);
}
constexpr PracticalSalinity practical_salinity(AbsoluteSalinity s) {
  return PracticalSalinity(35.0 / 35.16504 * s.grams_per_kg);
}

/// Vapour pressure of moist air over the saturation pressure at the same temperature, 0 to 1.
struct RelativeHumidity {
  double ratio;
  constexpr explicit RelativeHumidity(double zero_to_one) : ratio(zero_to_one) {}
  constexpr bool operator==(const RelativeHumidity&) const = default;
};
constexpr RelativeHumidity percent_rh(double percent) { return RelativeHumidity(percent / 100.0); }

}  // namespace theca
