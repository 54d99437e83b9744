// Quarantine: how long new stock is held, and how many slots that takes.
#pragma once

#include <span>

#include "theca/units.hpp"

namespace theca::farm {

/// A measured generation time of a pest.
struct GenerationPoint {
  Temperature temperature;
  Time time;
};

/// Generation time between measurements, linear in temperature.
/// @param points  two or more, temperatures strictly rising, times > 0
/// @throws InvalidInput   fewer than two points, temperatures that do not rise, a time not > 0
/// @throws OutOfValidity  water colder than the first point or warmer than the last
Time generation_time(std::span<const GenerationPoint> points, const Temperature& water);

/// Generation time of a coral-eating flatworm of Acropora, interpolated linearly between its two measurements.
/// @throws OutOfValidity  outside 24 to 27 degC
/// @source Barton et al. 2019: 64 d at 24 degC, 38 d at 27 degC (egg to egg-laying adult)
Time generation_time(const Temperature& water);

/// Slots taken on average: arrival rate x hold time.
/// @throws InvalidInput  negative or not finite
/// @source Little 1961, Operations Research 9:383
double quarantine_slots(const Frequency& arrivals, const Time& hold);

/// Arrivals that a number of slots can hold: the inverse. @throws InvalidInput  slots negative, hold not positive
Frequency largest_arrivals(double slots, const Time& hold);

}  // namespace theca::farm
