// The texts that stand for one value in a design file: quantities written exactly, and small structures in one string.
#pragma once

#include <string>
#include <string_view>
#include <type_traits>

#include "theca/study/schema.hpp"
#include "theca/units/parse.hpp"

namespace theca::study::text_forms {

/// Types that theca::parse reads.
template <class T>
inline constexpr bool is_quantity = requires {
  typename T::unit_type;
};
template <>
inline constexpr bool is_quantity<RelativeHumidity> = true;

/// The shortest text that parses to exactly this value, in the unit that makes it short.
std::string exact(double si_value, const Dimension& dimension);
std::string exact(const Temperature& t);
std::string exact(RelativeHumidity rh);
std::string exact(double number);  ///< the shortest decimal of a bare number
template <class Unit>
std::string exact(const Quantity<Unit>& q) {
  return exact(q.value(), dimension_of<Unit>());
}
inline std::string exact(const AbsolutePressure& p) { return exact(p.value(), dimension_of<unit::pressure>()); }

/// What a text form is, for messages.
template <class T>
QuantityKind kind();
template <>
QuantityKind kind<PlanSize>();
template <>
QuantityKind kind<Strip>();
template <>
QuantityKind kind<SpanFraction>();
template <>
QuantityKind kind<GlassVariant>();

/// @throws ParseError
template <class T>
T read(std::string_view text);
template <>
PlanSize read<PlanSize>(std::string_view text);
template <>
Strip read<Strip>(std::string_view text);
template <>
SpanFraction read<SpanFraction>(std::string_view text);
template <>
GlassVariant read<GlassVariant>(std::string_view text);

std::string write(const PlanSize& s);
std::string write(const Strip& s);
std::string write(const SpanFraction& s);
std::string write(const GlassVariant& s);

}  // namespace theca::study::text_forms
