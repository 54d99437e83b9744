// The revised NIOSH lifting equation: recommended weight limit and lifting index of a two-handed lift.
#pragma once

#include "theca/units.hpp"

namespace theca::farm {

enum class Coupling { good, fair, poor };
/// Length of continuous lifting work, each followed by the recovery that the manual asks for.
enum class LiftingDuration { up_to_1_h, up_to_2_h, up_to_8_h };
/// The manual gives each constant twice, rounded in metric and in US customary units; they differ by up to 1 %.
enum class LiftingConstants { metric, us_customary };

/// One end of a lift: where the hands are.
struct LiftPoint {
  Length horizontal;  ///< from mid-ankle to mid-grip
  Length vertical;    ///< hands above the floor
  Angle asymmetry;    ///< of the load from straight ahead, >= 0
};

struct Lift {
  LiftPoint origin;
  LiftPoint destination;
  Frequency rate;  ///< lifts per time, averaged over 15 min
  LiftingDuration duration = LiftingDuration::up_to_1_h;
  Coupling coupling = Coupling::fair;
};

struct LiftMultipliers {
  double horizontal, vertical, distance, asymmetry, frequency, coupling;
};

enum class LiftEnd { origin, destination };

/// The multipliers at one end of a lift. As in the manual, a horizontal distance or a travel under 25 cm (10 in) counts
/// as 25 cm, a rate under 0.2 per minute as 0.2, and a multiplier is zero beyond 63 cm (25 in) horizontal, 175 cm
/// (70 in) vertical and travel, 135 deg and the last frequency of the table. The frequency multiplier takes the height
/// at the origin at both ends, the coupling multiplier the height at the end in question; travel is the difference of
/// the two heights.
///
/// @throws InvalidInput  a negative or non-finite argument
/// @source Waters, Putz-Anderson & Garg 1994, Applications Manual for the Revised NIOSH Lifting Equation, DHHS (NIOSH)
///         94-110 (rev. 2021), section 1.3, tables 1 to 7 (Waters et al. 1993, Ergonomics 36:749)
LiftMultipliers lift_multipliers(const Lift& lift, LiftEnd end, LiftingConstants constants = LiftingConstants::metric);

/// Frequency multiplier alone, table 5 of the manual, linear between its frequencies.
/// @param origin_height  of the hands at the origin of the lift
double frequency_multiplier(const Frequency& rate, LiftingDuration duration, const Length& origin_height,
                            LiftingConstants constants = LiftingConstants::metric);

struct WeightLimits {
  Mass at_origin, at_destination;  ///< the latter counts where the load must be placed with control
  LiftMultipliers origin, destination;
};

/// RWL = LC HM VM DM AM FM CM at both ends; LC 23 kg (metric) or 51 lb (US customary).
/// Zero where the manual's limits are passed: no load meets the criterion there.
WeightLimits recommended_weight_limits(const Lift& lift, LiftingConstants constants = LiftingConstants::metric);

struct LiftingIndex {
  double at_origin, at_destination;
};
/// Load over recommended weight limit at each end.
/// @throws InvalidInput   load not positive
/// @throws OutOfValidity  a recommended weight limit of zero: the lift is beyond the equation's limits
LiftingIndex lifting_index(const Mass& load, const Lift& lift, LiftingConstants constants = LiftingConstants::metric);

}  // namespace theca::farm
