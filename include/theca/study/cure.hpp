// For a failed check: the smallest single changes that cure it, and what each does to the other checks.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "theca/study/assessment.hpp"
#include "theca/study/design.hpp"

namespace theca::study {

/// Another check that a cure moves: its verdict changes, or its utilisation by more than a hundredth of it.
struct SideEffect {
  std::string check;
  Verdict before = Verdict::outside_validity, after = Verdict::outside_validity;
  double utilisation_before = 0.0, utilisation_after = 0.0;
};

/// One thing changed in a design, no further than it takes for a check to stop failing.
struct Cure {
  std::string check;
  std::string change;  ///< "tank B, glass: 10 mm to 15 mm"
  double utilisation_before = 0.0, utilisation_after = 0.0;
  Verdict after = Verdict::outside_validity;  ///< holds or marginal
  std::vector<SideEffect> side_effects;       ///< those that fail now and did not before come first
};

/// Cures of one check, in the order in which a grower would try them: first those after which nothing else fails that
/// did not before.
///
/// Each is one of a list of changes that a grower can make (the next stock glass, a wider rim brace, the next pipe
/// size, one more fixture, ...), in the steps in which such things are bought or built. A change is followed step by
/// step in ever longer strides as far as it is sensible, and the first step that cures is then found between the last
/// two strides; every candidate is the whole design, validated and computed by the module's own checks.
/// @return empty when the check does not fail, and when no single change of the list cures it
/// @throws InvalidInput  no check of that name; as assess
/// @valid  costs are left out, and so is what a change does to things that are not in the design
std::vector<Cure> cures(const Design& design, std::string_view check_name);

}  // namespace theca::study
