// Collects checks: each gets its unique name, and one that leaves its correlation's range does not hide the others.
#pragma once

#include <string>
#include <string_view>
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
    guarded(name, [&] {
      Check check = std::forward<Make>(make)();
      check.name = name;
      checks_.push_back(std::move(check));
    });
  }
  /// Runs `make`, which adds several checks from one shared calculation; where that is out of range, one check without
  /// verdict under `name` stands for them all.
  template <class Make>
  void group(const std::string& name, Make&& make) {
    guarded(name, std::forward<Make>(make));
  }
  /// A question that the design raises and this version does not answer.
  void add_unjudged(CheckText words, std::string_view reason) {
    checks_.push_back(outside_validity(std::move(words), reason));
  }
  std::vector<Check> take() { return std::move(checks_); }

 private:
  template <class Make>
  void guarded(const std::string& name, Make&& make) {
    try {
      std::forward<Make>(make)();
    } catch (const OutOfValidity& e) {
      add_unjudged({.name = name,
                    .question = "Can this be calculated at all?",
                    .where = e.limit(),
                    .source = e.correlation(),
                    .caution = {}},
                   "No statement: " + std::string(e.what()) + ".");
    }
  }

  std::vector<Check> checks_;
};

}  // namespace theca::study
