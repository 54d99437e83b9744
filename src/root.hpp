// The root of a function between two places where its signs differ.
#pragma once

#include <boost/math/tools/toms748_solve.hpp>
#include <cstdint>
#include <string_view>

#include "theca/error.hpp"

namespace theca::detail {

/// A root held between two neighbouring places.
struct Root {
  double low, high;
  int evaluations;
  double at() const { return 0.5 * (low + high); }
};

/// TOMS 748 to the last bits of the root.
/// @param at_low, at_high  the function at the ends, of opposite signs or zero
/// @throws NotConverged  naming `what`
/// @source Alefeld, Potra & Shi 1995, ACM Trans. Math. Softw. 21:327-344
template <class F>
Root root_between(std::string_view what, const F& function, double low, double high, double at_low, double at_high) {
  if (at_low == 0.0) return {low, low, 0};
  if (at_high == 0.0) return {high, high, 0};
  constexpr std::uintmax_t allowed = 300;
  std::uintmax_t evaluations = allowed;
  const auto bracket = boost::math::tools::toms748_solve(function, low, high, at_low, at_high,
                                                         boost::math::tools::eps_tolerance<double>(50), evaluations);
  if (evaluations >= allowed) throw NotConverged(what, bracket.second - bracket.first, static_cast<int>(evaluations));
  return {bracket.first, bracket.second, static_cast<int>(evaluations)};
}

}  // namespace theca::detail
