#include "support/near.hpp"

#include <cmath>

namespace theca::test {

bool near(double got, double expected, double relative) {
  const bool ok = expected != 0.0 && std::abs(got - expected) <= relative * std::abs(expected);
  if (!ok) {
    INFO("got ", got, ", expected ", expected, ", off by ", (got - expected) / expected, " relative, allowed ",
         relative);
    CHECK(ok);
  }
  return ok;
}

bool within(double got, double expected, double tolerance) {
  const bool ok = std::abs(got - expected) <= tolerance;
  if (!ok) {
    INFO("got ", got, ", expected ", expected, ", off by ", got - expected, ", allowed ", tolerance);
    CHECK(ok);
  }
  return ok;
}

bool contains(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

}  // namespace theca::test
