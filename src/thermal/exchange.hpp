// Tanks that share a sump, as groups of equal rate of exchange: the arrow of tanks and sump in its own modes, in which
// any time ahead is known in closed form. No step is too long for the sump's seconds.
#pragma once

#include <cstddef>
#include <vector>

namespace theca::thermal::detail {

/// exp(-z) and the integrals that follow it: first = (1 - exp(-z))/z, second = (1 - first)/z, third = (1/2 - second)/z.
struct Decay {
  double exp = 1.0, first = 1.0, second = 0.5, third = 1.0 / 6.0;
};
Decay decay(double z);

/// Modes of C_g dM_g/dt = G_g (S - M_g) + F_g,  C_s dS/dt = sum G_g (M_g - S) - L S + F_s; the sump is the last part.
/// Symmetric after scaling by the roots of the heat capacities, so that all rates are real. Without the leak L the
/// first is 0 exactly and carries the heat of the whole system.
struct ExchangeModes {
  std::size_t parts = 0;
  std::vector<double> rate;  ///< 1/s, ascending, >= 0
  std::vector<double> in;    ///< amplitude of mode k per temperature of part g: in[k * parts + g]
  /// Temperature of part g per amplitude of mode k, and amplitude per energy into the part: out[k * parts + g].
  std::vector<double> out;
};

/// @param capacity_J_K   of the groups, then of the sump
/// @param exchange_W_K   of the groups
/// @param leak_W_K       of the sump, >= 0
ExchangeModes exchange_modes(const std::vector<double>& capacity_J_K, const std::vector<double>& exchange_W_K,
                             double leak_W_K);

/// The modes on their way: amplitudes, and heat that changes evenly with time.
class ExchangeCourse {
 public:
  explicit ExchangeCourse(const ExchangeModes& modes);

  /// @param temperature    of the parts at time 0
  /// @param heat_W, slope_W_s  into the parts at time 0, and its change with time
  void start(const double* temperature, const double* heat_W, const double* slope_W_s);
  /// More heat into the sump from now on.
  void add_to_sump(double heat_W);

  double sump() const;
  /// First time up to `end` at which the sump has left [low, high], inside which it starts or on whose ends; `end` when
  /// it does not. `at_end` is the decay of every mode at `end`.
  double first_exit(double low, double high, double end, const Decay* at_end) const;
  /// Moves time 0 ahead; returns the integral of the sump's temperature.
  double advance(double time, const Decay* at_time);
  void temperatures(double* of_parts) const;

 private:
  double sump_at(double time) const;
  double exit_between(double low, double high, double from, double to, const std::vector<double>& slope_from,
                      const std::vector<double>& slope_to, double sump_from, double sump_to, int depth) const;
  double mode_slope(std::size_t k, double time, const Decay& d) const {
    return (push_now_[k] - modes_->rate[k] * amplitude_[k]) * d.exp + push_slope_[k] * time * d.first;
  }
  double mode_at(std::size_t k, double time, const Decay& d) const {
    return amplitude_[k] * d.exp + time * (push_now_[k] * d.first + push_slope_[k] * time * d.second);
  }

  const ExchangeModes* modes_;
  std::vector<double> amplitude_, push_now_, push_slope_, sump_out_;
  mutable std::vector<double> slope_here_, slope_end_;
};

}  // namespace theca::thermal::detail
