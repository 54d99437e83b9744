#include <toml++/toml.h>

#include <algorithm>
#include <charconv>
#include <fstream>
#include <iterator>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "../nearest.hpp"
#include "../study/text_forms.hpp"
#include "theca/require.hpp"
#include "theca/study/design_file.hpp"
#include "theca/study/schema.hpp"
#include "theca/study/validate.hpp"
#include "theca/units/parse.hpp"

namespace theca::study {
namespace {

using schema::Form;
using schema::Limit;
using schema::Presence;
using text_forms::in_quotes;
using text_forms::join;
using text_forms::range_text;

// ---- problems -------------------------------------------------------------------------------------------------------

// All problems of a file, reported together, in the order of the file.
class Problems {
 public:
  void add(const toml::source_region& source, std::string text) {
    found_.push_back({static_cast<int>(source.begin.line), static_cast<int>(source.begin.column), std::move(text)});
  }
  std::size_t count() const { return found_.size(); }

  // Where each key stands, for contradictions, which are found when all has been read.
  void note_place(const std::string& path, const toml::source_region& source) { places_[path] = source; }
  // At the key, or at the table in which it is missing.
  void add_at(const std::string& path, std::string text) {
    std::string place = path;
    while (!place.empty() && !places_.contains(place)) place.erase(std::min(place.size(), place.find_last_of(".[")));
    add(places_[place], std::move(text));
  }
  void throw_if_any(std::string_view origin) {
    if (found_.empty()) return;
    std::stable_sort(found_.begin(), found_.end(), [](const Problem& a, const Problem& b) {
      return a.line != b.line ? a.line < b.line : a.column < b.column;
    });
    std::string text = found_.front().text;
    for (std::size_t i = 1; i < found_.size(); ++i)
      text.append("\n").append(ParseError(origin, found_[i].line, found_[i].column, found_[i].text).what());
    throw ParseError(origin, found_.front().line, found_.front().column, text);
  }

