#include "theca/study/cure.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <tuple>

#include "levers.hpp"
#include "theca/require.hpp"

namespace theca::study {
namespace {

bool judged(Verdict v) { return v != Verdict::outside_validity; }
bool met(Verdict v) { return v == Verdict::holds || v == Verdict::marginal; }

/// The checks of the module that a check belongs to: far cheaper than all.
std::vector<Check> module_checks(const Design& design, std::string_view check_name) {
  const std::string_view module = check_name.substr(0, check_name.find(':'));
  if (module == "structure") return structure_checks(design);
  if (module == "hydraulics") return hydraulics_checks(design);
  if (module == "light") return light_checks(design);
  if (module == "thermal") return thermal_checks(design);
  return farm_checks(design);
}

Design pulled(const Design& design, const Lever& lever, int step) {
  Design changed = design;
  lever.pull(changed, step);
  return changed;
}

/// Whether a check no longer fails after so many steps; a design that contradicts itself or leaves the models cures
/// nothing.
enum class Outcome { cured, fails, impossible };
Outcome outcome(const Design& design, std::string_view check_name, const Lever& lever, int step) {
  try {
    for (const Check& check : module_checks(pulled(design, lever, step), check_name))
      if (check.name == check_name) return met(check.verdict) ? Outcome::cured : Outcome::fails;
  } catch (const Error&) {
  }
  return Outcome::impossible;
}

/// The first step of a lever that cures, found in strides that double and then between the last two.
std::optional<int> first_cure(const Design& design, std::string_view check_name, const Lever& lever) {
  int not_yet = 0;
  for (int stride = 1; not_yet < lever.most; stride *= 2) {
    int candidate = std::min(not_yet + stride, lever.most);
    Outcome at = outcome(design, check_name, lever, candidate);
    // past what is possible: the last possible step may still cure
    while (at == Outcome::impossible && candidate - not_yet > 1) {
      candidate = not_yet + (candidate - not_yet) / 2;
      at = outcome(design, check_name, lever, candidate);
    }
    if (at == Outcome::impossible) return {};
    if (at == Outcome::fails) {
      not_yet = candidate;
      continue;
    }
    while (candidate - not_yet > 1) {
      const int middle = not_yet + (candidate - not_yet) / 2;
      (outcome(design, check_name, lever, middle) == Outcome::cured ? candidate : not_yet) = middle;
    }
    return candidate;
  }
  return {};
}

bool newly_fails(const SideEffect& e) {
  return !met(e.after) && judged(e.after) && !(judged(e.before) && !met(e.before));
}

std::vector<SideEffect> side_effects(const Assessment& before, const Assessment& after, std::string_view cured) {
  std::vector<SideEffect> effects;
  for (const Check& b : before.checks) {
    if (b.name == cured) continue;
    const auto a =
        std::find_if(after.checks.begin(), after.checks.end(), [&](const Check& c) { return c.name == b.name; });
    if (a == after.checks.end()) continue;
    const bool moved = judged(a->verdict) && judged(b.verdict) &&
                       std::abs(a->utilisation - b.utilisation) > 0.01 * std::max(b.utilisation, 0.01);
    if (a->verdict != b.verdict || moved)
      effects.push_back({b.name, b.verdict, a->verdict, b.utilisation, a->utilisation});
  }
  std::stable_partition(effects.begin(), effects.end(), newly_fails);
  return effects;
}

}  // namespace

std::vector<Cure> cures(const Design& design, std::string_view check_name) {
  const Assessment before = assess(design);
  const Check failed = before.at(check_name);
  std::vector<Cure> found;
  if (failed.verdict != Verdict::fails) return found;
  for (const Lever& lever : levers(design, failed)) {
    const std::optional<int> step = first_cure(design, check_name, lever);
    if (!step) continue;
    const Design changed = pulled(design, lever, *step);
    Assessment after;
    try {
      after = assess(changed);
    } catch (const Error&) {
      continue;  // the change breaks the calculation of another module
    }
    const Check now = after.at(check_name);
    found.push_back({.check = failed.name,
                     .change = lever.what + ": " + lever.reading(design) + " to " + lever.reading(changed),
                     .utilisation_before = failed.utilisation,
                     .utilisation_after = now.utilisation,
                     .after = now.verdict,
                     .side_effects = side_effects(before, after, check_name)});
  }
  std::stable_sort(found.begin(), found.end(), [](const Cure& a, const Cure& b) {
    const auto harm = [](const Cure& c) {
      return std::count_if(c.side_effects.begin(), c.side_effects.end(), newly_fails);
    };
    return harm(a) < harm(b);
  });
  return found;
}

}  // namespace theca::study
