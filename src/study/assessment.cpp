#include "theca/study/assessment.hpp"

#include <algorithm>

#include "theca/error.hpp"

namespace theca::study {

Check Assessment::at(std::string_view check_name) const {
  const auto found = std::find_if(checks.begin(), checks.end(), [&](const Check& c) { return c.name == check_name; });
  if (found == checks.end())
    throw InvalidInput("check", "\"" + std::string(check_name) + "\"", "the name of a check of this assessment");
  return *found;
}

int Assessment::count(Verdict verdict) const {
  return int(std::count_if(checks.begin(), checks.end(), [&](const Check& c) { return c.verdict == verdict; }));
}

std::vector<std::string> Assessment::cautions() const {
  std::vector<std::string> list;
  for (const Check& check : checks)
    if (!check.caution.empty() && std::find(list.begin(), list.end(), check.caution) == list.end())
      list.push_back(check.caution);
  return list;
}

Assessment assess(const Design& design) {
  Assessment assessment{.farm = design.site.name, .checks = {}};
  for (const auto& module_checks : {structure_checks, hydraulics_checks, light_checks, thermal_checks, farm_checks}) {
    for (Check& check : module_checks(design)) assessment.checks.push_back(std::move(check));
  }
  return assessment;
}

}  // namespace theca::study
