// A tank as folded plates and line springs: which plate stands for which part, which spring for which joint.
#pragma once

#include <cstddef>
#include <vector>

#include "folded_plate.hpp"
#include "theca/structure/tank.hpp"

namespace theca::structure::detail {

/// What stands for a part in the folded structure: itself, or its mirror image.
struct PartIndex {
  TankPart part;
  int number;
  int plate;
  bool flipped_x, flipped_y;  ///< the part is the image of the plate
  /// Plates of a long rim strip from its left end on, cut where cross braces meet it; in a mirrored solution up to the
  /// middle. `plate` is the first of them.
  std::vector<int> segments{};
  double length = 0.0;  ///< of the whole strip
};

struct JointIndex {
  TankPart first, second;
  std::size_t joint;
  int normal, along;
};

/// The folded structure of a tank with what its plates and joints stand for.
struct TankModel {
  FoldedStructure structure;
  std::vector<PartIndex> parts;
  std::vector<JointIndex> joints;
  std::vector<JointIndex> bonds;  ///< strip to wall, or cross brace to strip
};

/// @throws InvalidInput, OutOfValidity  as `bend` of a tank says
void require_possible(const Tank& tank, const TankLoad& load, JointModel joints);

/// The structure of a possible tank, not solved yet; half or a quarter of it where tank and load are mirror images.
TankModel tank_model(const Tank& tank, const TankLoad& load, JointModel joints);

}  // namespace theca::structure::detail
