// Checks of water in motion: sliding, tipping, waves driven by hand.
#pragma once

#include <string>

#include "theca/check.hpp"
#include "theca/structure/hand_waves.hpp"
#include "theca/structure/overturning.hpp"

namespace theca::structure {

/// Factor against sliding: demand is what the caller wants, capacity what is there.
/// @throws InvalidInput  least factor not > 0 and finite
Check sliding_check(const std::string& subject, const Stability& stability, double least_factor,
                    const std::string& factor_source);
/// Factor against tipping.
/// @throws InvalidInput  least factor not > 0 and finite
Check tipping_check(const std::string& subject, const Stability& stability, double least_factor,
                    const std::string& factor_source);
/// Amplitude of the hand-driven wave against the freeboard; no verdict where the wave is too steep for linear theory.
/// @throws InvalidInput  freeboard negative or not finite
Check hand_wave_check(const std::string& subject, const HandWave& wave, const Length& freeboard);

}  // namespace theca::structure
