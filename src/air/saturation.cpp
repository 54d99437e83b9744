// Dew point from vapour pressure: Newton's method on ln p over 1/T, where the saturation curve is almost straight.
#include "theca/air/saturation.hpp"

namespace theca::air {
namespace {

// Value and derivative carried together, so that the slope comes from the kernel itself and not from a second copy of
// its coefficients.
struct Dual {
  double value;
  double slope = 0.0;
  explicit Dual(double v, double s = 0.0) : value(v), slope(s) {}
};
Dual operator+(Dual a, Dual b) { return Dual(a.value + b.value, a.slope + b.slope); }
Dual operator-(Dual a, Dual b) { return Dual(a.value - b.value, a.slope - b.slope); }
Dual operator*(Dual a, Dual b) { return Dual(a.value * b.value, a.slope * b.value + a.value * b.slope); }
Dual operator/(Dual a, Dual b) {
  const double q = a.value / b.value;
  return Dual(q, (a.slope - q * b.slope) / b.value);
}
Dual exp(Dual a) { return Dual(std::exp(a.value), std::exp(a.value) * a.slope); }
Dual log(Dual a) { return Dual(std::log(a.value), a.slope / a.value); }

constexpr double triple_K = 273.16;

double inverse(double pressure_Pa, bool liquid) {
  const double target = std::log(pressure_Pa);
  double t = triple_K;
  double step = 0.0;
  constexpr int most = 50;
  for (int i = 0; i < most; ++i) {
    const Dual p = liquid ? kernel::saturation_pressure_over_water(Dual(t, 1.0))
                          : kernel::saturation_pressure_over_ice(Dual(t, 1.0));
    // x = 1/T, so d(ln p)/dx = -T^2 d(ln p)/dT
    const double next = 1.0 / (1.0 / t + (target - std::log(p.value)) / (-t * t * p.slope / p.value));
    step = next - t;
    t = next;
    if (std::abs(step) < 1e-11 * t) return t;
  }
  throw NotConverged("saturation temperature", std::abs(step) / t, most);
}

}  // namespace

Temperature saturation_temperature(const AbsolutePressure& vapour_pressure) {
  const double p = si(vapour_pressure);
  const double low = si(saturation_vapour_pressure(lowest_saturation_temperature));
  const double high = si(saturation_vapour_pressure(highest_saturation_temperature));
  require::within("vapour pressure", above_vacuum(vapour_pressure), from_si<Pressure>(low), from_si<Pressure>(high));
  return from_si<Temperature>(inverse(p, p >= kernel::saturation_pressure_over_water(triple_K)));
}

}  // namespace theca::air
