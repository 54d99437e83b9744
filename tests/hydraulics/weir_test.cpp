#include "theca/hydraulics/weir.hpp"

#include <limits>

#include "dual.hpp"
#include "support/near.hpp"

using namespace theca;
using namespace theca::hydraulics;
using test::contains;
using test::message_of;
using test::near;

namespace {
const double not_a_number = std::numeric_limits<double>::quiet_NaN();
}

TEST_CASE("weir: head from flow is the inverse of flow from head, from a film to a third of the crest") {
  for (const int contractions : {0, 1, 2}) {
    const Weir weir{.crest_length = 10_in, .end_contractions = contractions};
    for (double part = 1e-6; part <= 1.0; part *= 1.3) {
      const Length h = part / 3.0 * weir.crest_length;
      CHECK(near(weir_head(weir, weir_flow(weir, h)), h, 1e-13));
    }
    CHECK(near(weir_head(weir, weir_flow(weir, weir.crest_length / 3.0)), weir.crest_length / 3.0, 1e-13));
    CHECK(si(weir_head(weir, 0_gph)) == 0.0);
    CHECK(si(weir_flow(weir, 0_m)) == 0.0);
  }
}

TEST_CASE("weir: each contraction takes a tenth of the head off the crest [Francis 1855]") {
  const Length h = 50_mm;
  const auto flow = [&](double crest_mm, int n) {
    return weir_flow({.crest_length = crest_mm * units::millimetre, .end_contractions = n}, h);
  };
  CHECK(near(flow(500, 2), flow(490, 0), 1e-14));
  CHECK(near(flow(500, 1), flow(495, 0), 1e-14));
}

TEST_CASE("weir: crest for a flow at a head gives that flow") {
  const Length crest = weir_crest_for(800_gph, 12_mm, 2);
  CHECK(near(weir_flow({.crest_length = crest, .end_contractions = 2}, 12_mm), 800_gph, 1e-13));
}

TEST_CASE("weir: the range of the formula can be asked") {
  const Weir weir{.crest_length = 10_in};
  CHECK_FALSE(weir_in_fitted_range(weir, 15_mm));
  CHECK(weir_in_fitted_range(weir, 30_mm));
  CHECK_FALSE(weir_in_fitted_range(weir, 86_mm));
}

TEST_CASE("weir kernel: slope of flow to head, without contractions, is 1.5 Q/H [calculus]") {
  const auto q = kernel::weir_flow(test::Dual(0.3), 0, test::Dual(0.02, 1.0));
  CHECK(near(q.d, 1.5 * q.v / 0.02, 1e-14));
}

TEST_CASE("weir: outside its range it is refused, bad input by name") {
  const Weir weir{.crest_length = 10_in};
  CHECK(contains(message_of<OutOfValidity>([&] { weir_flow(weir, 3.4_in); }), "weir head"));
  CHECK(contains(message_of<OutOfValidity>([&] { weir_head(weir, 1e5_gph); }), "flow"));
  CHECK(contains(message_of<OutOfValidity>([&] { weir_crest_for(10_gph, 50_mm, 2); }), "weir head"));
  CHECK(contains(message_of<InvalidInput>([&] { weir_flow(weir, -1_mm); }), "weir head"));
  CHECK(contains(message_of<InvalidInput>([&] { weir_flow(weir, from_si<Length>(not_a_number)); }), "weir head"));
  CHECK(contains(message_of<InvalidInput>([&] { weir_head(weir, -1_gph); }), "flow"));
  CHECK(contains(message_of<InvalidInput>([&] { weir_flow({.crest_length = 0_in}, 1_mm); }), "crest length"));
  CHECK(contains(message_of<InvalidInput>([&] { weir_flow({.crest_length = 1_in, .end_contractions = 3}, 1_mm); }),
                 "end contractions"));
  CHECK(contains(message_of<InvalidInput>([&] { weir_crest_for(0_gph, 1_mm, 2); }), "flow"));
  CHECK(contains(message_of<InvalidInput>([&] { weir_crest_for(1_gph, 0_mm, 2); }), "weir head"));
  CHECK(contains(message_of<InvalidInput>([&] { weir_crest_for(1_gph, 1_mm, -1); }), "end contractions"));
  CHECK(contains(message_of<InvalidInput>([&] { weir_in_fitted_range(weir, from_si<Length>(not_a_number)); }), "head"));
}
