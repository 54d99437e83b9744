// A check: one question about a design, answered with demand, capacity, margin, place, source and caution.
// Every module returns its checks in this form; the study only gathers them.
#pragma once

#include <string>
#include <string_view>

#include "theca/units.hpp"

namespace theca {

/// A quantity whose dimension is known only at run time: its SI value, and the unit a grower reads it in.
struct Measure {
  double si_value = 0.0;
  std::string si_unit{};
  double shown_value = 0.0;
  std::string shown_unit{};
};

/// `measure(depth, units::inch)`: keeps the SI value and shows inches beside it.
template <class Unit>
Measure measure(const Quantity<Unit>& q, const NamedUnit<Unit>& shown) {
  return {q.value(), std::string(detail::SymbolOf<Unit>::value), in(q, shown), std::string(shown.symbol)};
}
/// A temperature in K, shown in degC.
Measure measure(const Temperature& t);
/// A count or a ratio.
Measure measure(double count, std::string_view what = "");

/// Text of a measure: grower's unit first, SI in brackets, e.g. "14 in (0.3556 m)"; ratios without brackets, "17.99 %".
std::string text(const Measure& m);

enum class Verdict {
  holds,            ///< meets the stated criterion, also at the far end of the model's uncertainty
  marginal,         ///< meets it, but by less than the model's uncertainty
  fails,            ///< does not meet it
  outside_validity  ///< the model does not apply; no statement is made
};
std::string_view name(Verdict v);

struct Check {
  std::string name;          ///< unique within an assessment: "module: subject"
  std::string question;      ///< in plain words, as a grower would ask it
  Measure demand;            ///< what is asked for
  Measure capacity;          ///< what is there
  double utilisation = 0.0;  ///< demand / capacity; at most 1 meets the criterion
  std::string where;         ///< the governing place or case
  Verdict verdict = Verdict::outside_validity;
  double uncertainty = 0.0;  ///< relative uncertainty of the model, e.g. 0.2
  std::string source;
  std::string caution;
};

/// What a check says apart from its numbers.
struct CheckText {
  std::string name{}, question{}, where{}, source{}, caution{};
};

/// Makes a check: utilisation from demand and capacity, verdict from utilisation and the model's uncertainty.
///
/// fails when demand > capacity, marginal when demand x (1 + uncertainty) > capacity, holds otherwise.
/// @param demand, capacity  of one dimension, finite, >= 0; a demand over zero capacity fails with infinite
///                          utilisation replaced by the largest double
/// @throws InvalidInput  demand or capacity negative or not finite, units that differ, uncertainty negative
Check make_check(CheckText words, const Measure& demand, const Measure& capacity, double uncertainty);

/// The same question where the model does not apply: no verdict is given, and `reason` says why.
Check outside_validity(CheckText words, std::string_view reason);

}  // namespace theca
