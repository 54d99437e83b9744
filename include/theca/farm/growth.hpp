// Exponential growth of a fragment's area, and the time from cut to sale.
#pragma once

#include <cmath>

#include "theca/require.hpp"
#include "theca/units.hpp"

namespace theca::farm {

namespace kernel {
/// A = A0 exp(mu t)
template <class T>
T grown_area(T area_m2, T rate_per_s, T time_s) {
  using std::exp;
  return area_m2 * exp(rate_per_s * time_s);
}
/// t = ln(A/A0)/mu
template <class T>
T growth_time(T from_m2, T to_m2, T rate_per_s) {
  using std::log;
  return log(to_m2 / from_m2) / rate_per_s;
}
}  // namespace kernel

/// Area after a time of exponential growth.
/// @param area  at the start, > 0
/// @param rate  specific growth rate, any finite value (negative: tissue loss)
/// @throws InvalidInput  area not positive, rate or time not finite, time negative, result too large for a number
/// @valid  growth figures vary by a factor of 1.5 to 2 between colonies: use ranges
/// @source exponential growth, textbook definition
inline Area grown_area(const Area& area, const Frequency& rate, const Time& time) {
  require::positive("area", area);
  require::finite("rate", rate);
  require::not_negative("time", time);
  const double grown = kernel::grown_area(si(area), si(rate), si(time));
  require::that(std::isfinite(grown), "time", time, "short enough that the grown area is a finite number");
  return from_si<Area>(grown);
}

/// Time to grow from one area to a larger one. @throws InvalidInput  areas not positive, `to` below `from`, rate not >
/// 0
inline Time growth_time(const Area& from, const Area& to, const Frequency& rate) {
  require::positive("from", from);
  require::positive("to", to);
  require::that(si(to) >= si(from), "to", to, "at least the area to grow from, " + text(from));
  require::positive("rate", rate);
  return from_si<Time>(kernel::growth_time(si(from), si(to), si(rate)));
}

/// Specific growth rate seen between two measurements: ln(A/A0)/t.
/// @throws InvalidInput  areas or time not positive
inline Frequency growth_rate(const Area& from, const Area& to, const Time& time) {
  require::positive("from", from);
  require::positive("to", to);
  require::positive("time", time);
  return from_si<Frequency>(std::log(si(to) / si(from)) / si(time));
}

struct Growth {
  Area cut_area;   ///< of a fresh fragment
  Area sale_area;  ///< when it is sold
  Frequency rate;  ///< specific growth rate after healing
  Time healing;    ///< without growth, after the cut
};

/// Cycle time of a slot: healing + ln(sale/cut)/mu. @throws as growth_time; healing negative
inline Time cycle_time(const Growth& growth) {
  require::not_negative("healing", growth.healing);
  return growth.healing + growth_time(growth.cut_area, growth.sale_area, growth.rate);
}

}  // namespace theca::farm
