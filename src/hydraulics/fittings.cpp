#include "theca/hydraulics/fittings.hpp"

#include <cmath>

#include "theca/require.hpp"

namespace theca::hydraulics {

Length minor_loss(double K, const Velocity& velocity) {
  require::not_negative("K", K);
  require::not_negative("velocity", velocity);
  return from_si<Length>(K * si(velocity) * si(velocity) / (2.0 * units::detail::standard_gravity));
}

double total_K(const std::vector<Fitting>& fittings) {
  double sum = 0.0;
  for (const Fitting& f : fittings) {
    require::not_negative("K of " + f.name, f.K);
    require::that(f.count >= 0, "count of " + f.name, static_cast<double>(f.count), "0 or more");
    sum += f.K * f.count;
  }
  return sum;
}

double complete_turbulence_friction_factor(const Length& bore) {
  require::within("bore", bore, 6.0 * units::millimetre, 1.0 * units::metre);
  const double steel_roughness_m = 0.00015 * units::foot.size.value();
  const double log_term = std::log10(steel_roughness_m / (3.7 * si(bore)));
  return 0.25 / (log_term * log_term);
}

namespace {
Fitting constant(std::string name, double K, int count) {
  require::that(count >= 0, "count of " + name, static_cast<double>(count), "0 or more");
  return {std::move(name), K, count};
}
Fitting by_length_ratio(std::string name, double length_over_bore, const Length& bore, int count) {
  return constant(std::move(name), length_over_bore * complete_turbulence_friction_factor(bore), count);
}
}  // namespace

Fitting elbow_90(const Length& bore, int count) { return by_length_ratio("90 degree elbow", 30.0, bore, count); }
Fitting elbow_45(const Length& bore, int count) { return by_length_ratio("45 degree elbow", 16.0, bore, count); }
Fitting tee_run(const Length& bore, int count) { return by_length_ratio("tee, run", 20.0, bore, count); }
Fitting tee_branch(const Length& bore, int count) { return by_length_ratio("tee, branch", 60.0, bore, count); }
Fitting ball_valve(const Length& bore, int count) { return by_length_ratio("ball valve", 3.0, bore, count); }
Fitting gate_valve(const Length& bore, int count) { return by_length_ratio("gate valve", 8.0, bore, count); }
Fitting globe_valve(const Length& bore, int count) { return by_length_ratio("globe valve", 340.0, bore, count); }
Fitting swing_check_valve(const Length& bore, int count) {
  return by_length_ratio("swing check valve", 100.0, bore, count);
}
Fitting entrance_flush(int count) { return constant("flush entrance", 0.5, count); }
Fitting entrance_projecting(int count) { return constant("projecting entrance", 0.78, count); }
Fitting pipe_exit(int count) { return constant("pipe exit", 1.0, count); }

}  // namespace theca::hydraulics
