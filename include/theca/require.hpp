// Guards at public boundaries: each throws InvalidInput or OutOfValidity naming argument, value and accepted range.
// Comparisons are written so that NaN is refused too. Text is built in src, away from the callers' hot path.
#pragma once

#include <cmath>
#include <string>
#include <string_view>

#include "theca/error.hpp"
#include "theca/units.hpp"

namespace theca {

/// A number rounded to significant digits, 1 to 15, as people write it: without an exponent from 0.0001 up to a
/// million, "10230", "0.1799".
std::string number(double value, int significant_digits = 4);
/// A number with its unit as text, at most 6 significant digits: "1.25 m".
std::string text(double si_value, std::string_view symbol);
template <class Unit>
std::string text(const bu::quantity<Unit>& q) {
  return text(q.value(), detail::SymbolOf<Unit>::value);
}
std::string text(const Temperature& t);  ///< in degC
std::string text(PracticalSalinity s);
std::string text(AbsoluteSalinity s);
std::string text(RelativeHumidity rh);

namespace require {

namespace detail {
[[noreturn]] void refuse(std::string_view argument, double value, std::string_view symbol, std::string_view accepted);
[[noreturn]] void refuse_range(std::string_view argument, double value, double low, double high,
                               std::string_view symbol);
[[noreturn]] void refuse_validity(std::string_view correlation, std::string_view argument, double value, double low,
                                  double high, std::string_view symbol);
template <class Unit>
constexpr std::string_view symbol_of(const bu::quantity<Unit>& /*q*/) {
  return theca::detail::SymbolOf<Unit>::value;
}
}  // namespace detail

/// Finite, any sign.
inline void finite(std::string_view argument, double x) {
  if (!std::isfinite(x)) detail::refuse(argument, x, "", "a finite number");
}
template <class Unit>
void finite(std::string_view argument, const bu::quantity<Unit>& q) {
  if (!std::isfinite(q.value())) detail::refuse(argument, q.value(), detail::symbol_of(q), "a finite value");
}

/// Finite and > 0.
inline void positive(std::string_view argument, double x) {
  if (!(x > 0.0 && std::isfinite(x))) detail::refuse(argument, x, "", "> 0 and finite");
}
template <class Unit>
void positive(std::string_view argument, const bu::quantity<Unit>& q) {
  if (!(q.value() > 0.0 && std::isfinite(q.value())))
    detail::refuse(argument, q.value(), detail::symbol_of(q), "> 0 and finite");
}

/// Finite and >= 0.
inline void not_negative(std::string_view argument, double x) {
  if (!(x >= 0.0 && std::isfinite(x))) detail::refuse(argument, x, "", ">= 0 and finite");
}
template <class Unit>
void not_negative(std::string_view argument, const bu::quantity<Unit>& q) {
  if (!(q.value() >= 0.0 && std::isfinite(q.value())))
    detail::refuse(argument, q.value(), detail::symbol_of(q), ">= 0 and finite");
}

/// low <= value <= high, both ends allowed.
inline void within(std::string_view argument, double x, double low, double high) {
  if (!(x >= low && x <= high)) detail::refuse_range(argument, x, low, high, "");
}
template <class Unit>
void within(std::string_view argument, const bu::quantity<Unit>& q, const bu::quantity<Unit>& low,
            const bu::quantity<Unit>& high) {
  if (!(q.value() >= low.value() && q.value() <= high.value()))
    detail::refuse_range(argument, q.value(), low.value(), high.value(), detail::symbol_of(q));
}
void within(std::string_view argument, const Temperature& t, const Temperature& low, const Temperature& high);
void within(std::string_view argument, AbsoluteSalinity s, AbsoluteSalinity low, AbsoluteSalinity high);
void within(std::string_view argument, RelativeHumidity rh, RelativeHumidity low, RelativeHumidity high);

/// Inside the range a correlation was fitted in; throws OutOfValidity.
inline void valid(std::string_view correlation, std::string_view argument, double x, double low, double high) {
  if (!(x >= low && x <= high)) detail::refuse_validity(correlation, argument, x, low, high, "");
}
template <class Unit>
void valid(std::string_view correlation, std::string_view argument, const bu::quantity<Unit>& q,
           const bu::quantity<Unit>& low, const bu::quantity<Unit>& high) {
  if (!(q.value() >= low.value() && q.value() <= high.value()))
    detail::refuse_validity(correlation, argument, q.value(), low.value(), high.value(), detail::symbol_of(q));
}

/// Any other condition; `accepted` says in words what would have been right.
template <class Unit>
void that(bool holds, std::string_view argument, const bu::quantity<Unit>& q, std::string_view accepted) {
  if (!holds) detail::refuse(argument, q.value(), detail::symbol_of(q), accepted);
}
inline void that(bool holds, std::string_view argument, double x, std::string_view accepted) {
  if (!holds) detail::refuse(argument, x, "", accepted);
}

}  // namespace require
}  // namespace theca
