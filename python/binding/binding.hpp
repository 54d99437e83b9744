// Turns typed free functions, aggregate structs and enums of theca into Python ones over SI doubles, and writes down
// for every argument, result and field what the C++ type says about its unit (`theca.si._table`).
#ifndef THECA_PYTHON_BINDING_HPP  // not `#pragma once`, which g++ 12 loses track of in a precompiled header
#define THECA_PYTHON_BINDING_HPP

#include <algorithm>
#include <tuple>

#include "wire.hpp"

namespace theca::python {

/// Documentation of a function in pieces: the units of the arguments are put between them when it is bound.
struct Doc {
  const char* summary = "";
  const char* returns = "";
  const char* tail = "";  ///< ranges, exceptions, sources
};

/// One argument: its C++ name, what is said about it, and its default if it has one.
struct Argument {
  const char* name;
  const char* doc = "";
  py::object default_value = {};
};

template <class T, class Make>
Argument optional_argument(const char* name, const char* doc, Make make) {
  return {name, doc, Wire<plain<T>>::out(make())};
}

/// A bound callable without its types.
struct Callable {
  using Call = py::object (*)(const py::object* arguments, const char* const* names);
  Call call;
  std::vector<std::string> kinds;  ///< one per argument; for a method, without the object itself
  std::string returns;
  bool broadcasts;
  bool method;
};

/// Defines a callable in a module or class and writes it down in the table under `qualified`.
void define(py::object scope, const std::string& qualified, const char* name, const Callable& callable,
            const std::vector<Argument>& arguments, const Doc& doc, bool overloaded);

/// Behind the last overload of `name`: says of each why it does not take what was given.
void define_refusal(py::object scope, const std::string& qualified, const char* name, bool method);

/// The table that `theca.si._table` shows.
py::dict& table();

// --- calls ---------------------------------------------------------------------------------------------------------

/// One argument of a broadcast call: an array seen through strides, or one number for all elements.
struct Lane {
  py::array_t<double> held;
  const char* at = nullptr;
  std::array<py::ssize_t, 8> step{};
  double number = 0.0;
};

/// The common shape of the lanes; sets their steps. ValueError when the shapes do not fit together.
std::vector<py::ssize_t> common_shape(std::vector<Lane*> lanes);
py::object in_shape(const py::object& flat, const std::vector<py::ssize_t>& shape);

template <class R>
inline constexpr bool is_one_value = true;
template <>
inline constexpr bool is_one_value<void> = false;
template <class T>
inline constexpr bool is_one_value<std::vector<T>> = false;
template <class T, std::size_t N>
inline constexpr bool is_one_value<std::array<T, N>> = false;

template <auto F, class R, class... P>
struct Call {
  static constexpr bool broadcasts = is_one_value<plain<R>> && (Scalar<plain<P>>::is || ...);
  static constexpr bool only_scalars =
      (Scalar<plain<P>>::is && ...) && (Scalar<plain<R>>::is || std::is_arithmetic_v<R>);
  using Converted = std::tuple<decltype(Wire<plain<P>>::in(py::handle(), nullptr))...>;

  static py::object call(const py::object* a, const char* const* names) {
    return call(a, names, std::index_sequence_for<P...>());
  }

 private:
  template <std::size_t... I>
  static py::object call(const py::object* a, const char* const* names, std::index_sequence<I...> order) {
    if constexpr (broadcasts)
      if (((Scalar<plain<P>>::is && is_array_like(a[I])) || ...)) return over_arrays(a, names, order);
    Converted given{Wire<plain<P>>::in(a[I], names[I])...};
    if constexpr (std::is_void_v<R>) {
      const py::gil_scoped_release unlocked;
      std::invoke(F, std::get<I>(given)...);
    } else if constexpr (only_scalars) {
      return Wire<plain<R>>::out(std::invoke(F, std::get<I>(given)...));
    } else {
      return Wire<plain<R>>::out([&]() -> plain<R> {
        const py::gil_scoped_release unlocked;
        return std::invoke(F, std::get<I>(given)...);
      }());
    }
    return py::none();
  }

  template <class Q>
  static Lane lane(py::handle h, const char* name) {
    Lane l;
    if constexpr (Scalar<Q>::is) {
      if (is_array_like(h)) {
        l.held = array_of(h, name, Scalar<Q>::kind);
        l.at = static_cast<const char*>(static_cast<const void*>(l.held.data()));
      } else {
        l.number = number_of(h, name, Scalar<Q>::kind);
      }
    }
    return l;
  }

