// Pumping cost and economic pipe diameter against published figures and a published relation.
#include <cmath>

#include "support/near.hpp"
#include "theca/farm/economics.hpp"
#include "theca/farm/pipe_economics.hpp"

using namespace theca;
using namespace theca::farm;
using namespace theca::literals;
using test::near;

namespace {
constexpr double steel_mm = 0.046;  // clean commercial steel, Moody 1944

hydraulics::Pipe steel(const Length& length) {
  return {.bore = {}, .length = length, .roughness = steel_mm * units::millimetre, .minor_loss_K = 0.0};
}
}  // namespace

TEST_CASE("pumping cost of 600 gpm through 1000 ft of pipe [US DOE, Pumping Systems Tip Sheet 9, from memory]") {
  // The sheet: 6, 8 and 10 in pipe, 8,760 h, 0.05 USD/kWh, pump and motor together 70 %: 1,690, 425 and 140 USD a year,
  // with the losses read off a chart for Schedule 40 steel: 5 %.
  const Pumping pumping{.pump_efficiency = 0.7,
                        .motor_efficiency = 1.0,
                        .running_per_year = 1_year,
                        .price = 0.05 * units::dollar_per_kilowatt_hour};
  const EconomicPipe e = economic_pipe(steel(1000_ft), {{6.065_in, 0_USD}, {7.981_in, 0_USD}, {10.02_in, 0_USD}},
                                       600_gpm, 1.0e-6_m2_s, 998_kg_m3, pumping, 0.0, 1.0);
  const double published[] = {1690.0, 425.0, 140.0};
  for (std::size_t i = 0; i < 3; ++i) CHECK(near(in(e.sizes[i].energy, units::dollar_per_year), published[i], 0.05));
}

TEST_CASE("best bore of a steel main [Coulson & Richardson vol. 6, economic pipe diameter, from memory]") {
  // The book's relation for turbulent flow in commercial pipe, d in mm, G in kg/s, friction factor after Genereaux
  // (0.16 Re^-0.16): d = (2e11 H p G^2.84 mu^0.16 rho^-2 / (E n B (a + b)))^(1/(4.84 + n)), the installed cost being
  // B d^n per metre and a + b the share of capital charged per year. Costs here are invented. That factor is some 20 %
  // above Colebrook-White for clean steel of this size, whose 1/5.4th power is 3 %; its slope adds 0.5 %.
  const double n = 0.55, B = 60.0, a_b = capital_recovery(0.1, 5.0), hours = 8000.0, price = 0.055, efficiency = 0.5;
  for (const double G : {3.0, 10.0, 30.0}) {
    const double d_mm =
        std::pow(2e11 * hours * price * std::pow(G, 2.84) * std::pow(1e-3, 0.16) * 1e-6 / (efficiency * n * B * a_b),
                 1.0 / (4.84 + n));
    std::vector<PipeOffer> offers;
    for (double d = 0.5 * d_mm; d < 2.0 * d_mm; d *= 1.002)
      offers.push_back({d * units::millimetre, 100.0 * B * std::pow(d, n) * units::dollar});
    const Pumping pumping{.pump_efficiency = efficiency,
                          .motor_efficiency = 1.0,
                          .running_per_year = hours * units::hour,
                          .price = price * units::dollar_per_kilowatt_hour};
    const EconomicPipe e =
        economic_pipe(steel(100_m), offers, G * units::litre_per_second, 1e-6_m2_s, 1000_kg_m3, pumping, 0.1, 5.0);
    CHECK(near(in(e.sizes[e.best].bore, units::millimetre), d_mm, 0.04));
  }
}
