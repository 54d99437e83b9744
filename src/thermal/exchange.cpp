#include "exchange.hpp"

#include <Eigen/Eigenvalues>
#include <algorithm>
#include <cmath>

#include "../root.hpp"

namespace theca::thermal::detail {

Decay decay(double z) {
  Decay d;
  if (z < 0.3) {
    // Series of the last, the others from it: no difference of near equals.
    double term = 1.0 / 6.0, sum = term;
    for (int j = 4; j <= 14; ++j) sum += term *= -z / j;
    d.third = sum;
    d.second = 0.5 - z * d.third;
    d.first = 1.0 - z * d.second;
    d.exp = 1.0 - z * d.first;
  } else {
    d.exp = std::exp(-z);
    d.first = (1.0 - d.exp) / z;
    d.second = (1.0 - d.first) / z;
    d.third = (0.5 - d.second) / z;
  }
  return d;
}

namespace {
// The mode of rate 0 as it is known, and the others at right angles to it: heat is then kept to rounding. A part
// without exchange has a mode of rate 0 of its own, and the solver may have mixed them.
void keep_heat(const std::vector<double>& capacity_J_K, Eigen::VectorXd& rate, Eigen::MatrixXd& vector) {
  const Eigen::Index size = rate.size();
  Eigen::VectorXd whole(size);
  for (std::size_t g = 0; g < capacity_J_K.size(); ++g)
    whole(static_cast<Eigen::Index>(g)) = std::sqrt(capacity_J_K[g]);
  whole.normalize();
  Eigen::Index nearest = 0;
  (vector.transpose() * whole).cwiseAbs().maxCoeff(&nearest);
  vector.col(nearest).swap(vector.col(0));
  std::swap(rate(nearest), rate(0));
  vector.col(0) = whole;
  rate(0) = 0.0;
  for (Eigen::Index k = 1; k < size; ++k) {
    for (Eigen::Index j = 0; j < k; ++j) vector.col(k) -= vector.col(j).dot(vector.col(k)) * vector.col(j);
    vector.col(k).normalize();
  }
}
}  // namespace

ExchangeModes exchange_modes(const std::vector<double>& capacity_J_K, const std::vector<double>& exchange_W_K,
                             double leak_W_K) {
  const std::size_t n = capacity_J_K.size(), sump = n - 1;
  const auto size = static_cast<Eigen::Index>(n);
  Eigen::MatrixXd arrow = Eigen::MatrixXd::Zero(size, size);
  for (std::size_t g = 0; g < sump; ++g) {
    const auto i = static_cast<Eigen::Index>(g), s = static_cast<Eigen::Index>(sump);
    arrow(i, i) = exchange_W_K[g] / capacity_J_K[g];
    arrow(s, s) += exchange_W_K[g] / capacity_J_K[sump];
    arrow(i, s) = arrow(s, i) = -exchange_W_K[g] / std::sqrt(capacity_J_K[g] * capacity_J_K[sump]);
  }
  arrow(size - 1, size - 1) += leak_W_K / capacity_J_K[sump];
  Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> solver(arrow);
  Eigen::VectorXd rate = solver.eigenvalues().cwiseMax(0.0);
  Eigen::MatrixXd vector = solver.eigenvectors();

  if (leak_W_K == 0.0) keep_heat(capacity_J_K, rate, vector);

  ExchangeModes modes;
  modes.parts = n;
  for (Eigen::Index k = 0; k < size; ++k) {
    modes.rate.push_back(rate(k));
    for (std::size_t g = 0; g < n; ++g) {
      const double v = vector(static_cast<Eigen::Index>(g), k), root = std::sqrt(capacity_J_K[g]);
      modes.in.push_back(v * root);
      modes.out.push_back(v / root);
    }
  }
  return modes;
}

ExchangeCourse::ExchangeCourse(const ExchangeModes& modes) : modes_(&modes) {
  const std::size_t n = modes.parts;
  for (std::vector<double>* v : {&amplitude_, &push_now_, &push_slope_, &slope_here_, &slope_end_}) v->resize(n);
  for (std::size_t k = 0; k < n; ++k) {
    sump_out_.push_back(modes.out[k * n + n - 1]);
  }
}

void ExchangeCourse::start(const double* temperature, const double* heat_W, const double* slope_W_s) {
  const std::size_t n = modes_->parts;
  for (std::size_t k = 0; k < n; ++k) {
    const double *in = &modes_->in[k * n], *push = &modes_->out[k * n];
    double a = 0.0, b = 0.0, c = 0.0;
    for (std::size_t g = 0; g < n; ++g) {
      a += in[g] * temperature[g];
      b += push[g] * heat_W[g];
      c += push[g] * slope_W_s[g];
    }
    amplitude_[k] = a;
    push_now_[k] = b;
    push_slope_[k] = c;
  }
}

void ExchangeCourse::add_to_sump(double heat_W) {
  for (std::size_t k = 0; k < sump_out_.size(); ++k) push_now_[k] += sump_out_[k] * heat_W;
}

double ExchangeCourse::sump() const {
  double t = 0.0;
  for (std::size_t k = 0; k < sump_out_.size(); ++k) t += sump_out_[k] * amplitude_[k];
  return t;
}

double ExchangeCourse::sump_at(double time) const {
  double t = 0.0;
  for (std::size_t k = 0; k < sump_out_.size(); ++k)
    t += sump_out_[k] * mode_at(k, time, decay(modes_->rate[k] * time));
  return t;
}

double ExchangeCourse::first_exit(double low, double high, double end, const Decay* at_end) const {
  double from = 0.0, to = 0.0;
  for (std::size_t k = 0; k < sump_out_.size(); ++k) {
    slope_here_[k] = sump_out_[k] * (push_now_[k] - modes_->rate[k] * amplitude_[k]);
    slope_end_[k] = sump_out_[k] * mode_slope(k, end, at_end[k]);
    from += sump_out_[k] * amplitude_[k];
    to += sump_out_[k] * mode_at(k, end, at_end[k]);
  }
  return exit_between(low, high, 0.0, end, slope_here_, slope_end_, from, to, 0);
}

// The slope of a mode runs straight towards its final value, so that between two times it stays between its values
// there: bounds for the slope of the sump, and from these for the sump.
double ExchangeCourse::exit_between(double low, double high, double from, double to,
                                    const std::vector<double>& slope_from, const std::vector<double>& slope_to,
                                    double sump_from, double sump_to, int depth) const {
  double least = 0.0, most = 0.0;
  for (std::size_t k = 0; k < slope_from.size(); ++k) {
    least += std::min(slope_from[k], slope_to[k]);
    most += std::max(slope_from[k], slope_to[k]);
  }
  const double length = to - from;
  const bool one_way = least >= 0.0 || most <= 0.0;
  if (!one_way) {
    // Between the two ends the sump is under both lines of steepest rise, and over both of steepest fall.
    const double top = std::min(sump_from + most * length, sump_to - least * length);
    const double bottom = std::max(sump_from + least * length, sump_to - most * length);
    if (top <= high && bottom >= low) return to;
    constexpr int deepest = 40;
    if (depth < deepest) {
      const double middle = 0.5 * (from + to);
      std::vector<double> slope(slope_from.size());
      double sump = 0.0;
      for (std::size_t k = 0; k < slope.size(); ++k) {
        const Decay d = decay(modes_->rate[k] * middle);
        slope[k] = sump_out_[k] * mode_slope(k, middle, d);
        sump += sump_out_[k] * mode_at(k, middle, d);
      }
      const double first = exit_between(low, high, from, middle, slope_from, slope, sump_from, sump, depth + 1);
      if (first < middle) return first;
      return exit_between(low, high, middle, to, slope, slope_to, sump, sump_to, depth + 1);
    }
  }
  const double limit = sump_to > high ? high : low;
  if (sump_to >= low && sump_to <= high) return to;
  const double ahead = sump_from - limit;
  if ((limit == high) == (ahead >= 0.0)) return from;  // it starts on the limit, by rounding beyond it
  return theca::detail::root_between(
             "switching of a thermostat", [&](double t) { return sump_at(t) - limit; }, from, to, ahead,
             sump_to - limit)
      .at();
}

double ExchangeCourse::advance(double time, const Decay* at_time) {
  double integral = 0.0;
  for (std::size_t k = 0; k < sump_out_.size(); ++k) {
    const Decay& d = at_time[k];
    integral += sump_out_[k] * time *
                (amplitude_[k] * d.first + time * (push_now_[k] * d.second + push_slope_[k] * time * d.third));
    amplitude_[k] = mode_at(k, time, d);
    push_now_[k] += push_slope_[k] * time;
  }
  return integral;
}

void ExchangeCourse::temperatures(double* of_parts) const {
  const std::size_t n = modes_->parts;
  for (std::size_t g = 0; g < n; ++g) of_parts[g] = 0.0;
  for (std::size_t k = 0; k < n; ++k)
    for (std::size_t g = 0; g < n; ++g) of_parts[g] += modes_->out[k * n + g] * amplitude_[k];
}

}  // namespace theca::thermal::detail
