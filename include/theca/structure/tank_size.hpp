// The inverse of a bent tank: thinnest stock sheet, least rim brace, fewest cross braces, longest and widest tank.
#pragma once

#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "theca/materials/thickness.hpp"
#include "theca/structure/tank.hpp"
#include "theca/units.hpp"

namespace theca::structure {

/// What a tank must meet. A criterion that is not given is not asked; at least one must be.
struct TankCriteria {
  std::optional<Pressure> wall_tension;  ///< largest principal tension of the four walls
  std::optional<Pressure> base_tension;
  std::optional<Pressure> strip_stress;                 ///< nominal stress of rim and cross brace sections
  std::optional<Length> wall_deflection;                ///< bow of every wall
  std::optional<double> wall_deflection_over_length{};  ///< the same over the length of that wall
  std::optional<LineLoad> joint_load;                   ///< largest resultant across the joints of walls and base
  std::optional<Pressure> joint_stress;                 ///< the same over the bite of the tank's bead: a mean stress
};

enum class TankCriterion {
  wall_tension,
  base_tension,
  strip_stress,
  wall_deflection,
  joint_load,
  joint_stress,
  linear_theory  ///< always asked: bow of a wall over its thickness, up to `linear_deflection_limit`
};
std::string_view name(TankCriterion criterion);

/// How far a criterion is used, and where. For a joint, `part` is the first of the two that it joins.
struct TankUtilisation {
  TankCriterion criterion = TankCriterion::linear_theory;
  JointModel joints = JointModel::hinged;
  TankPart part = TankPart::front_wall;
  int number = 0;            ///< of a cross brace
  double utilisation = 0.0;  ///< at most 1 meets the criterion
};

/// A tank against its criteria, with the joints taken in several ways.
struct RatedTank {
  Tank tank;
  /// One for each joint model asked; the inverse functions add the limits that were not, for information.
  std::vector<BentTank> bent;
  std::vector<TankUtilisation> utilisations;  ///< the worst place of every criterion, for each joint model
  TankUtilisation governing;                  ///< the largest under the joint models asked
  /// Whether every criterion is met under the joint models asked.
  bool holds() const { return governing.utilisation <= 1.0; }
};

/// How the inverse functions look for a tank.
struct TankSizingRules {
  /// A tank is taken when it holds under every one of these. Real joints lie between hinged and monolithic, so both are
  /// asked unless the caller says otherwise; add `as_bonded` where the bead is known.
  std::vector<JointModel> joints = {JointModel::hinged, JointModel::monolithic};
  /// The beads of the tank and of its braces are as wide as the sheet that ends on them is thick.
  bool bite_is_thickness = true;
};

/// Bends a tank under each joint model and holds it against the criteria.
///
/// @throws InvalidInput   no criterion given, one not > 0 and finite; no joint model; a joint stress asked of a tank
///                        without a bead; as `bend`
/// @throws OutOfValidity  as `bend`
RatedTank rate(const Tank& tank, const TankLoad& load, const TankCriteria& criteria,
               const std::vector<JointModel>& joints = {JointModel::hinged, JointModel::monolithic});

/// A tank of stock sheet.
struct SizedTank {
  materials::StockThickness sheet;        ///< of walls and base
  materials::StockThickness brace_sheet;  ///< of rim and cross braces, if there are any
  RatedTank rated;                        ///< at the minimum thicknesses
};

/// The thinnest stock sheet of which walls and base hold, and with it the thinnest sheet for the braces. The
/// thicknesses of `tank` are ignored, its inside dimensions kept. Sheets outside the range of thin plates are passed
/// over.
///
/// @param brace_stock  sheets to choose the braces from; empty: braces of the same sheet as the walls
/// @return nothing when no sheet holds
/// @throws InvalidInput   empty stock, a thickness not > 0 and finite; as `rate`
/// @throws OutOfValidity  every sheet lies outside the range of `bend`
std::optional<SizedTank> thinnest_tank(const Tank& tank, const TankLoad& load, const TankCriteria& criteria,
                                       std::span<const materials::StockThickness> stock,
                                       std::span<const materials::StockThickness> brace_stock = {},
                                       const TankSizingRules& rules = {});

/// The narrowest of the given rim brace widths with which the tank holds; its other properties are those of the tank's
/// rim brace. Every width is tried from the narrowest on, since the strip's own stress need not fall with its width.
///
/// @return nothing when none holds
/// @throws InvalidInput  no widths, tank without a rim brace; as `rate`
std::optional<RatedTank> narrowest_rim(const Tank& tank, const TankLoad& load, const TankCriteria& criteria,
                                       std::span<const Length> widths, const TankSizingRules& rules = {});

/// The fewest cross braces, 0 to `most`, with which the tank holds: copies of `brace`, equally spaced along the tank.
/// Those that the tank has are left out.
///
/// @return nothing when `most` do not suffice
/// @throws InvalidInput  `most` outside 0 to 20; as `rate`
std::optional<RatedTank> fewest_cross_braces(const Tank& tank, const TankLoad& load, const TankCriteria& criteria,
                                             const TankCrossBrace& brace, int most, const TankSizingRules& rules = {});

/// The largest inside length or width that holds.
struct LargestTank {
  RatedTank rated;  ///< at the largest that holds, within the tolerance on the lower side
  Length size;
  bool at_limit = false;  ///< the upper end of the range holds
  bool monotone = true;   ///< false: beyond the answer some longer tanks that were tried hold again
};

/// The longest tank between two lengths: nine lengths evenly over the range, then bisection between the last of them
/// up to which all hold and the next. Cross braces and rim loads keep their places in proportion to the length.
///
/// @return nothing when the shortest does not hold
/// @throws InvalidInput  lengths not > 0 and rising, tolerance not > 0; as `rate`
std::optional<LargestTank> longest_tank(const Tank& tank, const TankLoad& load, const TankCriteria& criteria,
                                        const Length& shortest, const Length& longest,
                                        const Length& tolerance = 5.0 * units::millimetre,
                                        const TankSizingRules& rules = {});
/// The same for the inside width.
std::optional<LargestTank> widest_tank(const Tank& tank, const TankLoad& load, const TankCriteria& criteria,
                                       const Length& narrowest, const Length& widest,
                                       const Length& tolerance = 5.0 * units::millimetre,
                                       const TankSizingRules& rules = {});

}  // namespace theca::structure
