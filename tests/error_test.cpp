#include "theca/error.hpp"

#include <limits>

#include "support/near.hpp"
#include "theca/require.hpp"

using namespace theca;
using theca::test::message_of;

namespace {
const double not_a_number = std::numeric_limits<double>::quiet_NaN();
const double infinity = std::numeric_limits<double>::infinity();
}  // namespace

TEST_CASE("InvalidInput names the argument, its value with unit and the accepted range") {
  CHECK(message_of<InvalidInput>([] { require::positive("water depth", -0.2_m); }) ==
        "water depth = -0.2 m is not accepted; expected > 0 and finite");
  CHECK(message_of<InvalidInput>([] { require::within("tilt", 91_deg, 0_deg, 90_deg); }) ==
        "tilt = 1.58825 rad is not accepted; expected 0 rad to 1.5708 rad");
  CHECK(message_of<InvalidInput>([] { require::within("room temperature", 150_degF, 0_degC, 50_degC); }) ==
        "room temperature = 65.5556 degC is not accepted; expected 0 degC to 50 degC");
  CHECK(message_of<InvalidInput>([] { require::within("salinity", 60_ppt, 0_ppt, 42_ppt); }) ==
        "salinity = 60 g/kg is not accepted; expected 0 g/kg to 42 g/kg");
  try {
    require::not_negative("flow", -1_gph);
    FAIL("not refused");
  } catch (const InvalidInput& e) {
    CHECK(e.argument() == "flow");
    CHECK(e.value() == "-1.0515e-06 m3/s");
    CHECK(e.accepted() == ">= 0 and finite");
  }
}

TEST_CASE("guards refuse NaN and infinity, and accept their closed ends") {
  for (const double bad : {not_a_number, infinity, -infinity}) {
    CHECK_THROWS_AS(require::finite("x", bad), InvalidInput);
    CHECK_THROWS_AS(require::positive("x", bad), InvalidInput);
    CHECK_THROWS_AS(require::not_negative("x", bad * units::metre), InvalidInput);
    CHECK_THROWS_AS(require::within("x", bad, 0.0, 1.0), InvalidInput);
    CHECK_THROWS_AS(require::valid("fit", "x", bad, 0.0, 1.0), OutOfValidity);
  }
  CHECK_THROWS_AS(require::positive("x", 0.0), InvalidInput);
  CHECK_NOTHROW(require::not_negative("x", 0.0));
  CHECK_NOTHROW(require::within("x", 1.0, 0.0, 1.0));
  CHECK_NOTHROW(require::within("x", 0_m, 0_m, 1_m));
}

TEST_CASE("OutOfValidity names the correlation and its range") {
  CHECK(message_of<OutOfValidity>([] { require::valid("Francis 1855", "weir head", 30_cm, 0_cm, 20_cm); }) ==
        "outside the range of Francis 1855: weir head = 0.3 m, fitted for 0 m to 0.2 m");
}

TEST_CASE("NotConverged and ParseError carry their facts") {
  const NotConverged n("duty point", 1e-3, 50);
  CHECK(std::string(n.what()) == "duty point did not converge: residual 0.001 after 50 iterations");
  CHECK(n.iterations() == 50);
  const ParseError p("farm.toml", 12, 5, "expected a length such as \"1.40 m\"");
  CHECK(std::string(p.what()) == "farm.toml:12:5: expected a length such as \"1.40 m\"");
  CHECK(p.line() == 12);
  CHECK(p.column() == 5);
  CHECK(std::string(ParseError("", 0, 0, "expected a number").what()) == "input: expected a number");
}
