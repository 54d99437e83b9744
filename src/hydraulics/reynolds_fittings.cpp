#include "theca/hydraulics/reynolds_fittings.hpp"

#include <array>
#include <cmath>
#include <string>

#include "find.hpp"
#include "theca/hydraulics/friction.hpp"
#include "theca/require.hpp"

namespace theca::hydraulics {

namespace {
constexpr Spread within(double fraction) { return {fraction, fraction}; }

constexpr std::array three_K{ThreeKFitting{"90 degree elbow, threaded", 800, 0.14, 4.0, within(0.40)},
                             ThreeKFitting{"90 degree elbow, threaded, long radius", 800, 0.071, 4.2, within(0.25)},
                             ThreeKFitting{"90 degree elbow, flanged", 800, 0.091, 4.0, within(0.35)},
                             ThreeKFitting{"90 degree elbow, mitred", 1000, 0.27, 4.0, within(0.35)},
                             ThreeKFitting{"45 degree elbow, threaded", 500, 0.071, 4.2, within(0.10)},
                             ThreeKFitting{"45 degree elbow, mitred", 500, 0.086, 4.0, within(0.10)},
                             ThreeKFitting{"tee, through branch, threaded", 500, 0.274, 4.0, within(0.25)},
                             ThreeKFitting{"tee, through branch, flanged", 800, 0.28, 4.0, within(0.35)},
                             ThreeKFitting{"tee, run, threaded", 200, 0.091, 4.0, within(0.25)},
                             ThreeKFitting{"tee, run, flanged", 150, 0.05, 4.0, within(0.35)},
                             ThreeKFitting{"globe valve", 1500, 1.7, 3.6, within(0.25)},
                             ThreeKFitting{"gate valve", 300, 0.037, 3.9, within(0.50)},
                             ThreeKFitting{"ball valve", 300, 0.017, 3.5, within(0.50)},
                             ThreeKFitting{"diaphragm valve", 1000, 0.69, 4.9, within(0.25)},
                             ThreeKFitting{"swing check valve", 1500, 0.46, 4.0, {0.80, 2.00}}};

constexpr std::array two_K{TwoKFitting{"90 degree elbow, threaded", 800, 0.40, within(0.40)},
                           TwoKFitting{"90 degree elbow, flanged", 800, 0.25, within(0.35)},
                           TwoKFitting{"90 degree elbow, long radius", 800, 0.20, within(0.30)},
                           TwoKFitting{"90 degree elbow, mitred", 1000, 1.15, within(0.35)},
                           TwoKFitting{"45 degree elbow", 500, 0.20, within(0.10)},
                           TwoKFitting{"45 degree elbow, mitred", 500, 0.25, within(0.10)},
                           TwoKFitting{"tee, through branch, threaded", 500, 0.70, within(0.25)},
                           TwoKFitting{"tee, through branch, flanged", 800, 0.80, within(0.35)},
                           TwoKFitting{"tee, run, threaded", 200, 0.10, within(0.25)},
                           TwoKFitting{"tee, run, flanged", 150, 0.05, within(0.35)},
                           TwoKFitting{"globe valve", 1500, 4.00, within(0.25)},
                           TwoKFitting{"gate or ball valve, full bore", 300, 0.10, within(0.50)},
                           TwoKFitting{"diaphragm valve", 1000, 2.00, within(0.25)},
                           TwoKFitting{"butterfly valve", 800, 0.25, within(0.50)},
                           TwoKFitting{"swing check valve", 1500, 1.50, {0.80, 2.00}}};

double inches(std::string_view argument, const Length& size) {
  require::within(argument, size, 0.5 * units::inch, 24.0 * units::inch);
  return in(size, units::inch);
}

void require_reynolds(double reynolds) {
  require::positive("Reynolds number", reynolds);
  require::within("Reynolds number", reynolds, 0.0, largest_reynolds_number);
}
}  // namespace

std::span<const ThreeKFitting> three_K_fittings() { return three_K; }
std::span<const TwoKFitting> two_K_fittings() { return two_K; }
const ThreeKFitting& three_K_fitting(std::string_view name) {
  return detail::find(three_K, &ThreeKFitting::name, name, "fitting");
}
const TwoKFitting& two_K_fitting(std::string_view name) {
  return detail::find(two_K, &TwoKFitting::name, name, "fitting");
}

double loss_K(const ThreeKFitting& fitting, double reynolds, const Length& nominal_size) {
  require_reynolds(reynolds);
  require::not_negative("K1", fitting.K1);
  require::not_negative("Ki", fitting.Ki);
  require::not_negative("Kd", fitting.Kd);
  return fitting.K1 / reynolds + fitting.Ki * (1.0 + fitting.Kd / std::pow(inches("nominal size", nominal_size), 0.3));
}

double loss_K(const TwoKFitting& fitting, double reynolds, const Length& bore) {
  require_reynolds(reynolds);
  require::not_negative("K1", fitting.K1);
  require::not_negative("K infinity", fitting.K_infinity);
  return fitting.K1 / reynolds + fitting.K_infinity * (1.0 + 1.0 / inches("bore", bore));
}

}  // namespace theca::hydraulics