 private:
  struct Problem {
    int line, column;
    std::string text;
  };
  std::vector<Problem> found_;
  std::map<std::string, toml::source_region> places_;
};

// ---- words ----------------------------------------------------------------------------------------------------------

// What stands in the file, for "got ...".
std::string shown(const toml::node& node) {
  switch (node.type()) {
    case toml::node_type::table:
      return "a table";
    case toml::node_type::array:
      return "a list";
    case toml::node_type::string:
      return in_quotes(node.as_string()->get());
    case toml::node_type::integer:
      return "the number " + std::to_string(node.as_integer()->get());
    case toml::node_type::floating_point:
      return "the number " + text_forms::exact(node.as_floating_point()->get());
    case toml::node_type::boolean:
      return node.as_boolean()->get() ? "true" : "false";
    default:
      return "a date or time";
  }
}

template <class T>
std::string accepted_text(const Limit& limit) {
  const std::string range = range_text<T>(limit);
  return range.empty() ? range : " (accepted: " + range + ")";
}

// ---- values ---------------------------------------------------------------------------------------------------------

template <class T>
void read_value(const toml::node& node, const std::string& path, const Limit& limit, T& out, Problems& problems);

template <class T>
void check_limit(const toml::node& node, const std::string& path, const Limit& limit, const T& value,
                 Problems& problems) {
  if (limit.accepts(value)) return;
  const std::string range = range_text<T>(limit);
  problems.add(node.source(),
               path + ": " + shown(node) + " is out of range, expected " + (range.empty() ? "a finite number" : range));
}

// Limits of the numbers inside a text form, which is read whole.
struct LimitsInside {
  const toml::node& node;
  const std::string& path;
  Problems& problems;
  template <class M>
  void operator()(std::string_view, const M& member, const Limit& limit) {
    if constexpr (requires { *member; }) {
      if (member) check_limit(node, path, limit, *member, problems);
    } else if constexpr (requires { schema::magnitude(member) + 0.0; } && !std::is_enum_v<M> &&
                         !std::same_as<M, std::string>) {
      check_limit(node, path, limit, member, problems);
    }
  }
};

template <class T, class Read>
void read_text(const toml::node& node, const std::string& path, const QuantityKind& kind, const std::string& accepted,
               T& out, Problems& problems, const Read& read) {
  const auto* const string = node.as_string();
  if (!string) {
    problems.add(node.source(), path + ": expected " + kind.what + " as text such as " + in_quotes(kind.example) +
                                    ", got " + shown(node) + accepted);
    return;
  }
  try {
    out = read(std::string_view(string->get()));
  } catch (const ParseError& e) {
    problems.add(node.source(), path + ": " + e.expected() + accepted);
  }
}

template <class T>
void read_number(const toml::node& node, const std::string& path, const Limit& limit, T& out, Problems& problems) {
  if constexpr (std::same_as<T, int>) {
    if (const auto* const whole = node.as_integer()) {
      if (whole->get() > std::numeric_limits<int>::max() || whole->get() < std::numeric_limits<int>::min()) {
        problems.add(node.source(), path + ": " + shown(node) + " is out of range" + accepted_text<int>(limit));
        return;
      }
      out = static_cast<int>(whole->get());
      check_limit(node, path, limit, out, problems);
    } else {
      problems.add(node.source(), path + ": expected a whole number, got " + shown(node) + accepted_text<int>(limit));
    }
    return;
  }
  if constexpr (std::same_as<T, double>) {
    if (node.is_number()) {
      out = node.value<double>().value();
    } else if (const auto* const string = node.as_string()) {
      try {
        out = parse<double>(string->get());
      } catch (const ParseError& e) {
        problems.add(node.source(), path + ": " + e.expected() + accepted_text<double>(limit));
        return;
      }
    } else {
      problems.add(node.source(), path + ": expected a number, got " + shown(node) + accepted_text<double>(limit));
      return;
    }
    check_limit(node, path, limit, out, problems);
  }
}

void read_salinity(const toml::node& node, const std::string& path, const Limit& limit, PracticalSalinity& out,
                   Problems& problems) {
  if (!node.is_number()) {
    problems.add(node.source(), path + ": expected a practical salinity as a bare number such as 35.0, got " +
                                    shown(node) + accepted_text<PracticalSalinity>(limit));
    return;
  }
  out = PracticalSalinity(node.value<double>().value());
  check_limit(node, path, limit, out, problems);
}

template <class E>
void read_choice(const toml::node& node, const std::string& path, E& out, Problems& problems) {
  std::string words;
  std::vector<std::string_view> known;
  for (const auto& choice : schema::choices<E>) {
    if (const auto* const string = node.as_string(); string && string->get() == choice.word) {
      out = choice.value;
      return;
    }
    words += (words.empty() ? "" : " or ") + in_quotes(choice.word);
    known.push_back(choice.word);
  }
  std::string message = path + ": expected " + words + ", got " + shown(node);
  if (const auto* const string = node.as_string())
    if (const auto proposal = detail::nearest_word(string->get(), known); !proposal.empty() && known.size() > 1)
      message += ", did you mean " + in_quotes(proposal) + "?";
  problems.add(node.source(), std::move(message));
}

// ---- tables ---------------------------------------------------------------------------------------------------------

// Reads each field of a structure from a table and keeps account of what was asked for.
class TableReader {
 public:
  TableReader(const toml::table& table, const std::string& path, Problems& problems)
      : table_(table), path_(path), problems_(problems) {}

  template <class T>
  void operator()(std::string_view key, T& member, const Limit& limit, Presence presence = Presence::required) {
    known_.push_back(key);
    const toml::node* const node = table_.get(key);
    if (node)
      read_value(*node, join(path_, key), limit, member, problems_);
    else if (presence == Presence::required)
      missing_.push_back(key);
  }
  template <class T>
  void operator()(std::string_view key, std::optional<T>& member, const Limit& limit) {
    known_.push_back(key);
    if (const toml::node* const node = table_.get(key))
      read_value(*node, join(path_, key), limit, member.emplace(), problems_);
    else
      member.reset();
  }
  template <class T>
  void rest(std::string_view what, std::map<std::string, T>& members, const Limit& limit) {
    takes_any_key_ = true;
    std::vector<std::string_view> absent;
    for (const auto key : known_)
      if (!table_.contains(key)) absent.push_back(key);
    for (const auto& [key, node] : table_) {
      if (std::find(known_.begin(), known_.end(), key.str()) != known_.end()) continue;
      const std::string path = join(path_, key.str());
      if (const auto proposal = detail::nearest_word(key.str(), absent); !proposal.empty())
        problems_.add(key.source(), path + ": unknown key, did you mean " + in_quotes(proposal) + "? (as the name of " +
                                        std::string(what) + " it is too much like it)");
      else
        read_value(node, path, limit, members[std::string(key.str())], problems_);
    }
  }

