#include "theca/study/uncertain_assessment.hpp"

#include <algorithm>
#include <cmath>

#include "support/near.hpp"
#include "theca/study/design_file.hpp"

using namespace theca;
using namespace theca::study;
using test::near;
using test::within;

namespace {
const Design& demo() {
  static const Design design = read_design(THECA_DEMO_TOML);
  return design;
}
Measure value_of(std::string_view key) {
  for (const DesignInput& input : design_inputs(demo()))
    if (input.key == key) return input.value;
  return {};
}
Measure times(const Measure& m, double factor) { return {factor * m.si_value, m.si_unit}; }

/// An input that may be `low` to `high` times what the demo states, all as likely.
UncertainInput between(const std::string& key, double low, double high) {
  return {key,
          {.kind = DistributionKind::uniform, .first = times(value_of(key), low), .last = times(value_of(key), high)}};
}
const CheckOdds& of(const UncertainAssessment& result, std::string_view name) {
  return *std::find_if(result.checks.begin(), result.checks.end(), [&](const CheckOdds& c) { return c.name == name; });
}
const std::string cost = "farm: cost per fragment";
}  // namespace

TEST_CASE(
    "uncertain design: cost per fragment against an uncertain price fails with the probability of the price alone") {
  // utilisation is cost / price and the cost does not depend on the price: it fails for prices under the cost
  const auto nominal = assess(demo()).at(cost);
  const std::vector<UncertainInput> inputs{
      between("money.price", 0.5 * nominal.utilisation, 1.5 * nominal.utilisation)};
  const auto result = uncertain_assessment(demo(), inputs, {SamplingKind::sobol, 64, 1});
  CHECK(result.samples == 64);
  CHECK(result.refused.empty());
  const CheckOdds& odds = of(result, cost);
  CHECK(odds.judged == 64);
  CHECK(odds.nominal_utilisation == nominal.utilisation);
  CHECK(within(odds.failing, 0.5, 1.0 / 64.0));
  CHECK(within(odds.median, 1.0, 0.03));
  CHECK(odds.lowest <= odds.low);
  CHECK(odds.low < odds.median);
  CHECK(odds.high <= odds.highest);
  // what the price does not touch does not vary
  for (const CheckOdds& other : result.checks) {
    if (other.judged == 0 || other.name.rfind("structure", 0) != 0) continue;
    CHECK(other.lowest == other.highest);
  }
}

TEST_CASE("uncertain design: any number of threads gives the same result") {
  const std::vector<UncertainInput> inputs{between("production.growth_rate", 0.7, 1.4),
                                           between("production.survival", 0.8, 1.1)};
  const Sampling sampling{SamplingKind::random, 12, 3};
  const auto one = uncertain_assessment(demo(), inputs, sampling, 1);
  const auto three = uncertain_assessment(demo(), inputs, sampling, 3);
  REQUIRE(one.checks.size() == three.checks.size());
  for (std::size_t i = 0; i < one.checks.size(); ++i) {
    CHECK(one.checks[i].failing == three.checks[i].failing);
    CHECK(one.checks[i].median == three.checks[i].median);
    CHECK(one.checks[i].highest == three.checks[i].highest);
  }
}

TEST_CASE("uncertain design: a sample that is no design is recorded with its reason and stops nothing") {
  // survival is at most 1, and half of these samples are above
  const double survival = value_of("production.survival").si_value;
  const std::vector<UncertainInput> inputs{between("production.survival", 0.9 / survival, 1.1 / survival)};
  const auto result = uncertain_assessment(demo(), inputs, {SamplingKind::sobol, 16, 1});
  CHECK(result.refused.size() == 8);
  CHECK(result.refused.front().reason.find("survival") != std::string::npos);
  CHECK(of(result, cost).judged == 8);
  CHECK_THROWS_AS(check_sensitivities(demo(), inputs, {SamplingKind::sobol, 8, 1}), InvalidInput);
}

TEST_CASE("uncertain design: a cost that follows growth alone has growth as its only deciding input") {
  const std::vector<UncertainInput> inputs{between("production.growth_rate", 0.8, 1.25),
                                           between("chemistry.mixing_vat", 0.9, 1.1)};
  const auto sensitivities = check_sensitivities(demo(), inputs, {SamplingKind::sobol, 32, 1}, 2);
  const auto found = std::find_if(sensitivities.begin(), sensitivities.end(),
                                  [](const CheckSensitivity& s) { return s.name == cost; });
  REQUIRE(found != sensitivities.end());
  CHECK(near(found->indices.total[0], 1.0, 0.25));
  CHECK(found->indices.total[1] == 0.0);
}

TEST_CASE("uncertain design: no inputs, one input twice, no threads are refused") {
  const UncertainInput growth = between("production.growth_rate", 0.8, 1.25);
  const std::vector<UncertainInput> none, twice{growth, growth}, once{growth};
  const Sampling sampling{SamplingKind::sobol, 4, 1};
  CHECK_THROWS_AS(uncertain_assessment(demo(), none, sampling), InvalidInput);
  CHECK_THROWS_AS(uncertain_assessment(demo(), twice, sampling), InvalidInput);
  CHECK_THROWS_AS(uncertain_assessment(demo(), once, sampling, 0), InvalidInput);
}
