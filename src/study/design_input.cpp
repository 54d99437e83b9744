#include "theca/study/design_input.hpp"

#include <cmath>
#include <concepts>
#include <type_traits>

#include "../nearest.hpp"
#include "text_forms.hpp"
#include "theca/study/schema.hpp"

namespace theca::study {
namespace {

using schema::Limit;
using schema::Presence;

template <class T>
inline constexpr bool is_optional = false;
template <class T>
inline constexpr bool is_optional<std::optional<T>> = true;

template <class T>
inline constexpr bool is_number = text_forms::is_quantity<T> || std::same_as<T, PracticalSalinity> ||
                                  (std::is_arithmetic_v<T> && !std::same_as<T, bool>);

std::string name_of(const std::string& key) { return key; }
std::string name_of(const Length& key) { return text_forms::exact(key); }

/// Calls visit(key, number, limit) for every number of a structure.
template <class Visit>
struct Walk {
  const Visit& visit;
  std::string path;

  template <class T>
  void operator()(std::string_view key, T& member, const Limit& limit, Presence = Presence::required) const {
    inside(text_forms::join(path, key), member, limit);
  }
  template <class Map>
  void rest(std::string_view, Map& members, const Limit& limit) const {
    for (auto& [name, member] : members) inside(text_forms::join(path, name), member, limit);
  }

 private:
  template <class T>
  void inside(const std::string& key, T& member, const Limit& limit) const {
    using Plain = std::remove_const_t<T>;
    if constexpr (is_number<Plain>) {
      visit(key, member, limit);
    } else if constexpr (is_optional<Plain>) {
      if (member) inside(key, *member, limit);
    } else if constexpr (text_forms::is_vector<Plain>) {
      for (std::size_t i = 0; i < member.size(); ++i) inside(text_forms::join(key, i), member[i], limit);
    } else if constexpr (text_forms::is_map<Plain>) {
      for (auto& [name, value] : member) inside(text_forms::join(key, name_of(name)), value, limit);
    } else if constexpr (schema::is_range<Plain>) {
      schema::fields(Walk{visit, key}, member, limit);
    } else if constexpr (std::is_class_v<Plain> && !std::same_as<Plain, std::string>) {
      schema::fields(Walk{visit, key}, member);
    }
  }
};
template <class D, class Visit>
void walk(D& design, const Visit& visit) {
  schema::fields(Walk<Visit>{visit, {}}, design);
}

template <class T>
std::string_view unit_of() {
  if constexpr (requires { typename T::unit_type; }) {
    if constexpr (std::same_as<T, Temperature>)
      return "K";
    else if constexpr (std::same_as<T, AbsolutePressure>)
      return "Pa";
    else
      return theca::detail::SymbolOf<typename T::unit_type>::value;
  } else {
    return "";
  }
}

template <class T>
T number_from(double magnitude) {
  if constexpr (std::is_arithmetic_v<T>)
    return static_cast<T>(magnitude);
  else if constexpr (std::same_as<T, RelativeHumidity> || std::same_as<T, PracticalSalinity>)
    return T(magnitude);
  else
    return from_si<T>(magnitude);
}

/// A number that was written, or the sum of its parts read back from text, is still whole.
bool whole(double x) { return std::abs(x) < 1e9 && x == std::floor(x); }

}  // namespace

std::vector<DesignInput> design_inputs(const Design& design) {
  std::vector<DesignInput> inputs;
  walk(design, [&inputs]<class T>(const std::string& key, const T& number, const Limit& limit) {
    const double x = schema::magnitude(number);
    const std::string unit(unit_of<T>());
    inputs.push_back({key, {x, unit, x, unit}, text_forms::range_text<T>(limit)});
  });
  return inputs;
}

Design with_input(const Design& design, std::string_view key, const Measure& value) {
  Design changed = design;
  bool found = false;
  walk(changed, [&]<class T>(const std::string& at, T& number, const Limit& limit) {
    if (found || at != key) return;
    found = true;
    if (value.si_unit != unit_of<T>())
      throw InvalidInput(key, text(value.si_value, value.si_unit),
                         unit_of<T>().empty() ? "a number without unit" : "a value in " + std::string(unit_of<T>()));
    if (std::is_integral_v<T> && !whole(value.si_value))
      throw InvalidInput(key, text(value.si_value, ""), "a whole number");
    const T candidate = number_from<T>(value.si_value);
    if (!limit.accepts(candidate)) {
      const std::string range = text_forms::range_text<T>(limit);
      throw InvalidInput(key, text(value.si_value, value.si_unit), range.empty() ? "a finite number" : range);
    }
    number = candidate;
  });
  if (!found) {
    std::vector<std::string> keys;
    for (DesignInput& input : design_inputs(design)) keys.push_back(std::move(input.key));
    const std::string nearest(
        theca::detail::nearest_word(key, std::vector<std::string_view>(keys.begin(), keys.end())));
    throw InvalidInput("key", text_forms::in_quotes(key),
                       nearest.empty() ? "a key that design_inputs lists"
                                       : "a number of the design; the nearest is " + text_forms::in_quotes(nearest));
  }
  return changed;
}

}  // namespace theca::study
