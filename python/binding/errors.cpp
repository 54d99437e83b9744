// The exceptions of theca as Python classes of the same names, carrying the same facts as attributes.
#include "errors.hpp"

#include "theca/error.hpp"

namespace theca::python {

namespace {

struct Classes {
  PyObject *error, *invalid_input, *out_of_validity, *not_converged, *parse_error;
};
Classes classes{};

PyObject* make(py::module_& m, const char* name, const char* doc, const py::tuple& bases) {
  const std::string qualified = std::string("theca.") + name;
  PyObject* const cls = PyErr_NewExceptionWithDoc(qualified.c_str(), doc, bases.ptr(), nullptr);
  if (!cls) throw py::error_already_set();
  m.attr(name) = py::handle(cls);
  return cls;
}

template <class... Facts>
void raise(PyObject* cls, const char* what, const std::pair<const char*, Facts>&... facts) {
  const py::object instance = py::handle(cls)(what);
  ((instance.attr(facts.first) = facts.second), ...);
  PyErr_SetObject(cls, instance.ptr());
}

template <class T>
std::pair<const char*, T> fact(const char* name, const T& value) {
  return {name, value};
}

}  // namespace

void bind_errors(py::module_& m) {
  const auto value_error = py::handle(PyExc_ValueError), runtime_error = py::handle(PyExc_RuntimeError);
  classes.error =
      make(m, "Error", "Base of everything that theca raises on purpose.", py::make_tuple(py::handle(PyExc_Exception)));
  const py::handle error(classes.error);
  classes.invalid_input =
      make(m, "InvalidInput",
           "An argument is impossible: negative, not finite, or outside the range the function accepts.\n\n"
           "Attributes: argument, value, accepted (all text).",
           py::make_tuple(error, value_error));
  classes.out_of_validity = make(m, "OutOfValidity",
                                 "The input is possible but outside the range a correlation was fitted in.\n\n"
                                 "Attributes: correlation, limit (both text).",
                                 py::make_tuple(error, value_error));
  classes.not_converged = make(m, "NotConverged",
                               "An iteration ended without an answer.\n\n"
                               "Attributes: residual (float), iterations (int).",
                               py::make_tuple(error, runtime_error));
  classes.parse_error = make(m, "ParseError",
                             "Text that could not be read.\n\n"
                             "Attributes: line, column (int, counted from 1, 0 when unknown), expected (text).",
                             py::make_tuple(error, value_error));
  py::register_exception_translator([](std::exception_ptr p) {
    try {
      if (p) std::rethrow_exception(p);
    } catch (const InvalidInput& e) {
      raise(classes.invalid_input, e.what(), fact("argument", e.argument()), fact("value", e.value()),
            fact("accepted", e.accepted()));
    } catch (const OutOfValidity& e) {
      raise(classes.out_of_validity, e.what(), fact("correlation", e.correlation()), fact("limit", e.limit()));
    } catch (const NotConverged& e) {
      raise(classes.not_converged, e.what(), fact("residual", e.residual()), fact("iterations", e.iterations()));
    } catch (const ParseError& e) {
      raise(classes.parse_error, e.what(), fact("line", e.line()), fact("column", e.column()),
            fact("expected", e.expected()));
    } catch (const Error& e) {
      raise(classes.error, e.what());
    }
  });
}

}  // namespace theca::python
