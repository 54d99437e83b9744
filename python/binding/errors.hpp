// Registers theca's exceptions with Python.
#pragma once

#include <pybind11/pybind11.h>

namespace theca::python {
namespace py = pybind11;
void bind_errors(py::module_& m);
}  // namespace theca::python
