#include <cstdio>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

#include "../study/text_forms.hpp"
#include "theca/study/design_file.hpp"
#include "theca/study/schema.hpp"

namespace theca::study {
namespace {

using schema::Form;
using schema::Limit;
using schema::Presence;

std::string quoted_text(std::string_view s) {
  std::string out = "\"";
  for (const char c : s) {
    const auto u = static_cast<unsigned char>(c);
    if (c == '"' || c == '\\') {
      out += '\\';
      out += c;
    } else if (u < 0x20 || u == 0x7F) {
      char escape[8];
      std::snprintf(escape, sizeof escape, "\\u%04X", static_cast<unsigned>(u));
      out += escape;
    } else {
      out += c;
    }
  }
  return out + '"';
}

std::string key_text(std::string_view key) {
  const bool bare = !key.empty() && key.find_first_not_of(
                                        "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"
                                        "0123456789_-") == std::string_view::npos;
  return bare ? std::string(key) : quoted_text(key);
}
std::string key_text(const Length& key) { return quoted_text(text_forms::exact(key)); }

// A structure written as a table of its own; the rest are values.
template <class T>
constexpr bool is_structure() {
  return std::is_class_v<T> && !std::same_as<T, std::string> && !std::same_as<T, PracticalSalinity> &&
         !text_forms::is_quantity<T> && !text_forms::is_vector<T> && !text_forms::is_map<T> &&
         schema::form<T> == Form::table;
}

// Whether a structure is short and flat enough to be written in one line: { width = "6 in", at = "mid length" }.
struct Shape {
  int values = 0;
  bool flat = true;
  template <class T>
  void operator()(std::string_view, const T&, const Limit&, Presence = Presence::required) {
    ++values;
    if constexpr (text_forms::is_map<T> || is_structure<T>()) flat = false;
  }
  template <class T>
  void operator()(std::string_view, const std::optional<T>&, const Limit&) {
    ++values;
    if constexpr (text_forms::is_map<T> || is_structure<T>()) flat = false;
  }
  template <class T>
  void rest(std::string_view, const std::map<std::string, T>&, const Limit&) {
    flat = false;
  }
};
template <class T>
bool fits_one_line(const T& s) {
  constexpr int values_in_a_line = 5;
  Shape shape;
  schema::fields(shape, s);
  return shape.flat && shape.values <= values_in_a_line;
}

template <class T>
std::string value_text(const T& value);

struct ListText {
  std::string text;
  template <class T>
  void operator()(std::string_view, const T& member, const Limit&) {
    text += (text.empty() ? "" : ", ") + value_text(member);
  }
};

struct InlineText {
  std::string text;
  template <class T>
  void operator()(std::string_view key, const T& member, const Limit&, Presence = Presence::required) {
    text += (text.empty() ? "" : ", ") + key_text(key) + " = " + value_text(member);
  }
  template <class T>
  void operator()(std::string_view key, const std::optional<T>& member, const Limit& limit) {
    if (member) (*this)(key, *member, limit);
  }
  template <class T>
  void rest(std::string_view, const std::map<std::string, T>&, const Limit&) {}
};

template <class T>
std::string value_text(const T& value) {
  if constexpr (std::same_as<T, std::string>) {
    return quoted_text(value);
  } else if constexpr (std::same_as<T, bool>) {
    return value ? "true" : "false";
  } else if constexpr (std::same_as<T, int>) {
    return std::to_string(value);
  } else if constexpr (std::same_as<T, double>) {
    return text_forms::exact(value);
  } else if constexpr (std::same_as<T, PracticalSalinity>) {
    return text_forms::exact(value.value);
  } else if constexpr (std::is_enum_v<T>) {
    for (const auto& choice : schema::choices<T>)
      if (choice.value == value) return quoted_text(choice.word);
    return "\"\"";  // a number outside the enumeration, which no reader accepts
  } else if constexpr (text_forms::is_quantity<T>) {
    return quoted_text(text_forms::exact(value));
  } else if constexpr (text_forms::is_vector<T>) {
    std::string text;
    for (const auto& element : value) text += (text.empty() ? "" : ", ") + value_text(element);
    return '[' + text + ']';
  } else if constexpr (text_forms::is_map<T>) {
    std::string text;
    for (const auto& [name, member] : value)
      text += (text.empty() ? "" : ", ") + key_text(name) + " = " + value_text(member);
    return "{ " + text + " }";
  } else if constexpr (schema::form<T> == Form::text) {
    return quoted_text(text_forms::write(value));
  } else if constexpr (schema::form<T> == Form::table) {
    InlineText line;
    schema::fields(line, value);
    return "{ " + line.text + " }";
  } else {
    if constexpr (std::same_as<T, Fitting>)
      if (value.count == 1) return value_text(value.K);
    if constexpr (std::same_as<T, CapitalItem>)
      if (value.count == 1) return value_text(value.price);
    ListText list;
    schema::fields(list, value);
    return '[' + list.text + ']';
  }
}

// Writes the values of a table, then the tables in it: TOML wants them in this order.
class TableWriter {
 public:
  TableWriter(std::string path, std::string& out) : path_(std::move(path)), out_(out) {}

  template <class T>
  void operator()(std::string_view key, const T& member, const Limit&, Presence presence = Presence::required) {
    if constexpr (text_forms::is_map<T>) {
      std::string lines;
      for (const auto& [name, value] : member) lines += key_text(name) + " = " + value_text(value) + '\n';
      tables_ += header(key_text(key)) + lines;
    } else if constexpr (is_structure<T>()) {
      structure(key_text(key), member);
    } else {
      if constexpr (text_forms::is_vector<T>)
        if (presence == Presence::optional && member.empty()) return;
      values_ += key_text(key) + " = " + value_text(member) + '\n';
    }
  }
  template <class T>
  void operator()(std::string_view key, const std::optional<T>& member, const Limit& limit) {
    if (member) (*this)(key, *member, limit);
  }
  template <class T>
  void rest(std::string_view, const std::map<std::string, T>& members, const Limit&) {
    for (const auto& [name, value] : members) {
      if constexpr (is_structure<T>())
        structure(key_text(name), value);
      else
        values_ += key_text(name) + " = " + value_text(value) + '\n';
    }
  }

  void finish() {
    if (!path_.empty() && !values_.empty()) out_ += "\n[" + path_ + "]\n";
    out_ += values_ + tables_;
  }

 private:
  std::string below(const std::string& key) const { return path_.empty() ? key : path_ + '.' + key; }
  std::string header(const std::string& key) const { return "\n[" + below(key) + "]\n"; }

  template <class T>
  void structure(const std::string& key, const T& s) {
    if (!path_.empty() && fits_one_line(s)) {
      values_ += key + " = " + value_text(s) + '\n';
      return;
    }
    TableWriter inner(below(key), tables_);
    schema::fields(inner, s);
    inner.finish();
  }

  std::string path_;
  std::string& out_;
  std::string values_, tables_;
};

}  // namespace

std::string write_design(const Design& design) {
  std::string body;
  TableWriter writer(std::string(), body);
  schema::fields(writer, design);
  writer.finish();
  std::string out =
      "# A design of theca. Quantities are strings with a unit; bare numbers are counts, coefficients and "
      "ratios.\n" +
      body;
  // A file that could not be read is not worth having: this refuses it here, where the design is at hand.
  parse_design(out, "design to be written");
  return out;
}

}  // namespace theca::study
