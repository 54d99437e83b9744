// The loops over bodies of water that a batch spends its time in, on plain arrays.
#pragma once

#include <cstddef>

#include "loss_curve.hpp"

namespace theca::thermal::detail {

/// Loss in W, and evaporation in kg/s, of `count` bodies on one curve; water held to the range of the curve. `vapour`
/// may be null.
/// @return  true where no water was out of the range
bool read_losses(const PieceGrid& grid, const LossCurve& curve, double low, double high, const double* water,
                 std::size_t count, double* loss, double* vapour);

/// Temperatures at the end of a step: base + stay T + (at_start heat + at_change (start_loss -
/// end_loss)) / C.
/// @return  true where all are within `tolerance` of those foreseen
bool move(double base, double stay, double at_start, double at_change, const double* temperature, const double* heat,
          const double* start_loss, const double* end_loss, const double* inverse_capacity, std::size_t count,
          const double* foreseen, double tolerance, double* next);

/// Heat into bodies at the start of a step, and their temperature foreseen at its end.
void foresee(double h, const double* light, const double* start_loss, const double* temperature, const double* rate,
             std::size_t count, double* heat, double* foreseen);

/// @return  true where any water is beyond a limit
bool any_beyond(const double* water, std::size_t count, double cold_limit, double warm_limit);

/// Adds the time that straight lines from `now` to `then` over `h` spend below and above the limits.
void count_beyond(double h, const double* now, const double* then, std::size_t count, double cold_limit,
                  double warm_limit, double* cold, double* warm);

/// Sums of a block, and the state, taken on by a step of length `h`.
void take_on(double h, const double* next, const double* start_loss, const double* end_loss, const double* vapour,
             std::size_t count, double* temperature, double* rate, double* lowest, double* highest, double* area,
             double* lost, double* evaporated);

}  // namespace theca::thermal::detail
