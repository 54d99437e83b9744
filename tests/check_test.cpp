#include "theca/check.hpp"

#include <limits>

#include "support/near.hpp"
#include "theca/error.hpp"
#include "theca/require.hpp"

using namespace theca;

namespace {
Check check(double demand, double capacity, double uncertainty) {
  return make_check({.name = "a", .question = "b", .where = "c", .source = "d", .caution = "e"},
                    measure(demand * units::metre, units::inch), measure(capacity * units::metre, units::inch),
                    uncertainty);
}
}  // namespace

TEST_CASE("a check holds, is marginal within the model's uncertainty, or fails") {
  CHECK(check(0.5, 1.0, 0.2).verdict == Verdict::holds);
  CHECK(check(0.80, 1.0, 0.2).verdict == Verdict::holds);
  CHECK(check(0.90, 1.0, 0.2).verdict == Verdict::marginal);
  CHECK(check(1.0, 1.0, 0.0).verdict == Verdict::holds);
  CHECK(check(1.0001, 1.0, 0.2).verdict == Verdict::fails);
  CHECK(check(0.5, 1.0, 0.2).utilisation == 0.5);
}

TEST_CASE("a check without capacity fails, one without demand holds, and neither divides by zero") {
  CHECK(check(1.0, 0.0, 0.0).verdict == Verdict::fails);
  CHECK(std::isfinite(check(1.0, 0.0, 0.0).utilisation));
  CHECK(check(0.0, 0.0, 0.0).verdict == Verdict::holds);
  CHECK(check(0.0, 0.0, 0.0).utilisation == 0.0);
}

TEST_CASE("a check refuses negative, infinite and unlike measures") {
  CHECK_THROWS_AS(check(-1.0, 1.0, 0.0), InvalidInput);
  CHECK_THROWS_AS(check(1.0, std::numeric_limits<double>::infinity(), 0.0), InvalidInput);
  CHECK_THROWS_AS(check(1.0, 1.0, -0.1), InvalidInput);
  CHECK_THROWS_AS(make_check({.name = "a"}, measure(1_m, units::inch), measure(1_kg, units::pound), 0.0), InvalidInput);
  const std::string negative = test::message_of<InvalidInput>([] { check(-1.5, 1.0, 0.0); });
  CHECK(test::contains(negative, "a: demand = -1.5 m"));
  const std::string unlike = test::message_of<InvalidInput>(
      [] { make_check({.name = "a"}, measure(2_m, units::inch), measure(1_kg, units::pound), 0.0); });
  CHECK(test::contains(unlike, "2 m"));
  CHECK(test::contains(unlike, "kg"));
}

TEST_CASE("numbers read without an exponent from 0.0001 to a million, rounded to the digits asked for") {
  CHECK(number(10234.0) == "10230");
  CHECK(number(999949.0) == "999900");
  CHECK(number(999960.0) == "1e+06");
  CHECK(number(9999.6) == "10000");
  CHECK(number(-12345.0, 2) == "-12000");
  CHECK(number(0.0001799123) == "0.0001799");
  CHECK(number(8.0, 3) == "8");
  CHECK(number(0.0) == "0");
  CHECK(number(-std::numeric_limits<double>::infinity()) == "-inf");
  CHECK_THROWS_AS(number(1.0, 0), InvalidInput);
}

TEST_CASE("measures print the grower's unit with SI beside it") {
  CHECK(text(measure(14_in, units::inch)) == "14 in (0.3556 m)");
  CHECK(text(measure(0.17992 * units::one, units::percent)) == "17.99 %");
  CHECK(text(measure(10234_gph, units::gph)) == "10230 gph (0.01076 m3/s)");
  CHECK(text(measure(60.0, "slots")) == "60 slots");
  CHECK(text(measure(3.0)) == "3");
  CHECK(text(measure(2_m, units::metre)) == "2 m");
}

TEST_CASE("outside validity gives no verdict on the design and says why") {
  const Check c = outside_validity({.name = "a", .caution = "Mind the glass."}, "The deflection is large.");
  CHECK(c.verdict == Verdict::outside_validity);
  CHECK(c.caution == "The deflection is large. Mind the glass.");
}
