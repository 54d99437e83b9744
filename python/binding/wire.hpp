// How each C++ type of theca crosses into Python: as what, in which unit, and how it is refused.
// A quantity travels as a double in its coherent SI unit; its unit is read from the type, never written by hand.
#ifndef THECA_PYTHON_WIRE_HPP  // not `#pragma once`, which g++ 12 loses track of in a precompiled header
#define THECA_PYTHON_WIRE_HPP

#include <pybind11/numpy.h>
#include <pybind11/pybind11.h>

#include <array>
#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <type_traits>
#include <typeindex>
#include <utility>
#include <variant>
#include <vector>

#include "theca/units.hpp"

namespace theca::python {

namespace py = pybind11;

template <class T>
using plain = std::remove_cv_t<std::remove_reference_t<T>>;

// --- what the types are called in Python -----------------------------------------------------------------------

/// "structure.Panel" for a bound struct, class or enum. Throws ImportError for a type that was never bound.
const std::string& bound_name(std::type_index type);
void register_bound_name(std::type_index type, std::string name);

/// The Python enum class of a bound C++ enum.
py::object enum_class(std::type_index type);
void register_enum_class(std::type_index type, py::object cls);

/// Ending of an argument's name that carries its unit: "kg/m3" gives "_kg_per_m3", a number gives nothing.
std::string suffix_of_kind(const std::string& kind);

// --- refusals ----------------------------------------------------------------------------------------------------

/// TypeError: "depth_m: expected a number in m, got 'str'".
[[noreturn]] void wrong_type(const char* name, const std::string& expected, py::handle got);
/// A double out of a Python number; a quantity of another library, which would lose its unit silently, is refused.
double number_of(py::handle h, const char* name, const char* unit);
/// True for what broadcasts: arrays, lists and tuples of numbers.
bool is_array_like(py::handle h);
/// An array of doubles with any strides.
py::array_t<double> array_of(py::handle h, const char* name, const char* unit);

// --- one Wire per kind of type -----------------------------------------------------------------------------------

/// A double with a meaning: quantities, points on scales, salinities, ratios, plain numbers.
template <class T>
struct Scalar {
  static constexpr bool is = false;
};
template <>
struct Scalar<double> {
  static constexpr bool is = true;
  static constexpr const char* kind = "number";
  static double in(double x) { return x; }
  static double out(double x) { return x; }
};
template <class Unit>
struct Scalar<bu::quantity<Unit, double>> {
  static constexpr bool is = true;
  static constexpr const char* kind =
      detail::SymbolOf<Unit>::value.empty() ? "number" : detail::SymbolOf<Unit>::value.data();
  static auto in(double x) { return bu::quantity<Unit, double>::from_value(x); }
  static double out(const bu::quantity<Unit, double>& q) { return q.value(); }
};
template <>
struct Scalar<Temperature> {
  static constexpr bool is = true;
  static constexpr const char* kind = "temperature";
  static Temperature in(double x) { return from_si<Temperature>(x); }
  static double out(const Temperature& t) { return t.value(); }
};
template <>
struct Scalar<AbsolutePressure> {
  static constexpr bool is = true;
  static constexpr const char* kind = "absolute pressure";
  static AbsolutePressure in(double x) { return from_si<AbsolutePressure>(x); }
  static double out(const AbsolutePressure& p) { return p.value(); }
};
template <>
struct Scalar<PracticalSalinity> {
  static constexpr bool is = true;
  static constexpr const char* kind = "practical salinity";
  static PracticalSalinity in(double x) { return PracticalSalinity(x); }
  static double out(PracticalSalinity s) { return s.value; }
};
template <>
struct Scalar<AbsoluteSalinity> {
  static constexpr bool is = true;
  static constexpr const char* kind = "absolute salinity";
  static AbsoluteSalinity in(double x) { return AbsoluteSalinity(x); }
  static double out(AbsoluteSalinity s) { return s.grams_per_kg; }
};
template <>
struct Scalar<RelativeHumidity> {
  static constexpr bool is = true;
  static constexpr const char* kind = "relative humidity";
  static RelativeHumidity in(double x) { return RelativeHumidity(x); }
  static double out(RelativeHumidity rh) { return rh.ratio; }
};

// What the binding relies on: a quantity holds its number in the coherent SI unit, the named unit whose size is 1.
static_assert(theca::in(from_si<Pressure>(1.0), units::pascal) == 1.0 &&
                  theca::in(from_si<VolumeFlow>(1.0), units::cubic_metre_per_second) == 1.0 &&
                  theca::in(from_si<Energy>(1.0), units::joule) == 1.0 &&
                  theca::in(from_si<Mass>(1.0), units::kilogram) == 1.0 &&
                  theca::in(from_si<ThermalTransmittance>(1.0), units::watt_per_square_metre_kelvin) == 1.0 &&
                  theca::in(from_si<PhotonFluxDensity>(1e-6), units::umol_per_square_metre_second) == 1.0,
              "theca counts quantities in coherent SI units");

/// Anything else that is not handled below is a bound struct or class, and travels by reference.
template <class T, class Enable = void>
struct Wire {
  static std::string kind() { return bound_name(typeid(T)); }
  static T& in(py::handle h, const char* name) {
    try {
      return py::cast<T&>(h);
    } catch (const py::cast_error&) {
      wrong_type(name, kind(), h);
    }
  }
  static py::object out(T value) { return py::cast(std::move(value), py::return_value_policy::move); }
  /// The member itself, kept alive by its owner, so that `design.site.gravity = x` writes through.
  static py::object out_member(T& member, py::handle owner) {
    return py::cast(&member, py::return_value_policy::reference_internal, owner);
  }
};

template <class T>
struct Wire<T, std::enable_if_t<Scalar<T>::is>> {
  static std::string kind() { return Scalar<T>::kind; }
  static T in(py::handle h, const char* name) { return Scalar<T>::in(number_of(h, name, Scalar<T>::kind)); }
  static py::object out(const T& value) { return py::float_(Scalar<T>::out(value)); }
};

template <>
struct Wire<bool> {
  static std::string kind() { return "bool"; }
  static bool in(py::handle h, const char* name) {
    if (!PyBool_Check(h.ptr()) && !py::isinstance(h, py::module_::import("numpy").attr("bool_")))
      wrong_type(name, "True or False", h);
    return h.cast<bool>();
  }
  static py::object out(bool value) { return py::bool_(value); }
};

template <class T>
struct Wire<T, std::enable_if_t<std::is_integral_v<T> && !std::is_same_v<T, bool>>> {
  static std::string kind() { return "int"; }
  static T in(py::handle h, const char* name) {
    if (PyBool_Check(h.ptr()) || PyFloat_Check(h.ptr())) wrong_type(name, "a whole number", h);
    try {
      return h.cast<T>();
    } catch (const py::cast_error&) {
      wrong_type(name, "a whole number", h);
    }
  }
  static py::object out(T value) { return py::int_(value); }
};

template <class T>
struct Wire<T, std::enable_if_t<std::is_enum_v<T>>> {
  static std::string kind() { return bound_name(typeid(T)); }
  static T in(py::handle h, const char* name) {
    const py::object cls = enum_class(typeid(T));
    if (py::isinstance(h, cls)) return static_cast<T>(h.attr("value").cast<long>());
    const py::object members = cls.attr("__members__");
    if (py::isinstance<py::str>(h) && members.contains(h)) return static_cast<T>(members[h].attr("value").cast<long>());
    std::string choices;
    for (const auto item : members) choices += (choices.empty() ? "" : ", ") + item.cast<std::string>();
    wrong_type(name, kind() + ": one of " + choices, h);
  }
  static py::object out(T value) { return enum_class(typeid(T))(static_cast<long>(value)); }
};

template <class T>
struct Wire<T, std::enable_if_t<std::is_same_v<T, std::string> || std::is_same_v<T, std::string_view>>> {
  static std::string kind() { return "str"; }
  static std::string in(py::handle h, const char* name) {
    if (!py::isinstance<py::str>(h)) wrong_type(name, "text", h);
    return h.cast<std::string>();
  }
  static py::object out(const T& value) { return py::str(std::string(value)); }
};

template <class T>
struct Wire<std::optional<T>> {
  static std::string kind() { return "optional " + Wire<T>::kind(); }
  static std::optional<T> in(py::handle h, const char* name) {
    if (h.is_none()) return std::nullopt;
    return Wire<T>::in(h, name);
  }
  static py::object out(const std::optional<T>& value) {
    if (!value) return py::none();
    return Wire<T>::out(*value);
  }
};

template <class A, class B>
struct Wire<std::pair<A, B>> {
  static std::string kind() { return "pair (" + Wire<A>::kind() + "; " + Wire<B>::kind() + ")"; }
  static std::pair<A, B> in(py::handle h, const char* name) {
    if (!py::isinstance<py::sequence>(h) || py::len(h) != 2) wrong_type(name, "two values", h);
    const auto both = py::reinterpret_borrow<py::sequence>(h);
    return {Wire<A>::in(py::object(both[0]), name), Wire<B>::in(py::object(both[1]), name)};
  }
  static py::object out(const std::pair<A, B>& v) {
    return py::make_tuple(Wire<A>::out(v.first), Wire<B>::out(v.second));
  }
};

/// Lists of scalars are one-dimensional arrays; other lists are Python lists.
template <class C, class T>
struct ListWire {
  static std::string kind() { return "list of " + Wire<T>::kind(); }
  static std::vector<T> read(py::handle h, const char* name) {
    std::vector<T> values;
    if constexpr (Scalar<T>::is) {
      if (!is_array_like(h)) wrong_type(name, kind(), h);
      const auto a = array_of(h, name, Scalar<T>::kind);
      if (a.ndim() != 1) wrong_type(name, "a one-dimensional " + kind(), h);
      values.reserve(static_cast<std::size_t>(a.size()));
      for (py::ssize_t i = 0; i < a.size(); ++i) values.push_back(Scalar<T>::in(a.at(i)));
    } else {
      if (py::isinstance<py::str>(h) || !py::isinstance<py::iterable>(h)) wrong_type(name, kind(), h);
      for (const auto item : h) values.push_back(Wire<T>::in(item, name));
    }
    return values;
  }
  static py::object out(const C& list) {
    if constexpr (Scalar<T>::is) {
      py::array_t<double> a(static_cast<py::ssize_t>(list.size()));
      double* p = a.mutable_data();
      for (const auto& v : list) *p++ = Scalar<T>::out(v);
      return a;
    } else {
      py::list a;
      for (const auto& v : list) a.append(Wire<T>::out(v));
      return a;
    }
  }
};
template <class T, class A>
struct Wire<std::vector<T, A>> : ListWire<std::vector<T, A>, T> {
  static std::vector<T, A> in(py::handle h, const char* name) { return ListWire<std::vector<T, A>, T>::read(h, name); }
};
template <class T>
struct Wire<std::span<const T>> : ListWire<std::span<const T>, T> {
  static std::vector<T> in(py::handle h, const char* name) { return ListWire<std::span<const T>, T>::read(h, name); }
};
template <class T, std::size_t N>
struct Wire<std::array<T, N>> : ListWire<std::array<T, N>, T> {
  static std::string kind() { return "list of " + Wire<T>::kind(); }
  static std::array<T, N> in(py::handle h, const char* name) {
    const auto v = ListWire<std::array<T, N>, T>::read(h, name);
    if (v.size() != N) wrong_type(name, std::to_string(N) + " values", h);
    return from(v, std::make_index_sequence<N>());
  }

