// The extension module theca._theca: everything of theca over SI doubles and arrays of them.
#include "binding.hpp"
#include "errors.hpp"

namespace theca::python {
#define THECA_MODULE(name) void bind_##name(py::module_ root);
THECA_MODULES
#undef THECA_MODULE
}  // namespace theca::python

PYBIND11_MODULE(_theca, m) {
  m.doc() = "Calculations for coral grow-out farms over SI doubles and arrays; arguments carry their unit in the name.";
  m.attr("__name__") = "theca.si";
  theca::python::bind_errors(m);
#define THECA_MODULE(name) theca::python::bind_##name(m);
  THECA_MODULES
#undef THECA_MODULE
  m.attr("_table") = theca::python::table();
  m.attr("__name__") = "theca._theca";
}
