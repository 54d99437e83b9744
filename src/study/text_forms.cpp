#include "text_forms.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <limits>
#include <optional>

#include "theca/error.hpp"

namespace theca::study::text_forms {
namespace {

// Units to try, the preferred ones of a dimension first. The coherent SI unit is always among them, since it alone can
// write every value.
constexpr std::string_view units_to_try[] = {"in",
                                             "ft",
                                             "mm",
                                             "cm",
                                             "m",
                                             "ft2",
                                             "cm2",
                                             "m2",
                                             "gal/ft",
                                             "gal",
                                             "L",
                                             "m3",
                                             "deg",
                                             "rad",
                                             "min",
                                             "h",
                                             "d",
                                             "week",
                                             "month",
                                             "year",
                                             "s",
                                             "1/s",
                                             "1/h",
                                             "1/d",
                                             "1/week",
                                             "1/month",
                                             "g/kg/h",
                                             "cm/s",
                                             "ft/s",
                                             "m/d",
                                             "m/s",
                                             "m/s2",
                                             "gph",
                                             "gpm",
                                             "US_pint/d",
                                             "gal/d",
                                             "L/h",
                                             "m3/s",
                                             "lb",
                                             "g",
                                             "kg",
                                             "g/h",
                                             "g/d",
                                             "kg/s",
                                             "mg/cm2/d",
                                             "g/m2/d",
                                             "kg/m2/s",
                                             "kg/m3",
                                             "mg/L",
                                             "psf",
                                             "kPa",
                                             "MPa",
                                             "GPa",
                                             "Pa",
                                             "W",
                                             "kW",
                                             "Btu/h",
                                             "kWh/year",
                                             "m2/s",
                                             "W/m/K",
                                             "W/m2/K",
                                             "Btu/h/ft2/degF",
                                             "W/K",
                                             "h ft2 degF/Btu",
                                             "m2 K/W",
                                             "1/m",
                                             "V",
                                             "A",
                                             "dKH",
                                             "meq/L",
                                             "mol/m3",
                                             "umol/s",
                                             "mol/s",
                                             "umol/m2/s",
                                             "umol/cm2/h",
                                             "mol/m2/s",
                                             "umol/s/sr",
                                             "mol/s/sr",
                                             "USD",
                                             "USD/kWh",
                                             "USD/J",
                                             "USD/h",
                                             "USD/year",
                                             "USD/s",
                                             "USD/ft2/year",
                                             "USD/m2/s",
                                             "USD/gal",
                                             "USD/m3",
                                             "ppm",
                                             "%",
                                             "in/ft",
                                             "h/week",
                                             "min/d",
                                             "min/week",
                                             "1"};

// A number of so few characters is not worth a less preferred unit. Lengths, times and temperatures come in units for
// small and for large ones, so there the shorter number also has the fitting unit.
constexpr std::size_t short_enough = 4;
constexpr std::size_t short_enough_among_sizes = 2;

constexpr int digits_of_any_double = 17;

// Without strtod and printf, whose decimal point depends on the host's locale.
double number_in(std::string_view decimal) {
  double number = std::numeric_limits<double>::quiet_NaN();
  std::from_chars(decimal.data(), decimal.data() + decimal.size(), number);
  return number;
}

// The SI value that a reader would find, NaN when it would refuse the text (a rounded number can overflow).
double si_read_from(const std::string& text) {
  try {
    return parse_quantity(text).si_value;
  } catch (const ParseError&) {
    return std::numeric_limits<double>::quiet_NaN();
  }
}

// The shortest decimal near `number` for which `is_exact` holds.
template <class F>
std::optional<std::string> shortest_decimal(double number, const F& is_exact) {
  for (int digits = 1; digits <= digits_of_any_double; ++digits) {
    char rounded[40], decimal[40];
    const auto coarse = std::to_chars(rounded, rounded + sizeof rounded, number, std::chars_format::general, digits);
    const auto fine = std::to_chars(decimal, decimal + sizeof decimal, number_in({rounded, coarse.ptr}));
    if (std::string text(decimal, fine.ptr); is_exact(text)) return text;
  }
  return std::nullopt;
}

// The text with the shortest number; among equals, and among all that are short enough, the first.
class Shortest {
 public:
  explicit Shortest(std::size_t enough) : enough_(enough) {}
  void consider(const std::optional<std::string>& decimal, std::string_view unit) {
    if (!decimal) return;
    const std::size_t length = std::max(decimal->size(), enough_);
    if (!text_.empty() && length >= length_) return;
    length_ = length;
    text_ = *decimal + ' ' + std::string(unit);
  }
  const std::string& text() const { return text_; }

