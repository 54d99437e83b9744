// The name of a check of this module, with its subject where there is one; internal to src/structure.
#pragma once

#include <string>

namespace theca::structure::detail {

inline std::string subject_name(const std::string& subject, const std::string& what) {
  return "structure: " + (subject.empty() ? std::string() : subject + " ") + what;
}

}  // namespace theca::structure::detail
