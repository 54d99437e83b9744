// Comparisons for tests: relative or absolute, never both at once, with value and unit in the failure message.
// doctest::Approx mixes an absolute part into every comparison and so checks nothing on small SI numbers.
#pragma once

#include <doctest/doctest.h>

#include <cmath>
#include <string>

#include "theca/require.hpp"
#include "theca/units.hpp"

namespace doctest {
template <class Unit>
struct StringMaker<boost::units::quantity<Unit>> {
  static String convert(const boost::units::quantity<Unit>& q) { return String(theca::text(q).c_str()); }
};
}  // namespace doctest

namespace theca::test {

/// |got - expected| <= relative * |expected|, expected not zero.
bool near(double got, double expected, double relative);
template <class Unit>
bool near(const bu::quantity<Unit>& got, const bu::quantity<Unit>& expected, double relative) {
  return near(got.value(), expected.value(), relative);
}

/// |got - expected| <= tolerance
bool within(double got, double expected, double tolerance);
template <class Unit>
bool within(const bu::quantity<Unit>& got, const bu::quantity<Unit>& expected, const bu::quantity<Unit>& tolerance) {
  return within(got.value(), expected.value(), tolerance.value());
}

/// The message of the exception E that `f` throws; fails the test when it throws nothing or something else.
template <class E, class F>
std::string message_of(F&& f) {
  try {
    f();
  } catch (const E& e) {
    return e.what();
  }
  FAIL_CHECK("expected an exception");
  return {};
}

bool contains(const std::string& text, const std::string& part);

}  // namespace theca::test
