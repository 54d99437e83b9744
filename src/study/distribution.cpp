#include "theca/study/distribution.hpp"

#include <algorithm>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/triangular.hpp>
#include <cmath>

#include "theca/require.hpp"

namespace theca::study {
namespace {

/// The part of a normal distribution between two cuts, at a probability of its own.
double cut_normal(double mean, double deviation, double first, double last, double probability) {
  const boost::math::normal_distribution<double> whole(mean, deviation);
  // Far in the upper tail both cumulative probabilities round to one: work with the complement there.
  if (first > mean) {
    const double above_first = cdf(complement(whole, first)), above_last = cdf(complement(whole, last));
    return quantile(complement(whole, above_first + probability * (above_last - above_first)));
  }
  const double below_first = cdf(whole, first), below_last = cdf(whole, last);
  return quantile(whole, below_first + probability * (below_last - below_first));
}

void require_unit(const Distribution& d, std::string_view name, const Measure& m) {
  if (m.si_unit != d.first.si_unit)
    throw InvalidInput(name, text(m.si_value, m.si_unit), "in the unit of the first, \"" + d.first.si_unit + '"');
  require::finite(name, m.si_value);
}

void require_middle(const Distribution& d) {
  require_unit(d, "middle of the distribution", d.middle);
  require::within("middle of the distribution", d.middle.si_value, d.first.si_value, d.last.si_value);
}

double si_quantile(const Distribution& d, double probability) {
  const double first = d.first.si_value, last = d.last.si_value, middle = d.middle.si_value;
  switch (d.kind) {
    case DistributionKind::uniform:
      return first + probability * (last - first);
    case DistributionKind::triangular:
      require_middle(d);
      return quantile(boost::math::triangular_distribution<double>(first, middle, last), probability);
    case DistributionKind::normal:
      require_middle(d);
      require_unit(d, "spread of the distribution", d.spread);
      require::positive("spread of the distribution", d.spread.si_value);
      return cut_normal(middle, d.spread.si_value, first, last, probability);
    case DistributionKind::lognormal:
      require_middle(d);
      require::positive("first value of a lognormal distribution", first);
      require::positive("log spread of the distribution", d.log_spread);
      return std::exp(cut_normal(std::log(middle), d.log_spread, std::log(first), std::log(last), probability));
  }
  throw InvalidInput("kind of distribution", std::to_string(static_cast<int>(d.kind)), "one of the enumeration");
}

}  // namespace

Measure quantile(const Distribution& d, double probability) {
  require::within("probability", probability, 0.0, 1.0);
  require::finite("first value of the distribution", d.first.si_value);
  require_unit(d, "last value of the distribution", d.last);
  require::that(d.last.si_value > d.first.si_value, "last value of the distribution", d.last.si_value,
                "above the first, " + number(d.first.si_value, 6));
  // a rounding at an end must not leave the range
  const double x = std::clamp(si_quantile(d, probability), d.first.si_value, d.last.si_value);
  return {x, d.first.si_unit, x, d.first.si_unit};
}

}  // namespace theca::study