  // Called after all fields.
  void finish() {
    if (!takes_any_key_) {
      for (const auto& [key, node] : table_) {
        if (std::find(known_.begin(), known_.end(), key.str()) != known_.end()) continue;
        std::string message = join(path_, key.str()) + ": unknown key";
        // A key that is missing is likelier to be meant than one that is there.
        auto proposal = detail::nearest_word(key.str(), missing_);
        if (proposal.empty()) proposal = detail::nearest_word(key.str(), known_);
        if (!proposal.empty()) message += ", did you mean " + in_quotes(proposal) + "?";
        problems_.add(key.source(), std::move(message));
      }
    }
    if (missing_.empty()) return;
    std::string message = (path_.empty() ? "the file" : path_) + ": missing key" + (missing_.size() > 1 ? "s " : " ");
    for (std::size_t i = 0; i < missing_.size(); ++i) message += (i ? ", " : "") + in_quotes(missing_[i]);
    problems_.add(table_.source(), std::move(message));
  }

 private:
  const toml::table& table_;
  const std::string& path_;
  Problems& problems_;
  std::vector<std::string_view> known_, missing_;
  bool takes_any_key_ = false;
};

template <class T>
void read_table(const toml::table& table, const std::string& path, T& out, Problems& problems) {
  TableReader reader(table, path, problems);
  schema::fields(reader, out);
  reader.finish();
}

// ---- lists ----------------------------------------------------------------------------------------------------------

// Reads the fields of a structure from the elements of a list, in order.
struct ListReader {
  const toml::array& list;
  const std::string& path;
  Problems& problems;
  std::size_t next = 0;
  template <class M>
  void operator()(std::string_view, M& member, const Limit& limit) {
    if (next < list.size()) read_value(list[next], join(path, next), limit, member, problems);
    ++next;
  }
};

struct FieldNames {
  std::string names;
  std::size_t count = 0;
  template <class M>
  void operator()(std::string_view key, const M&, const Limit&) {
    names += (count++ ? ", " : "") + std::string(key);
  }
};

// Reads the last field only.
struct LastReader {
  std::size_t last;
  const toml::node& node;
  const std::string& path;
  Problems& problems;
  std::size_t next = 0;
  template <class M>
  void operator()(std::string_view, M& member, const Limit& limit) {
    if (++next == last) read_value(node, path, limit, member, problems);
  }
};

template <class V, class T>
void list_fields(V& visitor, T& s, const Limit& limit) {
  if constexpr (schema::is_range<std::remove_const_t<T>>)
    schema::fields(visitor, s, limit);
  else
    schema::fields(visitor, s);
}

template <class T>
void read_list_form(const toml::node& node, const std::string& path, const Limit& limit, T& out, Problems& problems) {
  FieldNames names;
  list_fields(names, std::as_const(out), limit);
  const auto* const list = node.as_array();
  if constexpr (schema::form<T> == Form::list_or_last) {
    out = T{};
    if (!list) {
      LastReader reader{names.count, node, path, problems};
      schema::fields(reader, out);
      return;
    }
  }
  if (!list || list->size() != names.count) {
    problems.add(node.source(), path + ": expected a list [" + names.names + "], got " +
                                    (list ? "a list of " + std::to_string(list->size()) : shown(node)));
    return;
  }
  const std::size_t before = problems.count();
  ListReader reader{*list, path, problems};
  list_fields(reader, out, limit);
  if constexpr (schema::is_range<T>) {
    if (problems.count() == before && !(out.low <= out.high))
      problems.add(node.source(), path + ": the first limit is above the second");
  }
}

// ---- dispatch -------------------------------------------------------------------------------------------------------

template <class T>
void read_vector(const toml::node& node, const std::string& path, const Limit& limit, std::vector<T>& out,
                 Problems& problems) {
  const auto* const list = node.as_array();
  if (!list || list->empty()) {
    problems.add(node.source(), path + ": expected a list" + (list ? " that is not empty" : ", got " + shown(node)));
    return;
  }
  out.assign(list->size(), T{});
  for (std::size_t i = 0; i < list->size(); ++i) read_value((*list)[i], join(path, i), limit, out[i], problems);
}

template <class K, class T>
void read_map(const toml::node& node, const std::string& path, const Limit& limit, std::map<K, T>& out,
              Problems& problems) {
  const auto* const table = node.as_table();
  if (!table || table->empty()) {
    problems.add(node.source(), path + ": expected a table" + (table ? " that is not empty" : ", got " + shown(node)));
    return;
  }
  for (const auto& [key, value] : *table) {
    const std::string here = join(path, key.str());
    if constexpr (std::same_as<K, std::string>) {
      read_value(value, here, limit, out[std::string(key.str())], problems);
    } else {
      try {
        const K typed_key = parse<K>(key.str());
        if (!schema::positive.accepts(typed_key))
          problems.add(key.source(), here + ": the key is out of range, expected > 0");
        else if (out.contains(typed_key))
          problems.add(key.source(), here + ": the same key is given twice");
        else
          read_value(value, here, limit, out[typed_key], problems);
      } catch (const ParseError& e) {
        problems.add(key.source(), here + ": the key is not right: " + e.expected());
      }
    }
  }
}

template <class T>
void read_value(const toml::node& node, const std::string& path, const Limit& limit, T& out, Problems& problems) {
  problems.note_place(path, node.source());
  if constexpr (std::same_as<T, std::string>) {
    const auto* const string = node.as_string();
    if (!string || string->get().empty())
      problems.add(node.source(), path + ": expected text" + (string ? " that is not empty" : ", got " + shown(node)));
    else
      out = string->get();
  } else if constexpr (std::same_as<T, bool>) {
    if (const auto* const boolean = node.as_boolean())
      out = boolean->get();
    else
      problems.add(node.source(), path + ": expected true or false, got " + shown(node));
  } else if constexpr (std::is_arithmetic_v<T>) {
    read_number(node, path, limit, out, problems);
  } else if constexpr (std::is_enum_v<T>) {
    read_choice(node, path, out, problems);
  } else if constexpr (std::same_as<T, PracticalSalinity>) {
    read_salinity(node, path, limit, out, problems);
  } else if constexpr (text_forms::is_quantity<T>) {
    if constexpr (std::same_as<T, PhotonIntensity>) {
      if (node.is_number()) {  // as photometric tables are printed: one unit for the whole column
        out = node.value<double>().value() * units::umol_per_second_steradian;
        check_limit(node, path, limit, out, problems);
        return;
      }
    }
    const std::size_t before = problems.count();
    read_text(node, path, kind_of<T>(), accepted_text<T>(limit), out, problems, parse<T>);
    if (problems.count() == before) check_limit(node, path, limit, out, problems);
  } else if constexpr (text_forms::is_vector<T>) {
    read_vector(node, path, limit, out, problems);
  } else if constexpr (text_forms::is_map<T>) {
    read_map(node, path, limit, out, problems);
  } else if constexpr (schema::form<T> == Form::text) {
    const std::size_t before = problems.count();
    read_text(node, path, text_forms::kind<T>(), "", out, problems, text_forms::read<T>);
    if (problems.count() == before) {
      LimitsInside limits{node, path, problems};
      schema::fields(limits, std::as_const(out));
    }
  } else if constexpr (schema::form<T> == Form::table) {
    if (const auto* const table = node.as_table())
      read_table(*table, path, out, problems);
    else
      problems.add(node.source(), path + ": expected a table, got " + shown(node));
  } else {
    read_list_form(node, path, limit, out, problems);
  }
}

}  // namespace

Design parse_design(std::string_view toml_text, std::string_view origin) {
  toml::table root;
  try {
    root = toml::parse(toml_text, origin);
  } catch (const toml::parse_error& e) {
    throw ParseError(origin, static_cast<int>(e.source().begin.line), static_cast<int>(e.source().begin.column),
                     e.description());
  }
  Design design;
  Problems problems;
  problems.note_place(std::string(), root.source());
  read_table(root, std::string(), design, problems);
  problems.throw_if_any(origin);
  for (const auto& c : contradictions(design))
    problems.add_at(c.key, c.key + ": expected " + c.accepted + ", got " + c.value);
  problems.throw_if_any(origin);
  return design;
}

Design read_design(const std::filesystem::path& file) {
  std::error_code unreadable;
  std::ifstream stream(file, std::ios::binary);
  if (std::filesystem::is_directory(file, unreadable) || !stream.is_open())
    throw ParseError(file.string(), 0, 0, "expected a design file, but it cannot be opened and read");
  const std::string content((std::istreambuf_iterator<char>(stream)), std::istreambuf_iterator<char>());
  return parse_design(content, file.string());
}

}  // namespace theca::study