  /// What stays the same for all elements: everything but the scalars.
  template <class Q>
  static auto constant(py::handle h, const char* name) {
    if constexpr (Scalar<Q>::is)
      return std::tuple<>();
    else
      return std::tuple<decltype(Wire<Q>::in(h, name))>(Wire<Q>::in(h, name));
  }

  template <class Q, class C>
  static decltype(auto) pick(const Lane& l, C& constant) {
    if constexpr (Scalar<Q>::is)
      return Scalar<Q>::in(l.at ? *static_cast<const double*>(static_cast<const void*>(l.at)) : l.number);
    else
      return (std::get<0>(constant));
  }

  template <std::size_t... I>
  static py::object over_arrays(const py::object* a, const char* const* names, std::index_sequence<I...>) {
    std::array<Lane, sizeof...(P)> lanes{lane<plain<P>>(a[I], names[I])...};
    auto constants = std::make_tuple(constant<plain<P>>(a[I], names[I])...);
    const auto shape = common_shape({&lanes[I]...});
    const auto dims = shape.size();
    py::ssize_t count = 1;
    for (const auto n : shape) count *= n;
    std::array<py::ssize_t, 8> index{};
    const auto advance = [&] {
      for (std::size_t d = dims; d-- > 0;) {
        for (auto& l : lanes)
          if (l.at) l.at += l.step[d];
        if (++index[d] < shape[d]) return;
        for (auto& l : lanes)
          if (l.at) l.at -= l.step[d] * shape[d];
        index[d] = 0;
      }
    };
    const auto one = [&]() -> plain<R> { return std::invoke(F, pick<plain<P>>(lanes[I], std::get<I>(constants))...); };
    using Out = std::conditional_t<Scalar<plain<R>>::is, double, plain<R>>;
    if constexpr (std::is_arithmetic_v<Out>) {
      py::array_t<Out> result(shape);
      Out* out = result.mutable_data();
      const py::gil_scoped_release unlocked;
      for (py::ssize_t i = 0; i < count; ++i, advance()) {
        if constexpr (Scalar<plain<R>>::is)
          *out++ = Scalar<plain<R>>::out(one());
        else
          *out++ = one();
      }
      return result;
    } else {
      const py::object result = py::module_::import("numpy").attr("empty")(count, py::dtype("O"));
      for (py::ssize_t i = 0; i < count; ++i, advance()) result[py::int_(i)] = Wire<plain<R>>::out(one());
      return in_shape(result, shape);
    }
  }
};

template <class R>
std::string kind_of_result() {
  if constexpr (std::is_void_v<R>)
    return "none";
  else
    return Wire<plain<R>>::kind();
}

template <auto F, class Type = decltype(F)>
struct Signature;
template <auto F, class R, class... A>
struct Signature<F, R (*)(A...)> {
  using Bound = Call<F, R, A...>;
  static Callable callable() {
    return {&Bound::call, {Wire<plain<A>>::kind()...}, kind_of_result<R>(), Bound::broadcasts, false};
  }
};
template <auto F, class R, class... A>
struct Signature<F, R (*)(A...) noexcept> : Signature<static_cast<R (*)(A...)>(F)> {};
template <auto F, class R, class S, class... A>
struct MethodSignature {
  using Bound = Call<F, R, S, A...>;
  static Callable callable() {
    return {&Bound::call, {Wire<plain<A>>::kind()...}, kind_of_result<R>(), Bound::broadcasts, true};
  }
};
template <auto F, class R, class S, class... A>
struct Signature<F, R (S::*)(A...) const> : MethodSignature<F, R, S, A...> {};
template <auto F, class R, class S, class... A>
struct Signature<F, R (S::*)(A...) const noexcept> : MethodSignature<F, R, S, A...> {};
template <auto F, class R, class S, class... A>
struct Signature<F, R (S::*)(A...)> : MethodSignature<F, R, S, A...> {};

// --- structs -------------------------------------------------------------------------------------------------------

/// Old values that a Python reference may still point into; they live as long as the object they were part of.
void retire(py::handle owner, std::shared_ptr<void> old_value);
/// True when a Python object refers to this C++ object.
bool is_referred(const void* object, std::type_index type);

/// One field of a bound struct without its types.
struct Field {
  std::string name;         ///< as in C++
  std::string python_name;  ///< with its unit
  std::string kind;
  std::string doc;
  bool required = false;
  bool has_container = false;             ///< a list or map of structs, which moves them when it is assigned
  std::optional<std::type_index> record;  ///< the field is a struct itself
  py::object (*get)(void* object, py::handle owner) = nullptr;
  void (*set)(void* object, py::handle owner, py::handle value, const char* name) = nullptr;
  bool (*holds_references)(void* object) = nullptr;
};

/// All fields of a bound struct.
std::vector<Field>& fields_of(std::type_index type);
bool record_holds_references(void* object, std::type_index type);
/// Whether the struct has lists or maps of structs in it, at any depth.
bool record_has_container(std::type_index type);

/// Read-only copies of lists, maps and arrays: what is changed in a copy would be lost silently.
py::object frozen(py::object value);
/// A dict out of the read-only view of one.
py::object unfrozen(py::object value);
/// The same text for as long as the process lives.
std::string_view interned(const std::string& text);

/// A value that can be stored in a member.
template <class T>
T stored(py::handle value, const char* name) {
  if constexpr (std::is_same_v<T, std::string_view>)
    return interned(Wire<T>::in(value, name));
  else
    return Wire<T>::in(value, name);
}

/// Reading and writing one member. Structs, and structs in lists and maps, are handed out by reference, so that
/// `design.tanks["A"].water_depth_m = 0.3` writes through. What is overwritten is retired, not destroyed: an older
/// reference into it stays readable.
template <class T>
struct Slot {
  static constexpr bool is_record = false, is_container = false;
  static py::object get(T& member, py::handle) { return frozen(Wire<T>::out(member)); }
  static bool holds_references(T&) { return false; }
};
template <class T>
requires requires(T& t, py::handle h) { Wire<T>::out_member(t, h); }
struct Slot<T> {
  static constexpr bool is_record = true, is_container = false;
  static py::object get(T& member, py::handle owner) { return Wire<T>::out_member(member, owner); }
  static bool holds_references(T& member) { return record_holds_references(&member, typeid(T)); }
};
template <class T>
requires requires(T& t, py::handle h) { Wire<T>::out_member(t, h); }
struct Slot<std::vector<T>> {  // a tuple, as in `frozen`, but of references
  static constexpr bool is_record = false, is_container = true;
  static py::object get(std::vector<T>& member, py::handle owner) {
    py::tuple items(member.size());
    for (std::size_t i = 0; i < member.size(); ++i) items[i] = Wire<T>::out_member(member[i], owner);
    return items;
  }
  static bool holds_references(std::vector<T>&) { return false; }
};
template <class T>
requires requires(T& t, py::handle h) { Wire<T>::out_member(t, h); }
struct Slot<std::map<std::string, T>> {
  static constexpr bool is_record = false, is_container = true;
  static py::object get(std::map<std::string, T>& member, py::handle owner) {
    py::dict items;
    for (auto& [key, value] : member) items[py::str(key)] = Wire<T>::out_member(value, owner);
    return py::module_::import("types").attr("MappingProxyType")(items);
  }
  static bool holds_references(std::map<std::string, T>&) { return false; }
};
template <class T>
requires requires(T& t, py::handle h) { Wire<T>::out_member(t, h); }
struct Slot<std::optional<T>> {
  static constexpr bool is_record = false, is_container = true;
  static py::object get(std::optional<T>& member, py::handle owner) {
    if (!member) return py::none();
    return Wire<T>::out_member(*member, owner);
  }
  static bool holds_references(std::optional<T>& member) {
    return member && (is_referred(&*member, typeid(T)) || Slot<T>::holds_references(*member));
  }
};

template <auto M, class Type = decltype(M)>
struct Member;
template <auto M, class S, class T>
struct Member<M, T S::*> {
  using Value = T;
  static py::object get(void* object, py::handle owner) { return Slot<T>::get(static_cast<S*>(object)->*M, owner); }
  static void set(void* object, py::handle owner, py::handle value, const char* name) {
    T& member = static_cast<S*>(object)->*M;
    T fresh = stored<T>(value, name);
    if constexpr (Slot<T>::is_record || Slot<T>::is_container) {
      // An optional destroys its value in place, so that one which Python still refers to cannot be retired.
      if (Slot<T>::holds_references(member))
        throw py::value_error(std::string(name) +
                              ": a part of the old value is still in use; drop that reference first");
      if (owner && (Slot<T>::is_container || record_has_container(typeid(T))))
        retire(owner, std::make_shared<T>(std::move(member)));
    }
    member = std::move(fresh);
  }
  static bool holds_references(void* object) { return Slot<T>::holds_references(static_cast<S*>(object)->*M); }
};

/// The keyword arguments of a constructor.
class Given {
 public:
  Given(const char* record, std::type_index type, py::dict keywords);
  /// A field without a default; TypeError when it is missing.
  template <auto M>
  auto take(const char* name) const {
    return value<typename Member<M>::Value>(name);
  }
  /// Sets every field that was given.
  void assign(void* object) const;

