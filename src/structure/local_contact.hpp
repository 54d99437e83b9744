// What polynomials cannot see of a small contact: the bending right under it, in closed form; internal to
// src/structure.
#pragma once

#include <algorithm>
#include <vector>

#include "peak.hpp"
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

/// Side of the square patch that stands for an ideal point on a plate of this thickness, m.
double narrowest_contact(const Panel& panel);

/// The patches to be split: those no longer than twice their distance from the nearest edge that is not hinged, nor
/// than half the panel. A side narrower than the contact that stands for an ideal point on a plate of this thickness
/// counts as that wide.
std::vector<LocalContact> local_contacts(const Panel& panel, const std::vector<PatchLoad>& patches);
/// The same with reaches that end at hinged edges, too, so that nothing but the polynomials presses on the edges.
std::vector<LocalContact> local_contacts_within(const Panel& panel, const std::vector<PatchLoad>& patches);

/// Its images behind the hinged edges beyond which it reaches, behind two of them with its own sign; those that reach
/// back into the panel.
std::vector<LocalContact> mirror_images(const LocalContact& contact, const Panel& panel);

bool any_mirrored(const std::vector<LocalContact>& contacts, const Panel& panel);

/// Work of a load over the reference pressure on all products of functions, with the contacts' forces and their images
/// spread.
Small spread(Small work, const std::vector<LocalContact>& contacts, const Panel& panel, double reference);

/// Bending by patch less spread patch.
struct LocalBending {
  double deflection = 0.0;
  double moment_x = 0.0, moment_y = 0.0, moment_xy = 0.0;
  double shear_x = 0.0, shear_y = 0.0;

  LocalBending& operator+=(const LocalBending& other);
};
LocalBending local_bending(const LocalContact& contact, double rigidity, double poisson_ratio, double x, double y);

/// What the contacts of a panel and their images add to the polynomials.
struct ContactField {
  std::vector<LocalContact> contacts, images;
  double width, height, rigidity, poisson_ratio;

  ContactField(const Panel& panel, std::vector<LocalContact> all);
  LocalBending at(double x, double y) const;
  LocalBending on_square(double xi, double eta) const;

  /// The largest value right under the contacts, from the best of five by five places on each; negative without any.
  template <class F>
  Peak largest_under(const F& f, int halvings) const {
    Peak best{-1.0, 0.0, 0.0};
    for (const LocalContact& contact : contacts) {
      const double half_xi = 2.0 * contact.half_width / width, half_eta = 2.0 * contact.half_height / height;
      Peak start{-1.0, 0.0, 0.0};
      for (int i = -2; i <= 2; ++i)
        for (int j = -2; j <= 2; ++j) {
          const double xi = std::clamp(2.0 * contact.x / width - 1.0 + 0.5 * i * half_xi, -1.0, 1.0);
          const double eta = std::clamp(2.0 * contact.y / height - 1.0 + 0.5 * j * half_eta, -1.0, 1.0);
          const double value = f(xi, eta);
          if (value > start.value) start = {value, xi, eta};
        }
      const Peak peak = climb(f, start, 0.25 * half_xi, 0.25 * half_eta, halvings);
      if (peak.value > best.value) best = peak;
    }
    return best;
  }
};

}  // namespace theca::structure::detail
