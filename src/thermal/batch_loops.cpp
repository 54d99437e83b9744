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
  const LossPiece* pieces = curve.pieces;
  int outside = 0;
  for (std::size_t begin = 0; begin < count; begin += at_once) {
    const std::size_t n = std::min(at_once, count - begin);
    const double* w = water + begin;
    for (std::size_t i = 0; i < n; ++i) {
      outside |= static_cast<int>(w[i] < low) | static_cast<int>(w[i] > high);
      double held = w[i] < low ? low : w[i];
      held = held > high ? high : held;
      const double from_neutral = held - neutral;
      const double x = std::copysign(std::sqrt(std::sqrt(std::abs(from_neutral))), from_neutral) * per_root + below;
      int p = static_cast<int>(x);
      p = p < 0 ? 0 : p;
      p = p > last ? last : p;
      index[i] = p;
      way[i] = x - p;
    }
    double* q = loss + begin;
    for (std::size_t i = 0; i < n; ++i) {
      const std::array<double, 4>& c = pieces[index[i]].loss;
      q[i] = ((c[3] * way[i] + c[2]) * way[i] + c[1]) * way[i] + c[0];
    }
    if (vapour == nullptr) continue;
    double* e = vapour + begin;
    for (std::size_t i = 0; i < n; ++i) {
      const std::array<double, 4>& c = pieces[index[i]].vapour;
      e[i] = ((c[3] * way[i] + c[2]) * way[i] + c[1]) * way[i] + c[0];
    }
  }
  return outside == 0;
}

THECA_WIDE bool move(double base, double stay, double at_start, double at_change, const double* temperature,
                     const double* heat, const double* change, const double* inverse_capacity, std::size_t count,
                     const double* foreseen, double tolerance, double* next) {
  int off = 0;
  for (std::size_t i = 0; i < count; ++i) {
    const double t = base + stay * temperature[i] + (at_start * heat[i] + at_change * change[i]) * inverse_capacity[i];
    const double error = t - foreseen[i];
    off |= static_cast<int>(error > tolerance) | static_cast<int>(error < -tolerance);
    next[i] = t;
  }
  return off == 0;
}

THECA_WIDE bool take_on(double h, const double* next, const double* start_loss, const double* end_loss,
                        const double* vapour, std::size_t count, double cold_limit, double warm_limit,
                        double* temperature, double* rate, double* lowest, double* highest, double* area, double* lost,
                        double* evaporated) {
  const double half = 0.5 * h, per_second = 1.0 / h;
  int beyond = 0;
  for (std::size_t i = 0; i < count; ++i) {
    const double now = temperature[i], then = next[i];
    beyond |= static_cast<int>(then < cold_limit) | static_cast<int>(then > warm_limit);
    lowest[i] = then < lowest[i] ? then : lowest[i];
    highest[i] = then > highest[i] ? then : highest[i];
    area[i] += half * (now + then);
    lost[i] += half * (start_loss[i] + end_loss[i]);
    evaporated[i] += h * vapour[i];
    rate[i] = (then - now) * per_second;
    temperature[i] = then;
  }
  return beyond != 0;
}

}  // namespace theca::thermal::detail
