// Measured weirs: limits, inverses, and what lies outside the fit.
#include "theca/hydraulics/thin_plate_weir.hpp"

#include <limits>

#include "support/near.hpp"

using namespace theca;
using namespace theca::hydraulics;
using test::contains;
using test::message_of;
using test::near;

namespace {
const ThinPlateWeir plate{.crest_length = 0.3_m, .channel_width = 0.6_m, .crest_height = 0.4_m};
const VNotch notch{.opening = 90.0 * units::degree, .notch_height = 0.4_m};
const CombWeir comb{
    .slots = 20, .slot_width = 6.0 * units::millimetre, .tooth_width = 4.0 * units::millimetre, .slot_height = 0.03_m};
const BroadCrest crest{.crest_length = 0.5_m, .crest_breadth = 0.5_m, .crest_height = 0.5_m};
const double not_a_number = std::numeric_limits<double>::quiet_NaN();
}  // namespace

TEST_CASE("measured weirs: the head of a flow is that which passes it [inverse]") {
  for (const double mm : {2.0, 10.0, 40.0, 100.0}) {
    CAPTURE(mm);
    const Length h = mm * units::millimetre;
    CHECK(near(thin_plate_weir_head(plate, thin_plate_weir_flow(plate, h).flow), h, 1e-12));
    CHECK(near(v_notch_head(notch, v_notch_flow(notch, h).flow), h, 1e-12));
    CHECK(near(broad_crest_head(crest, broad_crest_flow(crest, h).flow), h, 1e-12));
    if (h <= comb.slot_height) CHECK(near(comb_weir_head(comb, comb_weir_flow(comb, h).flow), h, 1e-12));
  }
  CHECK(si(v_notch_head(notch, VolumeFlow())) == 0.0);
  CHECK(si(thin_plate_weir_head(plate, VolumeFlow())) == 0.0);
}

TEST_CASE("measured weirs: a dry crest passes nothing and flow rises with head") {
  double last_plate = -1.0, last_notch = -1.0;
  for (int i = 0; i <= 100; ++i) {
    const Length h = i * units::millimetre;
    const double p = si(thin_plate_weir_flow(plate, h).flow), v = si(v_notch_flow(notch, h).flow);
    CHECK(p > last_plate);
    CHECK(v > last_notch);
    if (i == 0) CHECK((p == 0.0 && v == 0.0));
    last_plate = p;
    last_notch = v;
  }
}

TEST_CASE("measured weirs: narrower than the channel passes less per crest length") {
  double last = 0.0;
  for (const double share : {0.1, 0.3, 0.5, 0.7, 0.9}) {
    const ThinPlateWeir w{.crest_length = share * 2.0_m, .channel_width = 2.0_m, .crest_height = 0.2_m};
    const double per_width = si(thin_plate_weir_flow(w, 0.2_m).flow) / (share * 2.0);
    // Narrow crests gain from kb; taken off, contraction only lessens the flow.
    const double without = per_width * share * 2.0 / (share * 2.0 + 0.0045);
    CHECK(without > last);
    last = without;
  }
}

TEST_CASE("measured weirs: only what was measured is called fitted") {
  CHECK(thin_plate_weir_flow(plate, 0.03_m).in_fitted_range);
  CHECK_FALSE(thin_plate_weir_flow(plate, 0.029_m).in_fitted_range);
  CHECK(thin_plate_weir_flow(plate, 0.029_m).spread == spread_outside_fit);
  CHECK(thin_plate_weir_flow(plate, 0.5_m).spread == 0.02);
  CHECK(v_notch_flow(notch, 0.1_m).in_fitted_range);
  CHECK_FALSE(v_notch_flow(notch, 0.2_m).in_fitted_range);  // over 0.4 of the notch's height
  CHECK_FALSE(comb_weir_flow(comb, 0.02_m).in_fitted_range);
  CHECK(broad_crest_flow(crest, 0.1_m).in_fitted_range);
  CHECK_FALSE(broad_crest_flow(crest, 0.05_m).in_fitted_range);
}

TEST_CASE("measured weirs: impossible input is named") {
  CHECK(contains(message_of<InvalidInput>([] { thin_plate_weir_flow({0_m, 1_m, 1_m}, 0.1_m); }), "crest length"));
  CHECK(contains(message_of<InvalidInput>([] { thin_plate_weir_flow({2_m, 1_m, 1_m}, 0.1_m); }), "channel width"));
  CHECK(contains(message_of<InvalidInput>([] {
                   thin_plate_weir_flow({1_m, 1_m, not_a_number * units::metre}, 0.1_m);
                 }),
                 "crest height"));
  CHECK(contains(message_of<InvalidInput>([] { thin_plate_weir_flow(plate, -0.1_m); }), "head"));
  CHECK(contains(message_of<OutOfValidity>([] { thin_plate_weir_flow(plate, 1.01_m); }), "head"));
  CHECK(contains(message_of<OutOfValidity>([] { thin_plate_weir_head(plate, 9.0 * units::cubic_metre_per_second); }),
                 "flow"));
  CHECK(contains(message_of<InvalidInput>([] { rehbock_weir_flow(plate, 0.1_m); }), "channel width"));
  CHECK(contains(message_of<OutOfValidity>([] { rehbock_weir_flow({1_m, 1_m, 0.1_m}, 0.11_m); }), "head"));
  CHECK(contains(message_of<OutOfValidity>([] { v_notch_flow({120.0 * units::degree, 0.4_m}, 0.1_m); }), "opening"));
  CHECK(contains(message_of<InvalidInput>([] { v_notch_flow({90.0 * units::degree, 0_m}, 0.1_m); }), "notch height"));
  CHECK(contains(message_of<InvalidInput>([] { v_notch_head(notch, not_a_number * units::gpm); }), "flow"));
  CHECK(contains(message_of<InvalidInput>([] { comb_weir_flow({0, 1_m, 1_m, 1_m}, 0.1_m); }), "slots"));
  CHECK(contains(message_of<InvalidInput>([] {
                   comb_weir_flow({1, 1_m, -1.0 * units::metre, 1_m}, 0.1_m);
                 }),
                 "tooth width"));
  CHECK(contains(message_of<OutOfValidity>([] { comb_weir_flow(comb, 0.031_m); }), "head"));
  CHECK(contains(message_of<InvalidInput>([] { comb_weir_head(comb, -1.0 * units::gpm); }), "flow"));
  CHECK(contains(message_of<InvalidInput>([] { broad_crest_head(crest, -1.0 * units::gpm); }), "flow"));
  CHECK(contains(message_of<OutOfValidity>([] { comb_weir_head(comb, 1.0 * units::cubic_metre_per_second); }), "flow"));
  CHECK(contains(message_of<InvalidInput>([] { broad_crest_flow({1_m, 0_m, 1_m}, 0.1_m); }), "crest breadth"));
  CHECK(contains(message_of<OutOfValidity>([] { broad_crest_flow(crest, 0.17_m); }), "head"));
  CHECK(contains(message_of<OutOfValidity>([] { broad_crest_head(crest, 1.0 * units::cubic_metre_per_second); }),
                 "flow"));
}