 private:
  /// By type, not by member: it is compiled once for all lengths.
  template <class T>
  T value(const char* name) const {
    const std::string python_name = name + suffix_of_kind(Wire<T>::kind());
    return stored<T>(required(python_name), python_name.c_str());
  }
  py::object required(const std::string& python_name) const;
  const char* record_;
  std::type_index type_;
  py::dict keywords_;
};

/// What of a field hangs on its type only.
struct FieldType {
  std::string kind;
  bool has_container;
  std::optional<std::type_index> record;
};
template <class T>
FieldType field_type() {
  if constexpr (Slot<T>::is_record) return {Wire<T>::kind(), Slot<T>::is_container, typeid(T)};
  return {Wire<T>::kind(), Slot<T>::is_container, {}};
}
/// Adds a field to a bound struct; `accessors` has its `get`, `set` and `holds_references`.
void add_field(py::object cls, std::type_index type, const char* name, const char* doc, bool required,
               const FieldType& field_type, const Field& accessors);

/// What of a bound struct hangs on its C++ type: everything else about it is compiled once, in binding.cpp.
struct RecordCalls {
  void* (*make)(const Given& given);  ///< a new object
  py::object (*copy)(py::handle self);
};
/// Construction from keywords, repr, equality field by field, copying, `replace` and pickling.
void define_record(py::object cls, std::type_index type, const char* name, const RecordCalls& calls);
void describe_record(py::object cls, const std::string& qualified, std::type_index type, const char* doc,
                     bool constructible);

template <class S>
class Record {
 public:
  Record(py::module_ scope, const std::string& module, const char* name, const char* doc)
      : qualified_(module.empty() ? name : module + "." + name), name_(name), doc_(doc), class_(scope, name) {
    register_bound_name(typeid(S), qualified_);
  }

