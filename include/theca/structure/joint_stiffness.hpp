// Stiffness of an adhesive bead between two plates: the springs with which a bonded edge is held, and its peel stress.
#pragma once

#include "theca/materials/adhesive.hpp"
#include "theca/materials/material.hpp"
#include "theca/structure/panel.hpp"
#include "theca/units.hpp"

namespace theca::structure {

/// A long bead of rubbery adhesive between two plates that are rigid beside it. `bite` is its width across the joint,
/// `thickness` the gap that it fills.
struct AdhesiveBead {
  Length thickness;
  Length bite;
  Pressure youngs_modulus;      ///< for the duration of the load: cured silicone creeps little, tapes and pastes much
  double poisson_ratio = 0.49;  ///< 0.45 to 0.5; how nearly incompressible it is governs a thin wide bead
};

/// The bead with modulus and Poisson's ratio of a material such as `materials::silicone_adhesive()`.
AdhesiveBead adhesive_bead(const Length& thickness, const Length& bite, const materials::Material& adhesive);

/// Springs of a bead, each per length of joint.
struct JointStiffness {
  EdgeStiffness normal;          ///< opening and closing of the gap
  EdgeStiffness shear_along;     ///< sliding along the joint
  EdgeStiffness shear_across;    ///< sliding across the bite
  RotationalStiffness rotation;  ///< one plate turning about the line of the joint
  double shape_factor = 0.0;     ///< bite / (2 thickness)
  Pressure normal_modulus;       ///< apparent modulus: normal stiffness x thickness / bite
  Pressure rotation_modulus;     ///< apparent modulus: rotational stiffness x 12 thickness / bite^3
};

/// Stiffness of a bonded bead in plane strain along the joint.
///
/// Incompressible: normal modulus 4/3 E (1 + S^2), tilting modulus 4/3 E (1 + S^2 / 5), with S = bite / (2 thickness);
/// shear G bite / thickness. Compressibility enters through the bulk modulus E / (3 (1 - 2 nu)), by the pressure
/// equation p'' = 12 G (p / K - strain) / thickness^2 with p = 0 at both sides of the bite; a wide bead then tends to
/// the constrained modulus K + 4/3 G. Small strain, plates that do not bend beside the bead, no bulge beyond it (a
/// fillet adds). The modulus is the least known input: 1 to 2.5 MPa between silicones, so +-50 %.
///
/// @throws InvalidInput   thickness, bite or modulus not > 0 and finite; Poisson's ratio over 0.5
/// @throws OutOfValidity  Poisson's ratio under 0.45, where the adhesive is no rubber; bite over thickness outside
///                        0.5 to 200
/// @source A. N. Gent, P. B. Lindley, Proc. Inst. Mech. Eng. 173 (1959) 111 (strip, compression; from memory);
///         A. N. Gent, E. A. Meinecke, Polym. Eng. Sci. 10 (1970) 48 (tilting; from memory). Both re-derived from the
///         pressure equation; the share of the shear stiffness between the two limits is interpolated
JointStiffness joint_stiffness(const AdhesiveBead& bead);

/// The edge of a panel that stands on or against the bead: normal and rotation where the panel's deflection opens the
/// gap, e.g. a wall bonded against the ends of its neighbours.
Edge edge_on_bead_normal(const AdhesiveBead& bead);
/// The edge of a panel whose deflection shears the bead across its bite, e.g. a wall standing on the base.
Edge edge_on_bead_across(const AdhesiveBead& bead);

/// Largest tension at the side of a bead under a line load that pulls the gap open and a moment that peels it, linear
/// over the bite: N / b + 6 |M| / b^2. The sides of a bond are singular in elasticity; this is the nominal stress.
/// @param pull  per length, > 0 in tension; compression relieves
/// @throws InvalidInput  pull or moment not finite, bite not > 0 and finite
/// @source strength of materials; no published allowable is meant for this peak: ETAG 002 and ASTM C1401 limit the mean
Pressure peel_stress(const LineLoad& pull, const MomentPerLength& moment, const Length& bite);

}  // namespace theca::structure
