#include "theca/units/parse.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdlib>
#include <utility>

#include "../nearest.hpp"

namespace theca {
namespace {

template <class Unit>
constexpr UnitEntry entry(const NamedUnit<Unit>& u) {
  return {u.symbol, u.size.value(), dimension_of<Unit>()};
}

using namespace theca::units;
constexpr UnitEntry table[] = {
    // symbols that can be factors of a compound
    entry(one), entry(percent), entry(ppm), entry(metre), entry(millimetre), entry(centimetre), entry(kilometre),
    entry(micrometre), entry(nanometre), entry(inch), entry(foot), entry(square_metre), entry(square_centimetre),
    entry(square_millimetre), entry(square_foot), entry(square_inch), entry(cubic_metre), entry(litre),
    entry(millilitre), entry(us_gallon), entry(us_pint), entry(cubic_foot), entry(radian), entry(degree),
    entry(steradian), entry(second), entry(minute), entry(hour), entry(day), entry(week), entry(month), entry(year),
    entry(gph), entry(gpm), entry(kilogram), entry(gram), entry(milligram), entry(pound), entry(newton),
    entry(kilonewton), entry(pound_force), entry(pascal), entry(kilopascal), entry(megapascal), entry(gigapascal),
    entry(units::psi), entry(psf), entry(foot_of_water), entry(joule), entry(kilowatt_hour), entry(Btu), entry(watt),
    entry(kilowatt), entry(kelvin), entry(degC_difference), entry(degF_difference), entry(volt), entry(ampere),
    entry(ohm), entry(ampere_hour), entry(mole), entry(micromole), entry(milliequivalent), entry(dKH), entry(dollar),
    // compounds with a size of their own, so that text and literals agree to the last bit
    entry(gram_per_kilogram), entry(per_second), entry(per_minute), entry(per_hour), entry(per_day), entry(per_week),
    entry(per_month), entry(per_year), entry(metre_per_second), entry(centimetre_per_second), entry(foot_per_second),
    entry(metre_per_day), entry(metre_per_second_squared), entry(cubic_metre_per_second), entry(litre_per_second),
    entry(litre_per_hour), entry(litre_per_day), entry(gallon_per_day), entry(kilogram_per_second), entry(gram_per_day),
    entry(kilogram_per_day), entry(kilogram_per_cubic_metre), entry(gram_per_litre), entry(milligram_per_litre),
    entry(newton_per_metre), entry(pound_force_per_foot), entry(newton_per_radian), entry(Btu_per_hour),
    entry(watt_per_square_metre), entry(watt_per_metre_kelvin), entry(watt_per_square_metre_kelvin),
    entry(Btu_per_hour_ft2_degF), entry(watt_per_kelvin), entry(joule_per_kelvin), entry(joule_per_kilogram_kelvin),
    entry(joule_per_kilogram), entry(ohm_per_kilometre), entry(ohm_per_thousand_feet), entry(pascal_second),
    entry(square_metre_per_second), entry(per_kelvin), entry(per_metre), entry(mole_per_cubic_metre),
    entry(meq_per_litre), entry(gram_per_mole), entry(umol_per_second), entry(umol_per_square_metre_second),
    entry(umol_per_second_steradian), entry(mol_per_square_metre), entry(umol_per_joule), entry(candela), entry(lumen),
    entry(lumen_per_watt), entry(umol_per_second_lumen), entry(dollar_per_year), entry(per_square_foot),
    entry(gram_per_hour), entry(milligram_per_square_centimetre_day), entry(gram_per_square_metre_day),
    entry(gram_per_kilogram_hour), entry(umol_per_kilogram), entry(mole_per_day),
    entry(umol_per_square_centimetre_hour), entry(dollar_per_hour), entry(dollar_per_kilowatt_hour),
    entry(dollar_per_gallon), entry(dollar_per_square_foot_year)};

struct NamedKind {
  Dimension dimension;
  std::string_view what, example;
};
template <class Unit>
constexpr NamedKind kind(std::string_view what, std::string_view example) {
  return {dimension_of<Unit>(), what, example};
}
constexpr NamedKind kinds[] = {kind<unit::none>("a ratio", "10 %"),
                               kind<unit::length>("a length", "1.40 m"),
                               kind<unit::area>("an area", "20 cm2"),
                               kind<unit::volume>("a volume", "80 gal"),
                               kind<unit::second_moment>("a second moment of area", "3.2 cm4"),
                               kind<unit::angle>("an angle", "30 deg"),
                               kind<unit::solid_angle>("a solid angle", "0.5 sr"),
                               kind<unit::time>("a time", "10 h"),
                               kind<unit::frequency>("a rate per time", "0.05 1/d"),
                               kind<unit::velocity>("a velocity", "5 ft/s"),
                               kind<unit::acceleration>("an acceleration", "9.81 m/s2"),
                               kind<unit::volume_flow>("a volume flow", "1150 gph"),
                               kind<unit::mass>("a mass", "220 lb"),
                               kind<unit::mass_flow>("a mass flow", "0.04 g/h"),
                               kind<unit::mass_flux>("a mass flux", "1.2 mg/cm2/d"),
                               kind<unit::mass_per_length>("a mass per length", "3 kg/m"),
                               kind<unit::area_density>("a mass per area", "30 kg/m2"),
                               kind<unit::density>("a density or mass concentration", "2500 kg/m3"),
                               kind<unit::force>("a force", "50 N"),
                               kind<unit::line_load>("a line load", "50 N/m"),
                               kind<unit::rotational_stiffness>("a rotational stiffness", "500 N/rad"),
                               kind<unit::pressure>("a pressure", "125 psf"),
                               kind<unit::energy>("an energy", "2 kWh"),
                               kind<unit::power>("a power", "84 W"),
                               kind<unit::specific_energy>("a specific energy", "2.4e6 J/kg"),
                               kind<unit::heat_flux>("a heat flux", "100 W/m2"),
                               kind<unit::dynamic_viscosity>("a dynamic viscosity", "1e-3 Pa s"),
                               kind<unit::kinematic_viscosity>("a kinematic viscosity", "0.93e-6 m2/s"),
                               kind<unit::thermal_conductivity>("a thermal conductivity", "1.0 W/m/K"),
                               kind<unit::thermal_transmittance>("a thermal transmittance", "1.5 W/m2/K"),
                               kind<unit::thermal_conductance>("a thermal conductance", "18 W/K"),
                               kind<unit::thermal_resistance>("a thermal resistance", "0.68 h ft2 degF/Btu"),
                               kind<unit::heat_capacity>("a heat capacity", "500 J/K"),
                               kind<unit::specific_heat_capacity>("a specific heat capacity", "4000 J/kg/K"),
                               kind<unit::temperature>("a temperature difference", "5 K"),
                               kind<unit::thermal_expansion>("a thermal expansion", "9e-6 1/K"),
                               kind<unit::attenuation>("an attenuation", "0.15 1/m"),
                               kind<unit::voltage>("a voltage", "120 V"),
                               kind<unit::current>("a current", "20 A"),
                               kind<unit::resistance>("an electrical resistance", "0.2 ohm"),
                               kind<unit::resistance_per_length>("a resistance per length", "6.5 ohm/km"),
                               kind<unit::charge>("an electric charge", "100 Ah"),
                               kind<unit::amount>("an amount of substance", "2 mol"),
                               kind<unit::concentration>("a concentration", "8.0 dKH"),
                               kind<unit::molality>("an amount per mass", "2300 umol/kg"),
                               kind<unit::per_area>("a number per area", "10 1/ft2"),
                               kind<unit::molar_mass>("a molar mass", "84.01 g/mol"),
                               kind<unit::luminous_intensity>("a luminous intensity", "1200 cd"),
                               kind<unit::luminous_flux>("a luminous flux", "5400 lm"),
                               kind<unit::luminous_efficacy>("a luminous efficacy", "180 lm/W"),
                               kind<unit::photons_per_light>("a photon flux per luminous flux", "0.018 umol/s/lm"),
                               kind<unit::photon_flux>("a photon flux", "190 umol/s"),
                               kind<unit::photon_flux_density>("a photon or molar flux density", "200 umol/m2/s"),
                               kind<unit::photon_intensity>("a photon intensity", "94 umol/s/sr"),
                               kind<unit::photon_dose>("a photon dose", "12 mol/m2"),
                               kind<unit::photon_efficacy>("a photon efficacy", "2.3 umol/J"),
                               kind<unit::currency>("an amount of money", "14 USD"),
                               kind<unit::currency_per_energy>("a price of energy", "0.15 USD/kWh"),
                               kind<unit::currency_per_time>("an amount of money per time", "20 USD/h"),
                               kind<unit::currency_per_area_time>("a rent", "11 USD/ft2/year"),
                               kind<unit::currency_per_volume>("a price per volume", "0.45 USD/gal")};

const UnitEntry* find(std::string_view symbol) {
  const auto* const found =
      std::find_if(std::begin(table), std::end(table), [&](const UnitEntry& e) { return e.symbol == symbol; });
  return found == std::end(table) ? nullptr : found;
}

// Signs that text often has for letters of this grammar: degree sign, micro sign, Greek mu (UTF-8).
std::string with_plain_letters(std::string_view symbol) {
  static constexpr std::pair<std::string_view, std::string_view> signs[] = {
      {"\xC2\xB0", "deg"}, {"\xC2\xB5", "u"}, {"\xCE\xBC", "u"}};
  for (const auto& [sign, letters] : signs)
    if (symbol.substr(0, sign.size()) == sign) return std::string(letters) + std::string(symbol.substr(sign.size()));
  return std::string(symbol);
}

// The known symbol most like an unknown one; among equals, one of the wanted dimension. Failing that, one of at least
// two letters that the unknown one begins with ("inches").
std::string_view nearest(std::string_view unknown, const Dimension* wanted) {
  std::string_view best;
  if (unknown.size() > theca::detail::longest_word_compared) return best;
  const std::string plain = with_plain_letters(unknown);
  std::string_view beginning;
  std::size_t best_score = 2 * theca::detail::letters_that_may_differ(plain) + 2;
  for (const auto& e : table) {
    if (e.symbol.find_first_of("1/ ") != std::string_view::npos) continue;  // a compound
    const std::size_t off = theca::detail::edit_distance(plain, e.symbol);
    const std::size_t score = 2 * off + (wanted && e.dimension == *wanted ? 0 : 1);
    if (score < best_score) {
      best_score = score;
      best = e.symbol;
    }
    if (e.symbol.size() >= 2 && e.symbol.size() > beginning.size() && plain.substr(0, e.symbol.size()) == e.symbol)
      beginning = e.symbol;
  }
  return best.empty() ? beginning : best;
}

std::string in_quotes(std::string_view s) { return '"' + std::string(s) + '"'; }

struct Reading {
  ParsedQuantity quantity;
  double number = 0.0;    // as written
  std::string_view unit;  // as written
  std::string problem;    // empty when all is well
};

bool is_symbol_character(char c) {
  const auto u = static_cast<unsigned char>(c);
  return (u >= 'A' && u <= 'Z') || (u >= 'a' && u <= 'z') || (u >= '0' && u <= '9') || u == '_' || u == '%' || u >= 128;
}
bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_space(char c) { return c == ' ' || c == '\t'; }

std::string_view trimmed(std::string_view s) {
  while (!s.empty() && is_space(s.front())) s.remove_prefix(1);
  while (!s.empty() && is_space(s.back())) s.remove_suffix(1);
  return s;
}

struct Factor {
  UnitEntry unit{};
  int exponent = 1;
};

// Reads one symbol with its exponent from the front of `rest`.
std::string read_factor(std::string_view& rest, Factor& factor, const Dimension* wanted) {
  std::size_t n = 0;
  while (n < rest.size() && is_symbol_character(rest[n])) ++n;
  if (n == 0)
    return rest.empty() ? "a unit is missing at the end" : "no unit can begin with " + in_quotes(rest.substr(0, 1));
  std::string_view symbol = rest.substr(0, n);
  std::string_view after = rest.substr(n);
  std::string_view exponent;
  const UnitEntry* found = find(symbol);
  if (!found) {
    const std::size_t letters = symbol.find_last_not_of("0123456789") + 1;
    exponent = symbol.substr(letters);
    found = find(symbol.substr(0, letters));
    if (!found || found->dimension == Dimension{}) {
      std::string problem = "unknown unit " + in_quotes(symbol);
      if (const auto proposal = nearest(symbol, wanted); !proposal.empty())
        problem += ", did you mean " + in_quotes(proposal) + "?";
      return problem;
    }
  }
  factor.unit = *found;
  bool negative = false;
  if (!after.empty() && (after[0] == '^' || after[0] == '-')) {
    if (is_digit(symbol.back())) return "two exponents after " + in_quotes(symbol);
    if (after[0] == '^') after.remove_prefix(1);
    if (!after.empty() && after[0] == '-') {
      negative = true;
      after.remove_prefix(1);
    }
    std::size_t digits = 0;
    while (digits < after.size() && is_digit(after[digits])) ++digits;
    exponent = after.substr(0, digits);
    after.remove_prefix(digits);
    if (digits == 0) return "the exponent of " + in_quotes(symbol) + " must be a whole number";
  }
  if (!exponent.empty()) {
    if (exponent.size() > 1 || exponent[0] == '0') return "the exponent of " + in_quotes(symbol) + " must be 1 to 9";
    factor.exponent = negative ? -(exponent[0] - '0') : exponent[0] - '0';
  }
  rest = after;
  return {};
}

double raised(double size, int exponent) {
  double product = 1.0;
  for (int i = 0; i < std::abs(exponent); ++i) product *= size;
  return product;
}

std::string read_unit(std::string_view unit, double number, ParsedQuantity& q, const Dimension* wanted) {
  if (const UnitEntry* const whole = find(unit)) {
    q.si_value = number * whole->si_size;
    q.dimension = whole->dimension;
    if (unit == degC_difference.symbol) q.temperature_point = celsius(number);
    if (unit == degF_difference.symbol) q.temperature_point = fahrenheit(number);
    if (unit == kelvin.symbol) q.temperature_point = from_si<Temperature>(number);
    return {};
  }
  double numerator = 1.0;
  double denominator = 1.0;
  bool divided = false;
  bool divide = false;
  for (std::string_view rest = unit;;) {
    Factor factor;
    if (auto problem = read_factor(rest, factor, wanted); !problem.empty()) return problem;
    const int power = divide ? -factor.exponent : factor.exponent;
    (power > 0 ? numerator : denominator) *= raised(factor.unit.si_size, power);
    for (std::size_t i = 0; i < q.dimension.size(); ++i) q.dimension[i] += power * factor.unit.dimension[i];
    const bool spaced = !rest.empty() && is_space(rest.front());
    rest = trimmed(rest);
    if (rest.empty()) break;
    divide = rest.front() == '/';
    const bool times = rest.front() == '*' || rest.front() == '/';
    if (!times && !spaced) return in_quotes(rest) + " cannot follow a unit";
    if (times) rest = trimmed(rest.substr(1));
    if (divided && !divide) return "a product after \"/\" is ambiguous, divide by each unit in turn as in \"W/m/K\"";
    divided = divided || divide;
  }
  q.si_value = number * (numerator / denominator);
  return {};
}

Reading refused(std::string_view problem) {
  Reading r;
  r.problem = problem;
  return r;
}

Reading read(std::string_view text, const Dimension* wanted) {
  Reading r;
  const std::string_view all = trimmed(text);
  if (all.empty()) return refused("there is no number");
  std::string_view rest = all;
  if (rest.front() == '+') rest.remove_prefix(1);
  const std::string_view unsigned_part = rest.substr(!rest.empty() && rest.front() == '-' && rest.size() == all.size());
  if (unsigned_part.empty() || !(is_digit(unsigned_part.front()) || unsigned_part.front() == '.'))
    return refused("there is no finite number at the beginning");
  double number = 0.0;
  const auto [end, error] = std::from_chars(rest.data(), rest.data() + rest.size(), number);
  if (error == std::errc::result_out_of_range) return refused("the number is too large or too small");
  if (error != std::errc{}) return refused("there is no finite number at the beginning");
  const std::string_view unit = trimmed(rest.substr(static_cast<std::size_t>(end - rest.data())));
  r.quantity.si_value = number;
  r.number = number;
  r.unit = unit;
  if (unit.empty()) return r;
  r.quantity.has_unit = true;
  r.problem = read_unit(unit, number, r.quantity, wanted);
  const double value = r.quantity.si_value;
  if (r.problem.empty() && (!std::isfinite(value) || (number != 0.0 && !std::isnormal(value))))
    r.problem = "the number is too large or too small";
  return r;
}

[[noreturn]] void refuse(std::string_view text, const QuantityKind& kind, std::string_view problem) {
  std::string message = "expected " + kind.what + " such as " + in_quotes(kind.example) + ", got " + in_quotes(text);
  if (!problem.empty()) message.append(": ").append(problem);
  throw ParseError("", 0, 0, message);
}

// The reading of text as a quantity of one dimension.
Reading read_as(std::string_view text, const Dimension& wanted, const QuantityKind& kind) {
  Reading r = read(text, &wanted);
  if (!r.problem.empty()) refuse(text, kind, r.problem);
  if (r.quantity.dimension != wanted) refuse(text, kind, r.quantity.has_unit ? "" : "the unit is missing");
  return r;
}

constexpr Dimension ratio = dimension_of<unit::none>();

}  // namespace

std::span<const UnitEntry> known_units() { return table; }

ParsedQuantity parse_quantity(std::string_view text) {
  const Reading r = read(text, nullptr);
  if (!r.problem.empty()) refuse(text, {"a number with a unit", "1.40 m"}, r.problem);
  return r.quantity;
}

QuantityKind quantity_kind(const Dimension& dimension) {
  for (const auto& k : kinds)
    if (k.dimension == dimension) return {std::string(k.what), std::string(k.example)};
  static constexpr std::string_view base[] = {"m", "kg", "s", "A", "K", "mol", "cd", "rad", "sr", "USD"};
  std::string unit;
  for (std::size_t i = 0; i < dimension.size(); ++i) {
    if (dimension[i] == 0) continue;
    if (!unit.empty()) unit += ' ';
    unit += base[i];
    if (dimension[i] != 1) unit += '^' + std::to_string(dimension[i]);
  }
  return {"a quantity", "1 " + unit};
}

template <>
QuantityKind kind_of<double>() {
  return {"a ratio", "0.1"};
}
template <>
QuantityKind kind_of<Temperature>() {
  return {"a temperature", "78 degF"};
}
template <>
QuantityKind kind_of<AbsolutePressure>() {
  return {"an absolute pressure", "101.3 kPa"};
}
template <>
QuantityKind kind_of<PracticalSalinity>() {
  return {"a practical salinity", "35"};
}
template <>
QuantityKind kind_of<AbsoluteSalinity>() {
  return {"an absolute salinity", "35.2 g/kg"};
}
template <>
QuantityKind kind_of<RelativeHumidity>() {
  return {"a relative humidity", "50 %"};
}

namespace detail {
double parse_si(std::string_view text, const Dimension& wanted) {
  const auto kind = quantity_kind(wanted);
  const auto q = read_as(text, wanted, kind).quantity;
  if (!q.has_unit) refuse(text, kind, "the unit is missing");
  return q.si_value;
}
}  // namespace detail

template <>
double parse<double>(std::string_view text) {
  const auto kind = kind_of<double>();
  const Reading r = read_as(text, ratio, kind);
  if (r.quantity.has_unit && r.unit != percent.symbol && r.unit != ppm.symbol)
    refuse(text, kind, "a plain ratio is bare or has % or ppm");
  return r.quantity.si_value;
}

template <>
Temperature parse<Temperature>(std::string_view text) {
  const auto kind = kind_of<Temperature>();
  const auto q = read_as(text, dimension_of<unit::temperature>(), kind).quantity;
  if (!q.temperature_point) refuse(text, kind, "a temperature is in degF, degC or K alone");
  if (q.temperature_point->value() < 0.0) refuse(text, kind, "below absolute zero");
  return *q.temperature_point;
}

template <>
AbsolutePressure parse<AbsolutePressure>(std::string_view text) {
  const auto kind = kind_of<AbsolutePressure>();
  const auto q = read_as(text, dimension_of<unit::pressure>(), kind).quantity;
  if (q.si_value < 0.0) refuse(text, kind, "below vacuum");
  return from_si<AbsolutePressure>(q.si_value);
}

template <>
PracticalSalinity parse<PracticalSalinity>(std::string_view text) {
  const auto kind = kind_of<PracticalSalinity>();
  const auto q = read_as(text, ratio, kind).quantity;
  if (q.has_unit) refuse(text, kind, "practical salinity has no unit");
  if (q.si_value < 0.0) refuse(text, kind, "negative");
  return PracticalSalinity(q.si_value);
}

template <>
AbsoluteSalinity parse<AbsoluteSalinity>(std::string_view text) {
  const auto kind = kind_of<AbsoluteSalinity>();
  const auto q = read_as(text, ratio, kind).quantity;
  if (!q.has_unit) refuse(text, kind, "the unit is missing");
  if (q.si_value < 0.0) refuse(text, kind, "negative");
  return AbsoluteSalinity(1e3 * q.si_value);
}

template <>
RelativeHumidity parse<RelativeHumidity>(std::string_view text) {
  const auto kind = kind_of<RelativeHumidity>();
  const auto r = read_as(text, ratio, kind);
  const auto& q = r.quantity;
  if (!q.has_unit) refuse(text, kind, "the unit is missing");
  // Divided, not multiplied by 0.01, so that "70 %" is percent_rh(70) to the last bit.
  const RelativeHumidity rh = r.unit == percent.symbol ? percent_rh(r.number) : RelativeHumidity(q.si_value);
  if (!(rh.ratio >= 0.0 && rh.ratio <= 1.0)) refuse(text, kind, "outside 0 % to 100 %");
  return rh;
}

}  // namespace theca