  template <auto M>
  Record& field(const char* name, const char* doc, bool required) {
    Field accessors;
    accessors.get = &Member<M>::get;
    accessors.set = &Member<M>::set;
    accessors.holds_references = &Member<M>::holds_references;
    add_field(class_, typeid(S), name, doc, required, field_type<typename Member<M>::Value>(), accessors);
    return *this;
  }

  /// `Make`, a function object without state, builds an object from the fields without default; the others are set
  /// afterwards.
  template <class Make>
  Record& constructor(Make) {
    const RecordCalls calls{[](const Given& given) -> void* {
                              auto made = std::make_unique<S>(Make()(given));
                              given.assign(made.get());
                              return made.release();
                            },
                            [](py::handle self) { return py::cast(S(py::cast<const S&>(self))); }};
    define_record(class_, typeid(S), name_, calls);
    describe_record(class_, qualified_, typeid(S), doc_, true);
    return *this;
  }

  template <auto F>
  Record& method(const char* name, const std::vector<Argument>& arguments, const Doc& doc, bool overloaded = false) {
    define(class_, qualified_ + "." + name, name, Signature<F>::callable(), arguments, doc, overloaded);
    return *this;
  }
  void no_more_overloads(const char* name) { define_refusal(class_, qualified_ + "." + name, name, true); }

 private:
  std::string qualified_;
  const char* name_;
  const char* doc_;
  py::class_<S> class_;
};

class Module {
 public:
  /// `name` is empty for what stands in namespace theca itself.
  Module(py::module_ root, const char* name, const char* doc);

  template <auto F>
  void function(const char* name, const std::vector<Argument>& arguments, const Doc& doc, bool overloaded = false) {
    define(module_, qualified(name), name, Signature<F>::callable(), arguments, doc, overloaded);
  }
  void no_more_overloads(const char* name) { define_refusal(module_, qualified(name), name, false); }

  template <class S>
  Record<S> record(const char* name, const char* doc) {
    return Record<S>(module_, name_, name, doc);
  }

  template <class E>
  void enumeration(const char* name, const std::vector<std::pair<const char*, E>>& members, const char* doc,
                   const std::vector<const char*>& member_docs) {
    std::vector<std::pair<const char*, long>> values;
    for (const auto& [key, value] : members) values.emplace_back(key, static_cast<long>(value));
    enumeration(typeid(E), name, values, doc, member_docs);
  }

  template <class T>
  void constant(const char* name, const T& value, const char* doc) {
    constant(name, Wire<T>::kind(), Wire<T>::out(value), doc);
  }

 private:
  std::string qualified(const char* name) const { return name_.empty() ? name : name_ + "." + name; }
  void enumeration(std::type_index type, const char* name, const std::vector<std::pair<const char*, long>>& members,
                   const char* doc, const std::vector<const char*>& member_docs);
  void constant(const char* name, const std::string& kind, const py::object& value, const char* doc);
  std::string name_;
  py::module_ module_;
};

}  // namespace theca::python

#endif  // THECA_PYTHON_BINDING_HPP
