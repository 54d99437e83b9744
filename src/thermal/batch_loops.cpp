#include "batch_loops.hpp"

#include <algorithm>
#include <array>

// One copy of each loop for wide vectors, chosen when the program starts. The same operations in the same order, and no
// multiplication contracted with an addition (see CMakeLists.txt): the same bits on every one of them.
#if defined(__x86_64__) && defined(__linux__) && defined(__GNUC__) && !defined(__clang__) && \
    !defined(__SANITIZE_ADDRESS__)
#define THECA_WIDE __attribute__((target_clones("arch=x86-64-v4", "arch=x86-64-v3", "default")))
#else
#define THECA_WIDE
#endif

namespace theca::thermal::detail {

THECA_WIDE bool read_losses(const PieceGrid& grid, const LossCurve& curve, double low, double high, const double* water,
                            std::size_t count, double* loss, double* vapour) {
  constexpr std::size_t at_once = 64;
  std::array<int, at_once> index;
  std::array<double, at_once> way;
  const double per_root = grid.per_root, below = grid.below, neutral = curve.neutral;
  const int last = grid.count - 1;
  // Eight numbers to a piece, so that a vector's worth of pieces can be gathered.
  static_assert(sizeof(LossPiece) == 8 * sizeof(double));
  const double* __restrict power = reinterpret_cast<const double*>(curve.pieces);
  int outside = 0;
  for (std::size_t begin = 0; begin < count; begin += at_once) {
    const std::size_t n = std::min(at_once, count - begin);
    const double* __restrict w = water + begin;
    for (std::size_t i = 0; i < n; ++i) {
      outside |= static_cast<int>(w[i] < low) | static_cast<int>(w[i] > high);
      double held = w[i] < low ? low : w[i];
      held = held > high ? high : held;
      const double from_neutral = held - neutral;
      const double x = std::copysign(std::sqrt(std::sqrt(std::abs(from_neutral))), from_neutral) * per_root + below;
      int p = static_cast<int>(x);
      p = p < 0 ? 0 : p;
      p = p > last ? last : p;
      index[i] = 8 * p;
      way[i] = x - p;
    }
    double* __restrict q = loss + begin;
    for (std::size_t i = 0; i < n; ++i) {
      const int p = index[i];
      q[i] = ((power[p + 3] * way[i] + power[p + 2]) * way[i] + power[p + 1]) * way[i] + power[p];
    }
    if (vapour == nullptr) continue;
    double* __restrict e = vapour + begin;
    for (std::size_t i = 0; i < n; ++i) {
      const int p = index[i] + 4;
      e[i] = ((power[p + 3] * way[i] + power[p + 2]) * way[i] + power[p + 1]) * way[i] + power[p];
    }
  }
  return outside == 0;
}

THECA_WIDE bool move(double base, double stay, double at_start, double at_change, const double* __restrict temperature,
                     const double* __restrict heat, const double* __restrict start_loss,
                     const double* __restrict end_loss, const double* __restrict inverse_capacity, std::size_t count,
                     const double* __restrict foreseen, double tolerance, double* __restrict next) {
  int off = 0;
  for (std::size_t i = 0; i < count; ++i) {
    const double t = base + stay * temperature[i] +
                     (at_start * heat[i] + at_change * (start_loss[i] - end_loss[i])) * inverse_capacity[i];
    const double error = t - foreseen[i];
    off |= static_cast<int>(error > tolerance) | static_cast<int>(error < -tolerance);
    next[i] = t;
  }
  return off == 0;
}

THECA_WIDE void foresee(double h, const double* __restrict light, const double* __restrict start_loss,
                        const double* __restrict temperature, const double* __restrict rate, std::size_t count,
                        double* __restrict heat, double* __restrict foreseen) {
  for (std::size_t i = 0; i < count; ++i) {
    heat[i] = light[i] - start_loss[i];
    foreseen[i] = temperature[i] + rate[i] * h;
  }
}

THECA_WIDE bool any_beyond(const double* __restrict water, std::size_t count, double cold_limit, double warm_limit) {
  int beyond = 0;
  for (std::size_t i = 0; i < count; ++i)
    beyond |= static_cast<int>(water[i] < cold_limit) | static_cast<int>(water[i] > warm_limit);
  return beyond != 0;
}

THECA_WIDE void count_beyond(double h, const double* __restrict now, const double* __restrict then, std::size_t count,
                             double cold_limit, double warm_limit, double* __restrict cold, double* __restrict warm) {
  for (std::size_t i = 0; i < count; ++i) {
    const double low = now[i] < then[i] ? now[i] : then[i], high = now[i] < then[i] ? then[i] : now[i];
    const double span = high > low ? high - low : 1.0;
    const double below = high <= cold_limit ? 1.0 : (cold_limit - low) / span;
    const double above = low >= warm_limit ? 1.0 : (high - warm_limit) / span;
    cold[i] += h * (low >= cold_limit ? 0.0 : below);
    warm[i] += h * (high <= warm_limit ? 0.0 : above);
  }
}

THECA_WIDE void take_on(double h, const double* __restrict next, const double* __restrict start_loss,
                        const double* __restrict end_loss, const double* __restrict vapour, std::size_t count,
                        double* __restrict temperature, double* __restrict rate, double* __restrict lowest,
                        double* __restrict highest, double* __restrict area, double* __restrict lost,
                        double* __restrict evaporated) {
  const double half = 0.5 * h, per_second = 1.0 / h;
  for (std::size_t i = 0; i < count; ++i) {
    const double now = temperature[i], then = next[i];
    lowest[i] = then < lowest[i] ? then : lowest[i];
    highest[i] = then > highest[i] ? then : highest[i];
    area[i] += half * (now + then);
    lost[i] += half * (start_loss[i] + end_loss[i]);
    evaporated[i] += h * vapour[i];
    rate[i] = (then - now) * per_second;
    temperature[i] = then;
  }
}

}  // namespace theca::thermal::detail
