#include "theca/study/distribution.hpp"

#include <cmath>
#include <limits>

#include "support/near.hpp"

using namespace theca;
using namespace theca::study;
using test::near;
using test::within;

namespace {
Measure metres(double x) { return {x, "m", x, "m"}; }
constexpr auto infinity = std::numeric_limits<double>::max();
}  // namespace

TEST_CASE("distributions: the quantiles of a uniform and a triangular distribution [closed forms]") {
  const Distribution flat{.kind = DistributionKind::uniform, .first = metres(2.0), .last = metres(6.0)};
  CHECK(near(quantile(flat, 0.25).si_value, 3.0, 1e-15));
  CHECK(quantile(flat, 0.0).si_value == 2.0);
  CHECK(quantile(flat, 1.0).si_value == 6.0);
  CHECK(quantile(flat, 0.5).si_unit == "m");
  const Distribution peaked{
      .kind = DistributionKind::triangular, .first = metres(0.0), .last = metres(4.0), .middle = metres(1.0)};
  CHECK(near(quantile(peaked, 0.25).si_value, 1.0, 1e-12));  // a quarter lies under the mode
  CHECK(near(quantile(peaked, 0.16).si_value, 0.8, 1e-12));  // x^2/4
  CHECK(near(quantile(peaked, 0.75).si_value, 4.0 - std::sqrt(3.0), 1e-12));
}

TEST_CASE("distributions: a normal distribution cut far out is the whole one [tables: 1.644854, 1.959964]") {
  const Distribution d{.kind = DistributionKind::normal,
                       .first = metres(-100.0),
                       .last = metres(120.0),
                       .middle = metres(10.0),
                       .spread = metres(2.0)};
  CHECK(within(quantile(d, 0.95).si_value, 10.0 + 2.0 * 1.644854, 2e-6));
  CHECK(within(quantile(d, 0.025).si_value, 10.0 - 2.0 * 1.959964, 2e-6));
}

TEST_CASE("distributions: a cut normal distribution keeps its shape between the cuts") {
  // half of what lies over the mean, cut there: the median is the 75 % quantile of the whole, 0.674490 (tables)
  const Distribution d{.kind = DistributionKind::normal,
                       .first = metres(0.0),
                       .last = metres(50.0),
                       .middle = metres(0.0),
                       .spread = metres(1.0)};
  CHECK(within(quantile(d, 0.5).si_value, 0.674490, 1e-6));
  CHECK(quantile(d, 0.0).si_value >= 0.0);
}

TEST_CASE("distributions: a lognormal with ln(2)/1.96 reaches twice and half of its median at 2.5 % either side") {
  const Distribution d{.kind = DistributionKind::lognormal,
                       .first = metres(1e-6),
                       .last = metres(1e9),
                       .middle = metres(3.0),
                       .log_spread = std::log(2.0) / 1.959964};
  CHECK(near(quantile(d, 0.5).si_value, 3.0, 1e-9));
  CHECK(near(quantile(d, 0.975).si_value, 6.0, 1e-6));
  CHECK(near(quantile(d, 0.025).si_value, 1.5, 1e-6));
}

TEST_CASE("distributions: what is no distribution is refused by name") {
  const auto refused = [](const Distribution& d, double p = 0.5) {
    return test::message_of<InvalidInput>([&] { quantile(d, p); });
  };
  const Distribution flat{.first = metres(2.0), .last = metres(6.0)};
  CHECK(refused(flat, 1.5).find("probability") != std::string::npos);
  CHECK(refused({.first = metres(2.0), .last = metres(2.0)}).find("last") != std::string::npos);
  CHECK(refused({.first = metres(2.0), .last = {3.0, "kg"}}).find("last") != std::string::npos);
  CHECK(refused({.first = metres(std::nan("")), .last = metres(3.0)}).find("first") != std::string::npos);
  Distribution normal{.kind = DistributionKind::normal,
                      .first = metres(0.0),
                      .last = metres(3.0),
                      .middle = metres(1.0),
                      .spread = metres(0.0)};
  CHECK(refused(normal).find("spread") != std::string::npos);
  normal.middle = metres(5.0);
  CHECK(refused(normal).find("middle") != std::string::npos);
  Distribution log{.kind = DistributionKind::lognormal,
                   .first = metres(0.0),
                   .last = metres(infinity),
                   .middle = metres(1.0),
                   .log_spread = 0.3};
  CHECK(refused(log).find("first") != std::string::npos);
}
