#include "theca/require.hpp"

#include <cstdio>
#include <cstdlib>

namespace theca {

std::string number(double value, int significant_digits) {
  require::within("significant digits", significant_digits, 1.0, 15.0);
  char digits[32];
  std::snprintf(digits, sizeof digits, "%.*e", significant_digits - 1, value);
  const double rounded = std::strtod(digits, nullptr);
  // "%g" goes over to an exponent as soon as an integer has more digits than asked for.
  if (std::abs(rounded) < 1e6 && std::abs(rounded) >= std::pow(10.0, significant_digits))
    std::snprintf(digits, sizeof digits, "%.0f", rounded);
  else
    std::snprintf(digits, sizeof digits, "%.*g", significant_digits, value);
  return digits;
}

std::string text(double si_value, std::string_view symbol) {
  std::string s = number(si_value, 6);
  if (!symbol.empty()) s.append(" ").append(symbol);
  return s;
}

std::string text(const Temperature& t) { return text(in_celsius(t), "degC"); }
std::string text(PracticalSalinity s) { return text(s.value, "practical salinity"); }
std::string text(AbsoluteSalinity s) { return text(s.grams_per_kg, "g/kg"); }
std::string text(RelativeHumidity rh) { return text(100.0 * rh.ratio, "% RH"); }

namespace require {
namespace {
std::string range_text(double low, double high, std::string_view symbol) {
  return text(low, symbol) + " to " + text(high, symbol);
}
}  // namespace

namespace detail {
void refuse(std::string_view argument, double value, std::string_view symbol, std::string_view accepted) {
  throw InvalidInput(argument, text(value, symbol), accepted);
}
void refuse_range(std::string_view argument, double value, double low, double high, std::string_view symbol) {
  throw InvalidInput(argument, text(value, symbol), range_text(low, high, symbol));
}
void refuse_validity(std::string_view correlation, std::string_view argument, double value, double low, double high,
                     std::string_view symbol) {
  throw OutOfValidity(correlation, std::string(argument) + " = " + text(value, symbol) + ", fitted for " +
                                       range_text(low, high, symbol));
}
}  // namespace detail

void within(std::string_view argument, const Temperature& t, const Temperature& low, const Temperature& high) {
  if (!(t.value() >= low.value() && t.value() <= high.value()))
    detail::refuse_range(argument, in_celsius(t), in_celsius(low), in_celsius(high), "degC");
}

void within(std::string_view argument, AbsoluteSalinity s, AbsoluteSalinity low, AbsoluteSalinity high) {
  if (!(s.grams_per_kg >= low.grams_per_kg && s.grams_per_kg <= high.grams_per_kg))
    detail::refuse_range(argument, s.grams_per_kg, low.grams_per_kg, high.grams_per_kg, "g/kg");
}

void within(std::string_view argument, RelativeHumidity rh, RelativeHumidity low, RelativeHumidity high) {
  if (!(rh.ratio >= low.ratio && rh.ratio <= high.ratio))
    detail::refuse_range(argument, 100.0 * rh.ratio, 100.0 * low.ratio, 100.0 * high.ratio, "% RH");
}

}  // namespace require
}  // namespace theca
