#include "theca/thermal/heater_odds.hpp"

#include <algorithm>
#include <boost/math/distributions/normal.hpp>
#include <cmath>

#include "theca/require.hpp"

namespace theca::thermal {

Temperature cold_design_temperature(const Temperature& mean, const TemperatureDifference& deviation,
                                    double probability) {
  require::not_negative("standard deviation", deviation);
  require::that(probability > 0.0 && probability < 1.0, "probability", probability, "> 0 and < 1");
  const double kelvin =
      si(mean) + si(deviation) * boost::math::quantile(boost::math::normal_distribution<>(), probability);
  require::that(std::isfinite(kelvin) && kelvin > 0.0, "mean temperature", si(mean),
                "one that leaves the design temperature above absolute zero");
  return from_si<Temperature>(kelvin);
}

HeaterForOdds heater_for_odds(const std::vector<DesignDay>& days, const Water& set_point, double probability) {
  require::that(!days.empty(), "number of days", 0.0, "1 or more");
  require::that(probability >= 0.0 && probability < 1.0, "probability", probability, "0 to less than 1");
  HeaterForOdds result;
  for (const DesignDay& day : days) result.need.push_back(system_balance(day.system, set_point, day.room).heating);
  std::vector<Power> sorted = result.need;
  std::sort(sorted.begin(), sorted.end());
  // As many days as the probability allows may need more; a share that is whole but for rounding is whole.
  const double count = static_cast<double>(sorted.size());
  const auto allowed = static_cast<std::size_t>(std::floor(probability * count * (1.0 + 1e-12)));
  result.power = sorted[sorted.size() - 1 - allowed];
  result.worst = sorted.back();
  result.days_cold = static_cast<double>(std::count_if(sorted.begin(), sorted.end(),
                                                       [&](const Power& need) { return need > result.power; })) /
                     count;
  return result;
}

}  // namespace theca::thermal
