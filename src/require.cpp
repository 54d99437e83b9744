#include "theca/require.hpp"

#include <cstdio>

namespace theca {

std::string text(double si_value, std::string_view symbol) {
  char number[32];
  std::snprintf(number, sizeof number, "%.6g", si_value);
  std::string s(number);
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
