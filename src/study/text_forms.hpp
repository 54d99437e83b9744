// The texts that stand for one value in a design: quantities written exactly, small structures in one string, dotted
// keys and accepted ranges. Design files and messages about a design share them.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

#include "theca/require.hpp"
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

template <class T>
inline constexpr bool is_vector = false;
template <class T>
inline constexpr bool is_vector<std::vector<T>> = true;
template <class T>
inline constexpr bool is_map = false;
template <class K, class T>
inline constexpr bool is_map<std::map<K, T>> = true;

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

std::string in_quotes(std::string_view s);
/// A dotted key: "tanks.A", "pump.curve[2]"; what is no bare key of TOML stands in quotes.
std::string join(const std::string& path, std::string_view key);
std::string join(const std::string& path, std::size_t index);

/// The accepted range in words, in the unit of a quantity of type T; empty when every finite value is accepted.
template <class T>
std::string range_text(const schema::Limit& limit) {
  using schema::Limit;
  const auto shown = [](double m) {
    if constexpr (std::is_arithmetic_v<T> || std::same_as<T, PracticalSalinity>)
      return text(m, "");
    else if constexpr (std::same_as<T, Temperature>)
      return text(from_si<T>(m));
    else if constexpr (std::same_as<T, RelativeHumidity>)
      return exact(RelativeHumidity(m));
    else
      return exact(from_si<T>(m));
  };
  switch (limit.kind) {
    case Limit::Kind::any:
      break;
    case Limit::Kind::positive:
      return "> 0";
    case Limit::Kind::not_negative:
      return ">= 0";
    case Limit::Kind::within:
      return shown(limit.low) + " to " + shown(limit.high);
    case Limit::Kind::positive_up_to:
      return "> 0 to " + shown(limit.high);
  }
  return {};
}

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
