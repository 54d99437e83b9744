// A tank bent once for all the checks that ask, and the criterion that its glass is judged by.
#pragma once

#include <algorithm>
#include <optional>
#include <utility>

#include "theca/require.hpp"
#include "theca/structure/checks.hpp"
#include "theca/study/parts.hpp"

namespace theca::study {

/// The tank at one depth, bent when the first check asks.
class Bent {
 public:
  Bent(const Design& design, structure::Tank tank, const Length& depth)
      : tank_(std::move(tank)), load_(tank_load(design, depth)) {}

  /// @throws OutOfValidity  as structure::bend
  const structure::TankBetweenLimits& limits() {
    if (!limits_) {
      // The solver refuses a tank that a rim brace nearly closes, which a design may state.
      if (tank_.rim)
        require::valid("folded plates", "rim brace width / shorter inside length",
                       si(tank_.rim->width) / std::min(si(tank_.inside_length), si(tank_.inside_width)), 0.0, 0.44);
      limits_ = structure::bend_between_limits(tank_, load_);
    }
    return *limits_;
  }

 private:
  structure::Tank tank_;
  structure::TankLoad load_;
  std::optional<structure::TankBetweenLimits> limits_;
};

inline structure::StrengthCriterion glass_criterion(const Design& design) {
  return {.strength = {design.tanks.glass.strength, "as stated in the design", "stated in the design"},
          .load_factor = design.tanks.glass.load_factor};
}

inline constexpr const char* deflection_limit_source = "limit stated in the design (common practice, no source)";

}  // namespace theca::study
