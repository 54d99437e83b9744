// One whole Design in, one Assessment out: the checks of every module on one farm.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "theca/check.hpp"
#include "theca/study/design.hpp"

namespace theca::study {

/// Every check of a design, in the order structure, hydraulics, light, thermal, farm. It approves nothing: each check
/// compares one computed demand with one stated capacity.
struct Assessment {
  std::string farm;           ///< name of the site
  std::vector<Check> checks;  ///< names are unique

  /// A copy, which outlives the assessment. @throws InvalidInput  no check of that name
  Check at(std::string_view check_name) const;
  /// How many checks came to a verdict.
  int count(Verdict verdict) const;
  /// The cautions of all checks, each once, in order of first appearance.
  std::vector<std::string> cautions() const;
};

/// Assesses a farm: every module's checks on its governing case.
///
/// A check whose calculation leaves the range of its correlation is given without verdict (`outside_validity`) and with
/// the reason, and hides only what depends on the same calculation.
/// @throws InvalidInput  a design that contradicts itself or states an impossible quantity (see validate.hpp)
/// @throws NotConverged  a solver ended without an answer
Assessment assess(const Design& design);

/// The same, one module at a time. @throws as assess
std::vector<Check> structure_checks(const Design& design);
std::vector<Check> hydraulics_checks(const Design& design);
std::vector<Check> light_checks(const Design& design);
std::vector<Check> thermal_checks(const Design& design);
std::vector<Check> farm_checks(const Design& design);

/// The long walls of the glass and brace variants that the design lists, by the same criteria. They are no part of the
/// assessment: each stands for another tank than the one designed. @throws as assess
std::vector<Check> structure_variant_checks(const Design& design);

}  // namespace theca::study
