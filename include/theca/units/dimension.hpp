// The dimension of a unit as numbers, for text and tables whose dimension is known only at run time.
#pragma once

#include <array>
#include <boost/units/get_dimension.hpp>
#include <type_traits>

#include "theca/units/quantity.hpp"

namespace theca {

/// Exponents of length, mass, time, current, temperature, amount, luminous intensity, angle, solid angle and money.
using Dimension = std::array<int, 10>;

namespace detail {
template <class BaseDimension, class List>
struct ExponentOf {
  using Entry = typename List::item;
  static_assert(Entry::value_type::Denominator == 1, "a dimension with a broken exponent has no text form");
  static constexpr int value = std::is_same_v<typename Entry::tag_type, BaseDimension>
                                   ? static_cast<int>(Entry::value_type::Numerator)
                                   : ExponentOf<BaseDimension, typename List::next>::value;
};
template <class BaseDimension>
struct ExponentOf<BaseDimension, bu::dimensionless_type> {
  static constexpr int value = 0;
};
template <class Dim>
constexpr Dimension dimension_from_list() {
  return {ExponentOf<bu::length_base_dimension, Dim>::value,
          ExponentOf<bu::mass_base_dimension, Dim>::value,
          ExponentOf<bu::time_base_dimension, Dim>::value,
          ExponentOf<bu::current_base_dimension, Dim>::value,
          ExponentOf<bu::temperature_base_dimension, Dim>::value,
          ExponentOf<bu::amount_base_dimension, Dim>::value,
          ExponentOf<bu::luminous_intensity_base_dimension, Dim>::value,
          ExponentOf<bu::plane_angle_base_dimension, Dim>::value,
          ExponentOf<bu::solid_angle_base_dimension, Dim>::value,
          ExponentOf<currency_base_dimension, Dim>::value};
}
}  // namespace detail

/// The exponents of a unit's dimension: `dimension_of<unit::velocity>()` is length 1, time -1.
template <class Unit>
constexpr Dimension dimension_of() {
  return detail::dimension_from_list<typename bu::get_dimension<Unit>::type>();
}

}  // namespace theca