 private:
  template <std::size_t... I>
  static std::array<T, N> from(const std::vector<T>& v, std::index_sequence<I...>) {
    return {v[I]...};
  }
};

template <class K, class T>
struct Wire<std::map<K, T>> {
  static std::string kind() {
    if constexpr (std::is_same_v<K, std::string>) return "map of " + Wire<T>::kind();
    return "map from " + Wire<K>::kind() + " to " + Wire<T>::kind();
  }
  static std::map<K, T> in(py::handle h, const char* name) {
    if (!py::hasattr(h, "items")) wrong_type(name, kind(), h);
    std::map<K, T> values;
    for (const auto item : py::dict(py::reinterpret_borrow<py::object>(h)))
      values.emplace(Wire<K>::in(item.first, name), Wire<T>::in(item.second, name));
    return values;
  }
  static py::object out(const std::map<K, T>& values) {
    py::dict d;
    for (const auto& [key, value] : values) d[Wire<K>::out(key)] = Wire<T>::out(value);
    return d;
  }
};

template <>
struct Wire<std::filesystem::path> {
  static std::string kind() { return "path"; }
  static std::filesystem::path in(py::handle h, const char* name) {
    if (!py::isinstance<py::str>(h) && !py::hasattr(h, "__fspath__")) wrong_type(name, "a path", h);
    return py::str(py::module_::import("os").attr("fspath")(h)).cast<std::string>();
  }
  static py::object out(const std::filesystem::path& value) { return py::str(value.string()); }
};

template <class... T>
struct Wire<std::variant<T...>> {
  static std::string kind() {
    std::string s;
    ((s += (s.empty() ? "either (" : "; ") + Wire<T>::kind()), ...);
    return s + ")";
  }
  static std::variant<T...> in(py::handle h, const char* name) {
    std::optional<std::variant<T...>> found;
    (attempt<T>(h, name, found), ...);
    if (!found) wrong_type(name, kind(), h);
    return std::move(*found);
  }
  static py::object out(const std::variant<T...>& v) {
    return std::visit([](const auto& x) { return Wire<plain<decltype(x)>>::out(x); }, v);
  }

