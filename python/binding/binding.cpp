// The part of the binder that does not depend on the bound types.
#include "binding.hpp"

#include <set>
#include <stdexcept>
#include <unordered_map>

namespace pybind11::detail {

/// Lets an Argument stand among the extras of a definition: a plain argument, or one with a default.
struct BoundArgument : arg {
  BoundArgument(const char* label, object value) : arg(label), default_value(std::move(value)) {}
  object default_value;
};
template <>
struct process_attribute<BoundArgument> : process_attribute_default<BoundArgument> {
  static void init(const BoundArgument& a, function_record* r) {
    if (a.default_value)
      process_attribute<arg_v>::init(arg_v(a.name, a.default_value), r);
    else
      process_attribute<arg>::init(arg(a.name), r);
  }
};

}  // namespace pybind11::detail

namespace theca::python {

namespace {

std::unordered_map<std::type_index, std::string>& names() {
  static std::unordered_map<std::type_index, std::string> map;
  return map;
}

// Never destroyed: at the end of the process the interpreter is gone before static objects are.
std::unordered_map<std::type_index, py::object>& enums() {
  static auto* map = new std::unordered_map<std::type_index, py::object>;
  return *map;
}

py::dict section(const char* name) { return table()[name]; }

std::string type_name(py::handle h) { return py::str(py::type::handle_of(h).attr("__name__")); }

std::string unit_words(const std::string& kind) {
  static const std::unordered_map<std::string, std::string> words = {{"number", ""},
                                                                     {"temperature", "K, absolute"},
                                                                     {"absolute pressure", "Pa, absolute"},
                                                                     {"practical salinity", "practical salinity"},
                                                                     {"absolute salinity", "g/kg"},
                                                                     {"relative humidity", "0 to 1"}};
  const auto found = words.find(kind);
  return found == words.end() ? kind : found->second;
}

bool is_scalar_kind(const std::string& kind) {
  for (const char* other : {"bool", "int", "str", "path", "none"})
    if (kind == other) return false;
  for (const char* prefix : {"list of ", "optional ", "pair (", "map of ", "map from ", "either (", "function of "})
    if (kind.rfind(prefix, 0) == 0) return false;
  for (const auto& [type, name] : names())
    if (name == kind) return false;
  return true;
}

/// "float or array, m" in the documentation.
std::string type_words(const std::string& kind, bool array_too) {
  if (!is_scalar_kind(kind)) {
    const std::string list = "list of ";
    if (kind.rfind(list, 0) == 0 && is_scalar_kind(kind.substr(list.size()))) {
      const std::string unit = unit_words(kind.substr(list.size()));
      return unit.empty() ? "array" : "array, " + unit;
    }
    return kind;
  }
  const std::string unit = unit_words(kind);
  return std::string(array_too ? "float or array" : "float") + (unit.empty() ? "" : ", " + unit);
}

/// As inspect.signature can read it: enums by the name they also accept, structs as "...", lists of either.
std::string readable_default(const py::object& value) {
  if (py::isinstance<py::list>(value) || py::isinstance<py::tuple>(value)) {
    std::string items;
    for (const py::handle item : value)
      items += (items.empty() ? "" : ", ") + readable_default(py::reinterpret_borrow<py::object>(item));
    return "[" + items + "]";
  }
  if (py::isinstance(value, py::module_::import("enum").attr("Enum"))) return py::repr(value.attr("name"));
  std::string text = py::repr(value);
  return text.find('(') == std::string::npos ? text : "...";
}

std::string indented(const std::string& text) {
  std::string s = "    ";
  for (const char c : text) {
    s += c;
    if (c == '\n') s += "    ";
  }
  return s;
}

std::string documentation(const std::string& heading, const Callable& callable, const std::vector<Argument>& arguments,
                          const std::vector<std::string>& python_names, const Doc& doc) {
  std::string s = heading + doc.summary;
  if (!arguments.empty()) {
    s += "\n\nParameters\n----------";
    for (std::size_t i = 0; i < arguments.size(); ++i) {
      s += "\n" + python_names[i] + " : " + type_words(callable.kinds[i], callable.broadcasts);
      if (arguments[i].default_value) s += ", default " + readable_default(arguments[i].default_value);
      if (*arguments[i].doc) s += "\n" + indented(arguments[i].doc);
    }
  }
  if (callable.returns != "none") {
    s += "\n\nReturns\n-------\n" + type_words(callable.returns, callable.broadcasts);
    if (*doc.returns) s += "\n" + indented(doc.returns);
  }
  if (callable.broadcasts) {
    s += "\n\nArrays broadcast";
    if (!is_scalar_kind(callable.returns) && callable.returns != "bool" && callable.returns != "int")
      s += " to an array of results";
    s += "; one bad element raises.";
  }
  if (*doc.tail) s += std::string("\n\n") + doc.tail;
  return s;
}

template <std::size_t>
using object_at = py::object;

template <std::size_t... I>
void define_arity(py::object scope, const char* name, const Callable& callable,
                  const std::vector<py::detail::BoundArgument>& arguments, const std::vector<std::string>& labels,
                  const std::string& doc, bool overloaded, std::index_sequence<I...>) {
  const auto body = [call = callable.call, overloaded, labels](const std::array<py::object, sizeof...(I)>& given) {
    std::array<const char*, sizeof...(I) + 1> label{};
    for (std::size_t i = 0; i < sizeof...(I); ++i) label[i] = labels[i].c_str();
    if (!overloaded) return call(given.data(), label.data());
    try {
      return call(given.data(), label.data());
    } catch (const py::type_error&) {
      throw py::reference_cast_error();  // pybind11 then tries the next overload
    }
  };
  const auto entry = [body](object_at<I>... a) -> py::object { return body({std::move(a)...}); };
  py::options options;
  options.disable_function_signatures();
  if (callable.method) {
    const auto method = [&]<std::size_t... J>(std::index_sequence<J...>) {
      return py::cpp_function(entry, py::name(name), py::is_method(scope),
                              py::sibling(py::getattr(scope, name, py::none())), doc.c_str(), arguments[J]...);
    };
    if constexpr (sizeof...(I) > 0) py::setattr(scope, name, method(std::make_index_sequence<sizeof...(I) - 1>()));
  } else {
    scope.attr(name) =
        py::cpp_function(entry, py::name(name), py::scope(scope), py::sibling(py::getattr(scope, name, py::none())),
                         doc.c_str(), arguments[I]...);
  }
}

constexpr std::size_t most_arguments = 12;

/// One overload, kept to be asked why it refuses.
struct Form {
  std::vector<std::string> labels;
  std::vector<py::object> defaults;  ///< null where there is none
  Callable::Call call;
};

std::unordered_map<std::string, std::vector<Form>>& overloads() {
  static auto* map = new std::unordered_map<std::string, std::vector<Form>>;
  return *map;
}

/// Why a form does not take these arguments.
std::string refusal(const Form& form, const py::args& positional, const py::kwargs& named) {
  std::vector<py::object> given(form.labels.size());
  std::vector<const char*> labels;
  std::string missing;
  if (positional.size() > given.size())
    return "takes " + std::to_string(given.size()) + " arguments, got " + std::to_string(positional.size());
  std::size_t used = 0;
  for (std::size_t i = 0; i < given.size(); ++i) {
    const char* const label = labels.emplace_back(form.labels[i].c_str());
    given[i] = form.defaults[i];
    if (i < positional.size()) {
      given[i] = positional[i];
    } else if (named.contains(label)) {
      given[i] = named[label];
      ++used;
    }
    if (!given[i]) missing += (missing.empty() ? "" : ", ") + form.labels[i];
  }
  if (!missing.empty()) return "needs " + missing;
  if (used < named.size()) return "was given an argument that it does not have";
  try {
    form.call(given.data(), labels.data());
  } catch (const py::type_error& e) {
    return e.what();
  }
  return "does not take them in this way";
}

template <std::size_t N = 0>
void define_any_arity(std::size_t arity, py::object scope, const char* name, const Callable& callable,
                      const std::vector<py::detail::BoundArgument>& arguments, const std::vector<std::string>& labels,
                      const std::string& doc, bool overloaded) {
  if constexpr (N > most_arguments) {
    throw std::logic_error(std::string(name) + " has more arguments than the binding provides for");
  } else {
    if (arity == N)
      define_arity(scope, name, callable, arguments, labels, doc, overloaded, std::make_index_sequence<N>());
    else
      define_any_arity<N + 1>(arity, scope, name, callable, arguments, labels, doc, overloaded);
  }
}

}  // namespace

const std::string& bound_name(std::type_index type) {
  const auto found = names().find(type);
  if (found == names().end()) {
    std::string name = type.name();
    py::detail::clean_type_id(name);
    throw py::import_error("theca: the type " + name + " is used before it is bound");
  }
  return found->second;
}

void register_bound_name(std::type_index type, std::string name) { names().emplace(type, std::move(name)); }

py::object enum_class(std::type_index type) { return enums().at(type); }
void register_enum_class(std::type_index type, py::object cls) { enums().emplace(type, std::move(cls)); }

py::dict& table() {
  static auto* t = new py::dict;
  return *t;
}

std::string suffix_of_kind(const std::string& kind) {
  const std::string list = "list of ", optional = "optional ", map = "map of ", keyed = "map from ";
  if (kind.rfind(keyed, 0) == 0) return suffix_of_kind(kind.substr(kind.find(" to ") + 4));
  for (const auto& prefix : {list, optional, map})
    if (kind.rfind(prefix, 0) == 0) return suffix_of_kind(kind.substr(prefix.size()));
  const std::string pair = "pair (";
  if (kind.rfind(pair, 0) == 0) {
    const auto middle = kind.find("; ");
    const auto first = suffix_of_kind(kind.substr(pair.size(), middle - pair.size()));
    const auto second = suffix_of_kind(kind.substr(middle + 2, kind.size() - middle - 3));
    return first == second || second.empty() ? first : first + "_and" + second;
  }
  if (kind == "temperature") return "_K";
  if (kind == "absolute pressure") return "_Pa";
  if (kind == "practical salinity") return "_psu";
  if (kind == "absolute salinity") return "_g_per_kg";
  if (kind == "number" || kind == "relative humidity" || !is_scalar_kind(kind)) return "";
  std::string s = "_";
  bool divided = false;
  for (std::size_t i = 0; i < kind.size(); ++i) {
    const char c = kind[i];
    if (c == '1' && i == 0 && kind.size() > 1 && kind[1] == '/') continue;
    if (c == '/') {
      s += divided ? "_" : (s == "_" ? "per_" : "_per_");
      divided = true;
    } else {
      s += c == ' ' ? '_' : c;
    }
  }
  return s;
}

void wrong_type(const char* name, const std::string& expected, py::handle got) {
  std::string words = std::string(name) + ": expected " + expected + ", got " + type_name(got);
  if (py::isinstance<py::str>(got)) words += " " + std::string(py::repr(got));
  throw py::type_error(words);
}

namespace {
std::string number_words(const char* kind) {
  const std::string unit = unit_words(kind);
  return unit.empty() ? "a number" : "a number (" + unit + ")";
}
}  // namespace

double number_of(py::handle h, const char* name, const char* kind) {
  if (PyFloat_Check(h.ptr())) return PyFloat_AS_DOUBLE(h.ptr());
  if (PyBool_Check(h.ptr()) || py::isinstance<py::str>(h) || py::hasattr(h, "dimensionality"))
    wrong_type(name, number_words(kind), h);
  const double x = PyFloat_AsDouble(h.ptr());
  if (x == -1.0 && PyErr_Occurred()) {
    PyErr_Clear();
    wrong_type(name, number_words(kind), h);
  }
  return x;
}

bool is_array_like(py::handle h) {
  if (PyFloat_Check(h.ptr()) || PyLong_Check(h.ptr())) return false;
  if (PyList_Check(h.ptr()) || PyTuple_Check(h.ptr())) return true;
  if (py::isinstance<py::array>(h)) return py::reinterpret_borrow<py::array>(h).ndim() > 0;
  return py::hasattr(h, "__array__") && py::hasattr(h, "__len__") && !py::hasattr(h, "dimensionality");
}

py::array_t<double> array_of(py::handle h, const char* name, const char* kind) {
  const auto any = py::array::ensure(h);
  if (!any) PyErr_Clear();
  const char type = any ? any.dtype().kind() : 'O';
  if ((type != 'f' && type != 'i' && type != 'u') || any.ndim() > 8)
    wrong_type(name, number_words(kind) + " or an array of them", h);
  return py::array_t<double, py::array::forcecast>::ensure(any);
}

std::vector<py::ssize_t> common_shape(std::vector<Lane*> lanes) {
  std::vector<py::ssize_t> shape;
  for (const auto* l : lanes)
    if (l->at) shape.resize(std::max(shape.size(), static_cast<std::size_t>(l->held.ndim())), 1);
  const auto dims = static_cast<py::ssize_t>(shape.size());
  for (const auto* l : lanes) {
    if (!l->at) continue;
    for (py::ssize_t d = 0; d < l->held.ndim(); ++d) {
      auto& n = shape[static_cast<std::size_t>(dims - l->held.ndim() + d)];
      const auto here = l->held.shape(d);
      if (here == 1 || here == n) continue;
      if (n != 1)
        throw py::value_error("arrays of lengths " + std::to_string(n) + " and " + std::to_string(here) +
                              " do not broadcast together");
      n = here;
    }
  }
  for (auto* l : lanes) {
    if (!l->at) continue;
    for (py::ssize_t d = 0; d < l->held.ndim(); ++d)
      l->step[static_cast<std::size_t>(dims - l->held.ndim() + d)] = l->held.shape(d) == 1 ? 0 : l->held.strides(d);
  }
  return shape;
}

py::object in_shape(const py::object& flat, const std::vector<py::ssize_t>& shape) {
  py::tuple lengths(shape.size());
  for (std::size_t i = 0; i < shape.size(); ++i) lengths[i] = shape[i];
  return flat.attr("reshape")(lengths);
}

void define(py::object scope, const std::string& qualified, const char* name, const Callable& callable,
            const std::vector<Argument>& arguments, const Doc& doc, bool overloaded) {
  if (arguments.size() != callable.kinds.size())
    throw py::import_error("theca: " + qualified + " is bound with the wrong number of arguments");
  std::vector<std::string> python_names, labels;
  std::vector<py::detail::BoundArgument> bound;
  std::string signature = std::string(name) + "(";
  if (callable.method) {
    signature += "$self";
    labels.emplace_back("self");
  }
  py::list entries;
  for (std::size_t i = 0; i < arguments.size(); ++i) {
    python_names.push_back(arguments[i].name + suffix_of_kind(callable.kinds[i]));
    labels.push_back(python_names.back());
    if (signature.back() != '(') signature += ", ";
    signature += python_names.back();
    if (arguments[i].default_value) signature += "=" + readable_default(arguments[i].default_value);
    py::dict entry;
    entry["name"] = arguments[i].name;
    entry["si_name"] = python_names.back();
    entry["kind"] = callable.kinds[i];
    entry["doc"] = arguments[i].doc;
    if (arguments[i].default_value) entry["default"] = arguments[i].default_value;
    entries.append(entry);
  }
  for (std::size_t i = 0; i < arguments.size(); ++i)
    bound.emplace_back(python_names[i].c_str(), arguments[i].default_value);
  if (overloaded) {
    Form& form = overloads()[qualified].emplace_back(Form{labels, {}, callable.call});
    form.defaults.resize(labels.size() - arguments.size());
    for (const auto& argument : arguments) form.defaults.push_back(argument.default_value);
  }
  const std::string heading = overloaded ? signature + ")\n\n" : signature + ")\n--\n\n";
  define_any_arity(labels.size(), scope, name, callable, bound, labels,
                   documentation(heading, callable, arguments, python_names, doc), overloaded);

  py::dict entry;
  entry["arguments"] = entries;
  entry["returns"] = callable.returns;
  entry["broadcasts"] = callable.broadcasts;
  entry["method"] = callable.method;
  entry["summary"] = doc.summary;
  entry["returns_doc"] = doc.returns;
  entry["tail"] = doc.tail;
  const py::dict functions = section("functions");
  if (!functions.contains(qualified.c_str())) functions[qualified.c_str()] = py::list();
  py::list(functions[qualified.c_str()]).append(entry);
}

void define_refusal(py::object scope, const std::string& qualified, const char* name, bool method) {
  const auto refuse = [forms = overloads()[qualified], name = std::string(name), method](
                          const py::args& positional, const py::kwargs& named) -> py::object {
    std::string words = name + ": ";
    for (const Form& form : forms) {
      std::string arguments;
      for (std::size_t i = method ? 1 : 0; i < form.labels.size(); ++i)
        arguments += (arguments.empty() ? "" : ", ") + form.labels[i];
      if (&form != &forms.front()) words += "; ";
      words += name + "(" + arguments + ") " + refusal(form, positional, named);
    }
    throw py::type_error(words);
  };
  const py::sibling sibling(py::getattr(scope, name));
  py::options options;
  options.disable_function_signatures();
  if (method)
    py::setattr(scope, name, py::cpp_function(refuse, py::name(name), py::is_method(scope), sibling));
  else
    scope.attr(name) = py::cpp_function(refuse, py::name(name), py::scope(scope), sibling);
}

// --- read-only copies ----------------------------------------------------------------------------------------------

py::object frozen(py::object value) {
  if (py::isinstance<py::array>(value)) {
    value.attr("flags").attr("writeable") = false;
    return value;
  }
  if (py::isinstance<py::list>(value)) {
    py::tuple t(py::len(value));
    std::size_t i = 0;
    for (const auto item : value) t[i++] = frozen(py::reinterpret_borrow<py::object>(item));
    return t;
  }
  if (py::isinstance<py::dict>(value)) {
    py::dict d;
    for (const auto item : py::reinterpret_borrow<py::dict>(value))
      d[item.first] = frozen(py::reinterpret_borrow<py::object>(item.second));
    return py::module_::import("types").attr("MappingProxyType")(d);
  }
  return value;
}

py::object unfrozen(py::object value) {
  const auto proxy = py::module_::import("types").attr("MappingProxyType");
  return py::isinstance(value, proxy) ? py::object(py::dict(value)) : value;
}

std::string_view interned(const std::string& text) {
  static std::set<std::string> pool;  // the addresses of its elements do not change
  return *pool.insert(text).first;
}

// --- structs -------------------------------------------------------------------------------------------------------

std::vector<Field>& fields_of(std::type_index type) {
  static std::unordered_map<std::type_index, std::vector<Field>> map;
  return map[type];
}

bool record_has_container(std::type_index type) {
  for (const auto& f : fields_of(type))
    if (f.has_container || (f.record && record_has_container(*f.record))) return true;
  return false;
}

bool record_holds_references(void* object, std::type_index type) {
  for (const auto& f : fields_of(type))
    if (f.holds_references(object)) return true;
  return false;
}

bool is_referred(const void* object, std::type_index type) {
  const auto* info = py::detail::get_type_info(type);
  return info && py::detail::get_object_handle(object, info);
}

void retire(py::handle owner, std::shared_ptr<void> old_value) {
  static auto* retired = new std::unordered_map<PyObject*, std::vector<std::shared_ptr<void>>>;
  PyObject* const key = owner.ptr();
  auto& kept = (*retired)[key];
  if (kept.empty()) {
    // Called when the owner dies; the weak reference then drops itself.
    py::weakref(owner, py::cpp_function([key](py::handle reference) {
                  const auto found = retired->find(key);
                  if (found != retired->end()) {
                    const auto values = std::move(found->second);
                    retired->erase(found);
                  }
                  reference.dec_ref();
                }))
        .release();
  }
  kept.push_back(std::move(old_value));
}

Given::Given(const char* record, std::type_index type, py::dict keywords)
    : record_(record), type_(type), keywords_(std::move(keywords)) {
  for (const auto item : keywords_) {
    const auto key = item.first.cast<std::string>();
    const auto& fields = fields_of(type_);
    if (std::any_of(fields.begin(), fields.end(), [&](const Field& f) { return f.python_name == key; })) continue;
    std::string known;
    for (const auto& f : fields) known += (known.empty() ? "" : ", ") + f.python_name;
    throw py::type_error(std::string(record_) + " has no field '" + key + "'; its fields are " + known);
  }
}

py::object Given::required(const std::string& python_name) const {
  if (keywords_.contains(python_name.c_str())) return keywords_[python_name.c_str()];
  std::string missing;
  for (const auto& f : fields_of(type_))
    if (f.required && !keywords_.contains(f.python_name.c_str()))
      missing += (missing.empty() ? "" : ", ") + f.python_name;
  throw py::type_error(std::string(record_) + " needs " + missing);
}

void Given::assign(void* object) const {
  for (const auto& f : fields_of(type_))
    if (!f.required && keywords_.contains(f.python_name.c_str()))
      f.set(object, py::handle(), py::object(keywords_[f.python_name.c_str()]), f.python_name.c_str());
}

void* object_behind(py::handle self) {
  auto* instance = static_cast<py::detail::instance*>(static_cast<void*>(self.ptr()));
  return instance->get_value_and_holder().value_ptr();
}

namespace {

std::string repr_of(py::handle self, std::type_index type, const std::string& name) {
  std::string s = name + "(";
  for (const auto& f : fields_of(type)) {
    if (s.back() != '(') s += ", ";
    const py::object value = f.get(object_behind(self), self);
    s += f.python_name + "=";
    if (py::isinstance<py::array>(value) && py::len(value) > 8)
      s += "array of " + std::to_string(py::len(value));
    else
      s += py::repr(value);
  }
  return s + ")";
}

bool equal_records(py::handle a, py::handle b, std::type_index type) {
  const auto numpy = py::module_::import("numpy");
  for (const auto& f : fields_of(type)) {
    const py::object x = f.get(object_behind(a), a), y = f.get(object_behind(b), b);
    if (py::isinstance<py::array>(x)) {
      if (!numpy.attr("array_equal")(x, y).cast<bool>()) return false;
    } else if (!x.equal(y)) {
      return false;
    }
  }
  return true;
}

py::dict state_of(py::handle self, std::type_index type) {
  py::dict state;
  for (const auto& f : fields_of(type)) {
    state[f.python_name.c_str()] = unfrozen(f.get(object_behind(self), self));
  }
  return state;
}

}  // namespace

void add_field(py::object cls, std::type_index type, const char* name, const char* doc, bool required,
               const FieldType& field_type, const Field& accessors) {
  Field f = accessors;
  f.name = name;
  f.python_name = name + suffix_of_kind(field_type.kind);
  f.kind = field_type.kind;
  f.doc = doc;
  f.required = required;
  f.has_container = field_type.has_container;
  f.record = field_type.record;
  fields_of(type).push_back(f);
  const auto object = [cls = cls.ptr()](py::handle self) {
    if (!PyObject_TypeCheck(self.ptr(), static_cast<PyTypeObject*>(static_cast<void*>(cls))))
      throw py::type_error("a field was asked of an object of another type");
    return object_behind(self);
  };
  py::options options;
  options.disable_function_signatures();
  const auto get =
      py::cpp_function([f, object](py::handle self) { return f.get(object(self), self); }, py::is_method(cls));
  const auto set = py::cpp_function(
      [f, object](py::handle self, py::handle value) { f.set(object(self), self, value, f.python_name.c_str()); },
      py::is_method(cls));
  const std::string words = type_words(f.kind, false) + (f.doc.empty() ? "" : ": " + f.doc);
  cls.attr(f.python_name.c_str()) = py::module_::import("builtins").attr("property")(get, set, py::none(), words);
}

void define_record(py::object cls, std::type_index type, const char* name, const RecordCalls& calls) {
  const auto method = [&cls](const char* label, auto call, const auto&... extra) {
    py::setattr(cls, label,
                py::cpp_function(call, py::name(label), py::is_method(cls),
                                 py::sibling(py::getattr(cls, label, py::none())), extra...));
  };
  // As py::init and py::pickle do it, for an object whose type is known as an address only.
  const auto build = [type, name, make = calls.make](py::detail::value_and_holder& place, const py::dict& keywords) {
    place.value_ptr() = make(Given(name, type, keywords));
  };
  method(
      "__init__", [build](py::detail::value_and_holder& place, const py::kwargs& keywords) { build(place, keywords); },
      py::detail::is_new_style_constructor());
  method("__setstate__", build, py::detail::is_new_style_constructor());
  method("__getstate__", [type](const py::object& self) { return state_of(self, type); });
  method("__repr__", [type, name](const py::object& self) { return repr_of(self, type, name); });
  method("__eq__", [type, cls = py::handle(cls)](const py::object& self, const py::object& other) -> py::object {
    if (!py::isinstance(other, cls)) return py::reinterpret_borrow<py::object>(Py_NotImplemented);
    return py::bool_(equal_records(self, other, type));
  });
  cls.attr("__hash__") = py::none();
  method("__copy__", [copy = calls.copy](const py::object& self) { return copy(self); });
  method("__deepcopy__", [copy = calls.copy](const py::object& self, const py::object&) { return copy(self); });
  method(
      "replace",
      [type, cls = py::handle(cls)](const py::object& self, const py::kwargs& changes) {
        py::dict all = state_of(self, type);
        for (const auto item : changes) all[item.first] = item.second;
        return py::object(cls(**all));
      },
      "A copy with some fields changed.");
}

void describe_record(py::object cls, const std::string& qualified, std::type_index type, const char* doc,
                     bool constructible) {
  std::string words = doc;
  py::list fields;
  if (constructible) words += "\n\nFields, given as keywords\n-------------------------";
  for (const auto& f : fields_of(type)) {
    words += "\n" + f.python_name + " : " + type_words(f.kind, false) + (f.required ? "" : ", optional");
    if (!f.doc.empty()) words += "\n" + indented(f.doc);
    py::dict entry;
    entry["name"] = f.name;
    entry["si_name"] = f.python_name;
    entry["kind"] = f.kind;
    entry["doc"] = f.doc;
    entry["required"] = f.required;
    fields.append(entry);
  }
  cls.attr("__doc__") = words;
  py::dict entry;
  entry["fields"] = fields;
  entry["doc"] = doc;
  section("structs")[qualified.c_str()] = entry;
}

// --- modules -------------------------------------------------------------------------------------------------------

Module::Module(py::module_ root, const char* name, const char* doc) : name_(name), module_(root) {
  for (const char* part : {"functions", "structs", "enums", "constants", "modules"})
    if (!table().contains(part)) table()[part] = py::dict();
  if (name_.empty()) return;
  module_ = root.def_submodule(name, doc);
  module_.attr("__name__") = "theca.si." + name_;
  section("modules")[name] = doc;
}

void Module::enumeration(std::type_index type, const char* name,
                         const std::vector<std::pair<const char*, long>>& members, const char* doc,
                         const std::vector<const char*>& member_docs) {
  register_bound_name(type, qualified(name));
  py::list values;
  py::dict docs;
  std::string words = doc;
  for (std::size_t i = 0; i < members.size(); ++i) {
    values.append(py::make_tuple(members[i].first, members[i].second));
    docs[members[i].first] = member_docs[i];
    words += std::string("\n") + members[i].first + (*member_docs[i] ? std::string(": ") + member_docs[i] : "");
  }
  const py::object cls =
      py::module_::import("enum").attr("Enum")(name, values, py::arg("module") = module_.attr("__name__"));
  cls.attr("__doc__") = words;
  module_.attr(name) = cls;
  register_enum_class(type, cls);
  py::dict entry;
  entry["members"] = docs;
  entry["doc"] = doc;
  section("enums")[qualified(name).c_str()] = entry;
}

void Module::constant(const char* name, const std::string& kind, const py::object& value, const char* doc) {
  const std::string python_name = name + suffix_of_kind(kind);
  module_.attr(python_name.c_str()) = value;
  py::dict entry;
  entry["si_name"] = python_name;
  entry["kind"] = kind;
  entry["doc"] = doc;
  section("constants")[qualified(name).c_str()] = entry;
}

}  // namespace theca::python
