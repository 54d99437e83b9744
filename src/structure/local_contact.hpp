// What polynomials cannot see of a small contact: the bending right under it, in closed form; internal to
// src/structure.
#pragma once

#include <vector>

#include "plate_panel.hpp"

namespace theca::structure::detail {

/// A patch whose force is split in two. One part spreads it with the kernel k(r) = (1 - s) (6 - 12 s) / (pi R^2),
/// s = (r / R)^2, which has the force one and no second moment; the polynomials bend the panel under that. The other is
/// what is left, patch less spread patch. It has neither force nor second moment about any of its points, so that on an
/// infinite plate it bends nothing outside the reach R of the patch. Where that lies within the panel its closed
/// solution there is exact, edges and all; where it reaches beyond a hinged edge, the mirror image of opposite sign
/// takes deflection and moment off that edge, and the sum of both is exact.
struct LocalContact {
  PatchLoad patch;  ///< as given
  double x, y, half_width, half_height;
  double reach;
};

/// The patches to be split: those no longer than twice their distance from the nearest edge that is not hinged, nor
/// than half the panel. A side narrower than the contact that stands for an ideal point on a plate of this thickness
/// counts as that wide.
std::vector<LocalContact> local_contacts(const Panel& panel, const std::vector<PatchLoad>& patches);
/// The same with reaches that end at hinged edges, too, so that nothing but the polynomials presses on the edges.
std::vector<LocalContact> local_contacts_within(const Panel& panel, const std::vector<PatchLoad>& patches);

/// Its images behind the hinged edges beyond which it reaches, behind two of them with its own sign; those that reach
/// back into the panel.
std::vector<LocalContact> mirror_images(const LocalContact& contact, const Panel& panel);

/// Work of a spread unit force and its images, less that of the patch as given, on all products of functions.
Small spread_less_patch(int degree, const LocalContact& contact, const Panel& panel);

/// Bending by patch less spread patch.
struct LocalBending {
  double deflection = 0.0;
  double moment_x = 0.0, moment_y = 0.0, moment_xy = 0.0;
  double shear_x = 0.0, shear_y = 0.0;

  LocalBending& operator+=(const LocalBending& other);
};
LocalBending local_bending(const LocalContact& contact, double rigidity, double poisson_ratio, double x, double y);

}  // namespace theca::structure::detail
