// Quantities from text: parse<Length>("1.40 m"), parse<ThermalTransmittance>("0.48 Btu/h/ft2/degF").
//
// A number, then a unit: symbols with whole exponents ("m2", "s-1", "s^-1"), multiplied by a space or "*", divided by
// "/". A "/" divides by the one symbol after it; a product after a "/" ("W/m K") is refused as ambiguous.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "theca/error.hpp"
#include "theca/units/dimension.hpp"
#include "theca/units/named.hpp"
#include "theca/units/salinity.hpp"

namespace theca {

/// A unit that text may use.
struct UnitEntry {
  std::string_view symbol;
  double si_size = 0.0;
  Dimension dimension{};
};

/// Every symbol that text may use, as a constant table with the sizes of theca/units/named.hpp.
std::span<const UnitEntry> known_units();

/// What text turned out to hold.
struct ParsedQuantity {
  double si_value = 0.0;  ///< in coherent SI units; degC and degF count as differences
  Dimension dimension{};
  bool has_unit = false;                         ///< false for a bare number
  std::optional<Temperature> temperature_point;  ///< set when the unit is degC, degF or K alone
};

/// Reads a quantity whose dimension is not known beforehand.
/// @throws ParseError  not a number with a unit; number not finite; unknown unit (the nearest symbol is proposed)
ParsedQuantity parse_quantity(std::string_view text);

/// A kind of quantity in words, for messages: {"a length", "1.40 m"}.
struct QuantityKind {
  std::string what, example;
};
QuantityKind quantity_kind(const Dimension& dimension);

namespace detail {
double parse_si(std::string_view text, const Dimension& wanted);
}

/// The kind of a typed quantity in words.
template <class Q>
QuantityKind kind_of() {
  return quantity_kind(dimension_of<typename Q::unit_type>());
}
template <>
QuantityKind kind_of<double>();
template <>
QuantityKind kind_of<Temperature>();
template <>
QuantityKind kind_of<AbsolutePressure>();
template <>
QuantityKind kind_of<PracticalSalinity>();
template <>
QuantityKind kind_of<AbsoluteSalinity>();
template <>
QuantityKind kind_of<RelativeHumidity>();

/// Reads a quantity of one kind. Any sign and size is accepted; ranges are the caller's business.
///
/// A ratio as a plain `double` may be bare ("0.1"), or have "%" or "ppm"; a dimensionless Quantity must have a unit
/// ("420 ppm", "11 min/week"). PracticalSalinity is a bare number >= 0, AbsoluteSalinity >= 0 is in g/kg,
/// RelativeHumidity is 0 % to 100 %. Temperature is a point on the scale, at or above absolute zero ("70 degF");
/// TemperatureDifference takes the same text as a difference. AbsolutePressure is above vacuum.
/// @throws ParseError  text that is not such a quantity: `expected a length such as "1.40 m", got "3 kg"`
template <class Q>
Q parse(std::string_view text) {
  return from_si<Q>(detail::parse_si(text, dimension_of<typename Q::unit_type>()));
}
template <>
double parse<double>(std::string_view text);
template <>
Temperature parse<Temperature>(std::string_view text);
template <>
AbsolutePressure parse<AbsolutePressure>(std::string_view text);
template <>
PracticalSalinity parse<PracticalSalinity>(std::string_view text);
template <>
AbsoluteSalinity parse<AbsoluteSalinity>(std::string_view text);
template <>
RelativeHumidity parse<RelativeHumidity>(std::string_view text);

}  // namespace theca