 private:
  template <class A>
  static void attempt(py::handle h, const char* name, std::optional<std::variant<T...>>& found) {
    if (found) return;
    try {
      found.emplace(Wire<A>::in(h, name));
    } catch (const py::type_error&) {  // the next alternative is tried
    }
  }
};

/// A Python function over SI doubles where C++ asks for a function over quantities.
template <class R, class... A>
struct Wire<std::function<R(A...)>> {
  static std::string kind() {
    std::string s = "function of (";
    bool first = true;
    ((s += (std::exchange(first, false) ? "" : "; ") + Wire<plain<A>>::kind()), ...);
    return s + ") giving " + Wire<plain<R>>::kind();
  }
  static std::function<R(A...)> in(py::handle h, const char* name) {
    if (!PyCallable_Check(h.ptr())) wrong_type(name, kind(), h);
    // The last reference may be dropped while the interpreter lock is released, hence the deleter.
    const std::shared_ptr<py::object> callable(new py::object(py::reinterpret_borrow<py::object>(h)),
                                               [](py::object* o) {
                                                 const py::gil_scoped_acquire lock;
                                                 delete o;
                                               });
    return [callable, label = std::string(name)](A... a) -> R {
      const py::gil_scoped_acquire lock;
      return Wire<plain<R>>::in((*callable)(Wire<plain<A>>::out(a)...), label.c_str());
    };
  }
  static py::object out(const std::function<R(A...)>& f) {
    if (!f) return py::none();
    return py::cpp_function([f](const py::args& args) {
      if (args.size() != sizeof...(A)) throw py::type_error(kind() + ": wrong number of arguments");
      return call(f, args, std::index_sequence_for<A...>());
    });
  }

 private:
  template <std::size_t... I>
  static py::object call(const std::function<R(A...)>& f, const py::args& args, std::index_sequence<I...>) {
    return Wire<plain<R>>::out(f(Wire<plain<A>>::in(py::object(args[I]), "argument")...));
  }
};

}  // namespace theca::python

#endif  // THECA_PYTHON_WIRE_HPP
