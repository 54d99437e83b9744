// Collects checks: each gets its unique name, and one that leaves its correlation's range does not hide the others.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "theca/check.hpp"
#include "theca/error.hpp"

namespace theca::study {

class Collector {
 public:
  /// Adds what `make` returns under a name of its own ("module: subject").
  template <class Make>
  void add(std::string name, Make&& make) {
    try {
      Check check = std::forward<Make>(make)();
      check.name = std::move(name);
      checks_.push_back(std::move(check));
    } catch (const OutOfValidity& e) {
      checks_.push_back(outside_validity({.name = std::move(name),
                                          .question = "Can this be calculated at all?",
                                          .where = e.limit(),
                                          .source = e.correlation()},
                                         "No statement: " + std::string(e.what()) + "."));
    }
  }
  std::vector<Check> take() { return std::move(checks_); }

 private:
  std::vector<Check> checks_;
};

}  // namespace theca::study
