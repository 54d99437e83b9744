// How the templates of a Design cross into Python.
#pragma once

#include "theca/study/design.hpp"
#include "wire.hpp"

namespace theca::python {

/// Two limits of one quantity travel as a pair.
template <class Q>
struct Wire<study::Range<Q>> {
  static std::string kind() { return Wire<std::pair<Q, Q>>::kind(); }
  static study::Range<Q> in(py::handle h, const char* name) {
    auto [low, high] = Wire<std::pair<Q, Q>>::in(h, name);
    return {low, high};
  }
  static py::object out(const study::Range<Q>& r) { return Wire<std::pair<Q, Q>>::out({r.low, r.high}); }
};

}  // namespace theca::python
