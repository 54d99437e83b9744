#include "theca/check.hpp"

#include <cmath>
#include <limits>

#include "theca/require.hpp"

namespace theca {

Measure measure(double count, std::string_view what) { return {count, std::string(what), count, std::string(what)}; }

Measure measure(const Temperature& t) { return {si(t), "K", in_celsius(t), "degC"}; }

std::string text(const Measure& m) {
  std::string shown = number(m.shown_value);
  if (!m.shown_unit.empty()) shown += " " + m.shown_unit;
  if (m.si_unit.empty() || m.shown_unit == m.si_unit) return shown;
  return shown + " (" + number(m.si_value) + " " + m.si_unit + ")";
}

std::string_view name(Verdict v) {
  switch (v) {
    case Verdict::holds:
      return "holds";
    case Verdict::marginal:
      return "marginal";
    case Verdict::fails:
      return "fails";
    case Verdict::outside_validity:
      return "outside validity";
  }
  return "";
}

namespace {
Check from_words(CheckText words) {
  Check c;
  c.name = std::move(words.name);
  c.question = std::move(words.question);
  c.where = std::move(words.where);
  c.source = std::move(words.source);
  c.caution = std::move(words.caution);
  return c;
}

void require_measure(const std::string& argument, const Measure& m) {
  if (!(m.si_value >= 0.0 && std::isfinite(m.si_value)))
    throw InvalidInput(argument, text(m.si_value, m.si_unit), ">= 0 and finite");
}
}  // namespace

Check make_check(CheckText words, const Measure& demand, const Measure& capacity, double uncertainty) {
  require_measure(words.name + ": demand", demand);
  require_measure(words.name + ": capacity", capacity);
  require::not_negative(words.name + ": uncertainty", uncertainty);
  if (demand.si_unit != capacity.si_unit)
    throw InvalidInput(words.name + ": demand", text(demand.si_value, demand.si_unit),
                       "the unit of the capacity, \"" + capacity.si_unit + "\"");
  Check c = from_words(std::move(words));
  c.demand = demand;
  c.capacity = capacity;
  c.uncertainty = uncertainty;
  const double ratio = demand.si_value == 0.0 ? 0.0 : demand.si_value / capacity.si_value;
  c.utilisation = std::isfinite(ratio) ? ratio : std::numeric_limits<double>::max();
  if (demand.si_value > capacity.si_value)
    c.verdict = Verdict::fails;
  else if (demand.si_value * (1.0 + uncertainty) > capacity.si_value)
    c.verdict = Verdict::marginal;
  else
    c.verdict = Verdict::holds;
  return c;
}

Check outside_validity(CheckText words, std::string_view reason) {
  Check c = from_words(std::move(words));
  c.caution = std::string(reason) + (c.caution.empty() ? "" : " " + c.caution);
  c.verdict = Verdict::outside_validity;
  return c;
}

}  // namespace theca