 private:
  std::size_t enough_;
  std::size_t length_ = 0;
  std::string text_;
};

[[noreturn]] void refuse(std::string_view text, const QuantityKind& kind, std::string_view problem) {
  throw ParseError("", 0, 0,
                   "expected " + kind.what + " such as \"" + kind.example + "\", got \"" + std::string(text) +
                       "\": " + std::string(problem));
}

}  // namespace

std::string exact(double si_value, const Dimension& dimension) {
  if (!std::isfinite(si_value)) return std::isnan(si_value) ? "nan" : "inf";  // which no reader accepts
  const bool size = dimension == dimension_of<unit::length>() || dimension == dimension_of<unit::time>();
  Shortest shortest(size ? short_enough_among_sizes : short_enough);
  for (const auto unit : units_to_try) {
    const std::string behind = ' ' + std::string(unit);
    const auto one_unit = parse_quantity("1" + behind);
    if (one_unit.dimension != dimension) continue;
    const double number = si_value / one_unit.si_value;
    if (!std::isfinite(number)) continue;
    shortest.consider(
        shortest_decimal(number,
                         [&](const std::string& decimal) { return si_read_from(decimal + behind) == si_value; }),
        unit);
  }
  return shortest.text();
}

std::string exact(const Temperature& t) {
  if (!std::isfinite(t.value())) return "nan";
  Shortest shortest(short_enough_among_sizes);
  const auto consider = [&](double number, Temperature (*point)(double), std::string_view unit) {
    shortest.consider(
        shortest_decimal(number, [&](const std::string& decimal) { return point(number_in(decimal)) == t; }), unit);
  };
  consider(in_fahrenheit(t), fahrenheit, "degF");
  consider(in_celsius(t), celsius, "degC");
  consider(t.value(), from_si<Temperature>, "K");
  return shortest.text();
}

std::string exact(RelativeHumidity rh) {
  const auto as_percent = shortest_decimal(
      100.0 * rh.ratio, [&](const std::string& decimal) { return percent_rh(number_in(decimal)) == rh; });
  if (as_percent) return *as_percent + " %";
  return exact(rh.ratio) + " 1";  // some ratios are no double's hundredth part
}

std::string exact(double number) {
  if (!std::isfinite(number)) return std::isnan(number) ? "nan" : "inf";
  char decimal[40];
  const auto [end, error] = std::to_chars(decimal, decimal + sizeof decimal, number);
  std::string s(decimal, end);
  if (s.find_first_of(".e") == std::string::npos) s += ".0";
  return s;
}

std::string in_quotes(std::string_view s) { return '"' + std::string(s) + '"'; }

std::string join(const std::string& path, std::string_view key) {
  const bool bare = !key.empty() && std::all_of(key.begin(), key.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' || c == '-';
  });
  const std::string last = bare ? std::string(key) : in_quotes(key);
  return path.empty() ? last : path + '.' + last;
}
std::string join(const std::string& path, std::size_t index) { return path + '[' + std::to_string(index) + ']'; }

template <>
QuantityKind kind<PlanSize>() {
  return {"a length and a width", "18 in x 6 in"};
}
template <>
QuantityKind kind<Strip>() {
  return {"a name and a width", "aisle 48 in"};
}
template <>
QuantityKind kind<SpanFraction>() {
  return {"a fraction of the length", "length/200"};
}
template <>
QuantityKind kind<GlassVariant>() {
  return {"a glass variant", "6.5 mm held top edge"};
}

namespace {
// A length that is part of a text form.
template <class T>
Length length_in(std::string_view whole, std::string_view part) {
  try {
    return parse<Length>(part);
  } catch (const ParseError& e) {
    refuse(whole, kind<T>(), e.expected());
  }
}
}  // namespace

template <>
PlanSize read<PlanSize>(std::string_view text) {
  constexpr std::string_view times = " x ";
  const auto at = text.find(times);
  if (at == std::string_view::npos) refuse(text, kind<PlanSize>(), "there is no \" x \" between two lengths");
  return {.length = length_in<PlanSize>(text, text.substr(0, at)),
          .width = length_in<PlanSize>(text, text.substr(at + times.size()))};
}

template <>
Strip read<Strip>(std::string_view text) {
  const auto at = text.find(' ');
  if (at == 0 || at == std::string_view::npos || (text[0] >= '0' && text[0] <= '9'))
    refuse(text, kind<Strip>(), "there is no name before the width");
  return {.tag = std::string(text.substr(0, at)), .width = length_in<Strip>(text, text.substr(at + 1))};
}

template <>
SpanFraction read<SpanFraction>(std::string_view text) {
  constexpr std::string_view front = "length/";
  double divisor = 0.0;
  const bool begins = text.substr(0, front.size()) == front;
  const std::string_view number = begins ? text.substr(front.size()) : std::string_view();
  const auto [end, error] = std::from_chars(number.data(), number.data() + number.size(), divisor);
  if (number.empty() || error != std::errc{} || end != number.data() + number.size())
    refuse(text, kind<SpanFraction>(), "it is not \"length/\" and a number");
  return {divisor};
}

template <>
GlassVariant read<GlassVariant>(std::string_view text) {
  for (const auto& choice : schema::choices<TopEdge>) {
    if (text == choice.word) return {.thickness = std::nullopt, .top_edge = choice.value};
    if (text.size() > choice.word.size() + 1 && text.substr(text.size() - choice.word.size()) == choice.word &&
        text[text.size() - choice.word.size() - 1] == ' ')
      return {.thickness = length_in<GlassVariant>(text, text.substr(0, text.size() - choice.word.size() - 1)),
              .top_edge = choice.value};
  }
  refuse(text, kind<GlassVariant>(), "it does not end with \"rimless\" or \"held top edge\"");
}

std::string write(const PlanSize& s) { return exact(s.length) + " x " + exact(s.width); }
std::string write(const Strip& s) { return s.tag + ' ' + exact(s.width); }
std::string write(const SpanFraction& s) {
  char number[40];
  const auto [end, error] = std::to_chars(number, number + sizeof number, s.divisor);
  return "length/" + std::string(number, end);
}
std::string write(const GlassVariant& s) {
  std::string text;
  for (const auto& choice : schema::choices<TopEdge>)
    if (choice.value == s.top_edge) text = choice.word;
  return s.thickness ? exact(*s.thickness) + ' ' + text : text;
}

}  // namespace theca::study::text_forms
