// Light lost in clear water against the tables of the sources.
#include "theca/seawater/light_loss.hpp"

#include "support/near.hpp"
#include "theca/error.hpp"

using namespace theca;
using namespace theca::seawater;
using namespace theca::literals;
using test::near;

TEST_CASE("absorption: 0.00922, 0.0565 and 0.340 1/m at 450, 550 and 650 nm [Pope & Fry 1997]") {
  CHECK(near(si(absorption(450_nm)), 0.00922, 1e-12));
  CHECK(near(si(absorption(550_nm)), 0.0565, 1e-12));
  CHECK(near(si(absorption(650_nm)), 0.340, 1e-12));
  // Straight between, as the package planarradpy has them at odd wavelengths.
  CHECK(near(si(absorption(420.20202020202_nm)), 0.00454828293637, 2e-6));
  CHECK(near(si(absorption(581.818181818182_nm)), 0.09787272594192, 2e-6));
  CHECK(near(si(absorption(666.666666666667_nm)), 0.42933333913485, 2e-6));
  CHECK(near(si(absorption(700_nm)), 0.624, 1e-12));
  CHECK(si(absorption(380_nm)) > 0.0);
  CHECK_THROWS_AS(absorption(379_nm), OutOfValidity);
  CHECK_THROWS_AS(absorption(701_nm), OutOfValidity);
}

TEST_CASE("scattering: within 2 % of the table of pure sea water [package planarradpy]") {
  CHECK(near(si(scattering(380_nm)), 0.0094102446, 0.02));
  CHECK(near(si(scattering(450_nm)), 0.0045558748, 0.02));
  CHECK_THROWS_AS(scattering(200_nm), OutOfValidity);
}
