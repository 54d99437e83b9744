// The farm checks: verdicts on both sides of each criterion, the caution that travels with them, units shown.
#include "theca/farm/checks.hpp"

#include <array>
#include <vector>

#include "support/near.hpp"

using namespace theca;
using namespace theca::farm;
using namespace theca::literals;
using test::contains;
using test::message_of;
using test::near;

namespace {
void complete(const Check& c) {
  CHECK_FALSE(c.name.empty());
  CHECK(contains(c.name, "farm: "));
  CHECK_FALSE(c.question.empty());
  CHECK_FALSE(c.source.empty());
  CHECK_FALSE(c.caution.empty());
  CHECK_FALSE(contains(c.caution + c.question + c.source, "safe"));
}
const Stance stance{.shoulder_stand_off = 4_in};
RackSection tank(Length width) {
  return {.outside_width = width,
          .wall_thickness = 12_mm,
          .rim_height = 40_in,
          .rim_brace_width = 0_in,
          .plane_height = 36_in};
}
}  // namespace

TEST_CASE("reach check: a narrow tank holds, a wide one fails, one side is worse than both") {
  const Body small = pheasant_female_5();
  const Check narrow = reach_check("T1", small, tank(16_in), OpenSides::both, stance);
  const Check wide = reach_check("T1", small, tank(48_in), OpenSides::one, stance);
  complete(narrow);
  CHECK(narrow.verdict == Verdict::holds);
  CHECK(wide.verdict == Verdict::fails);
  CHECK(contains(wide.where, "T1"));
  CHECK(wide.demand.shown_unit == "in");
  CHECK(near(wide.capacity.shown_value, 21.9, 1e-9));
  CHECK(reach_check("T1", small, tank(24_in), OpenSides::one, stance).utilisation >
        reach_check("T1", small, tank(24_in), OpenSides::both, stance).utilisation);
  CHECK(contains(wide.caution, "rim"));
}

TEST_CASE("reach check: the verdict agrees with the share that is reached") {
  for (double width = 10.0; width < 50.0; width += 2.5) {
    const RackSection t = tank(width * units::inch);
    const bool whole = reach_up_to(pheasant_female_5(), t, OpenSides::one, stance, 20_deg).share > 1.0 - 1e-9;
    CHECK(whole == (reach_check("", pheasant_female_5(), t, OpenSides::one, stance).verdict != Verdict::fails));
  }
}

TEST_CASE("work height check: holds within the tolerance of the band, fails beyond it") {
  const Body body = pheasant_female_5();
  const Check good = work_height_check("T1", body, 38.2_in - 8_cm, WorkKind::light);
  complete(good);
  CHECK(good.verdict == Verdict::holds);
  CHECK(work_height_check("T1", body, 38.2_in - 10_cm - 1.9_in, WorkKind::light).verdict == Verdict::holds);
  CHECK(work_height_check("T1", body, 38.2_in - 10_cm - 2.1_in, WorkKind::light).verdict == Verdict::fails);
  const Check top_tier = work_height_check("top", body, 54_in, WorkKind::light);
  CHECK(top_tier.verdict == Verdict::fails);
  CHECK(contains(top_tier.where, "above the elbow"));
  CHECK(contains(good.source, "Pheasant"));
  // A band of one's own, 1 to 3 in below an elbow at 38.2 in.
  const WorkHeightBand band{1_in, 3_in};
  CHECK(work_height_check("T1", body, 36_in, band).demand.si_value == 0.0);
  CHECK(near(work_height_check("T1", body, 34_in, band).demand.shown_value, 1.2, 1e-9));
  CHECK(work_height_check("T1", body, 33.1_in, band).verdict == Verdict::fails);
  CHECK(contains(work_height_check("T1", body, 36_in, band).source, "band from the input, 1 to 3 in"));
  CHECK(contains(message_of<InvalidInput>([&] {
                   work_height_check("T1", body, 36_in, WorkHeightBand{3_in, 1_in});
                 }),
                 "band"));
}

TEST_CASE("aisle, room, headroom and head clearance checks on both sides of the criterion") {
  const Strip aisle{StripKind::aisle, 48_in, "aisle 1"};
  complete(aisle_check(aisle));
  CHECK(aisle_check(aisle).verdict == Verdict::holds);
  CHECK(aisle_check({StripKind::aisle, 28.5_in, "a"}).verdict == Verdict::marginal);
  CHECK(aisle_check({StripKind::aisle, 27_in, "a"}).verdict == Verdict::fails);
  CHECK(aisle_check({StripKind::aisle, 34_in, "a"}, accessible_width).verdict == Verdict::fails);
  const Fit fits{230_in, 240_in, 10_in}, tight{240_in, 240_in, 0_in}, not_fits{250_in, 240_in, -10_in};
  complete(room_fit_check("across", fits));
  CHECK(room_fit_check("across", fits).verdict == Verdict::holds);
  CHECK(room_fit_check("across", tight).verdict == Verdict::marginal);
  CHECK(room_fit_check("across", not_fits).verdict == Verdict::fails);
  complete(headroom_check("beam", 84_in));
  CHECK(headroom_check("beam", 84_in).verdict == Verdict::holds);
  CHECK(headroom_check("beam", 79_in).verdict == Verdict::fails);
  const Check head = head_clearance_check("T1", pheasant_male_95(), 76.5_in);
  complete(head);
  CHECK(head.verdict == Verdict::holds);
  CHECK(contains(head.caution, "residual-current"));
  CHECK(head_clearance_check("T1", pheasant_male_95(), 58_in).verdict == Verdict::fails);
}

TEST_CASE("lifting check: the end with the lower limit governs, and a lift beyond the equation fails") {
  Lift lift{.origin = {15_in, 15_in, 0_deg}, .destination = {18_in, 48_in, 0_deg}, .rate = 0.0 * units::per_minute};
  const Check heavy = lifting_check("bucket", 44_lb, lift);
  complete(heavy);
  CHECK(heavy.verdict == Verdict::fails);
  CHECK(contains(heavy.where, "destination"));
  CHECK(heavy.demand.shown_unit == "lb");
  CHECK(contains(heavy.caution, "pump or a second person"));
  CHECK(lifting_check("bucket", 15_lb, lift).verdict == Verdict::holds);
  const Mass limit = recommended_weight_limits(lift).at_destination;
  CHECK(lifting_check("bucket", limit, lift).verdict == Verdict::marginal);
  lift.destination.horizontal = 30_in;
  CHECK(lifting_check("bucket", 1_lb, lift).verdict == Verdict::fails);
}

TEST_CASE("circuit check: 80 % of the breaker is its limit") {
  const Check c = circuit_check("lights 1", {.continuous = 1800_W}, 120_V, 20_A);
  complete(c);
  CHECK(c.verdict == Verdict::holds);
  CHECK(circuit_check("lights 1", {.continuous = 1920_W}, 120_V, 20_A).verdict == Verdict::marginal);
  CHECK(circuit_check("lights 1", {.continuous = 2000_W}, 120_V, 20_A).verdict == Verdict::fails);
  CHECK(contains(c.caution, "electrician"));
  CHECK(contains(c.source, "here 125 %"));
  const Check plain = circuit_check("lights 1", {.continuous = 2000_W}, 120_V, 20_A, 1.0, 1.0);
  CHECK(plain.verdict == Verdict::holds);
  CHECK(contains(plain.source, "here 100 %"));
  CHECK(contains(message_of<InvalidInput>([] { circuit_check("", {.continuous = 1_W}, 120_V, 20_A, 1.0, 0.8); }),
                 "continuous factor"));
}

TEST_CASE("alkalinity checks: swing between doses, and the level left after a failure") {
  // 0.24 mol/d of alkalinity in 1000 L: 0.24 meq/L = 0.673 dKH a day
  const MineralDemand d{from_si<MassFlow>(0.0), 0.24 * units::mole_per_day, 0.12 * units::mole_per_day};
  complete(alkalinity_swing_check("system", d, 1000_L, 1_d, 0.5_dKH));
  CHECK(alkalinity_swing_check("system", d, 1000_L, 1_d, 0.5_dKH).verdict == Verdict::fails);
  CHECK(alkalinity_swing_check("system", d, 1000_L, 16_h, 0.5_dKH).verdict == Verdict::marginal);
  CHECK(alkalinity_swing_check("system", d, 1000_L, 12_h, 0.5_dKH).verdict == Verdict::holds);
  const Check failure = dosing_failure_check("system", 8_dKH, d, 1000_L, 2_d, 7_dKH);
  complete(failure);
  CHECK(failure.verdict == Verdict::fails);  // 6.65 dKH
  CHECK(contains(failure.caution, "eyes and hands"));
  CHECK(contains(alkalinity_swing_check("system", d, 1000_L, 1_d, 0.5_dKH).caution, "eyes and hands"));
  CHECK(near(failure.capacity.shown_value, 8.0 - 2.0 * 0.24 * 2.80387, 1e-4));
  CHECK(dosing_failure_check("system", 8_dKH, d, 1000_L, 1.4_d, 7_dKH).verdict == Verdict::marginal);
  CHECK(dosing_failure_check("system", 8_dKH, d, 1000_L, 1_d, 7_dKH).verdict == Verdict::holds);
  CHECK(dosing_failure_check("system", 8_dKH, d, 1000_L, 60_d, 7_dKH).verdict == Verdict::fails);
}

TEST_CASE("oxygen check: hours to the limit against the power cut, with a factor of 1.5") {
  StillTank still{.water = 400_L,
                  .surface = 1.5_m2,
                  .transfer = from_si<Velocity>(0.0),
                  .saturation = 6.7 * units::milligram_per_litre,
                  .consumption = 0.108 * units::gram_per_hour};
  const auto check = [&](Time cut) {  // 400 L x 2.7 mg/L = 1.08 g: 10 h
    return oxygen_check("T1", still, 6.7 * units::milligram_per_litre, 4.0 * units::milligram_per_litre, cut);
  };
  complete(check(6_h));
  CHECK(contains(check(6_h).caution, "residual-current"));
  CHECK(check(6_h).verdict == Verdict::holds);
  CHECK(check(8_h).verdict == Verdict::marginal);
  CHECK(check(11_h).verdict == Verdict::fails);
  CHECK(near(check(6_h).capacity.shown_value, 10.0, 1e-9));
  still.consumption = from_si<MassFlow>(0.0);
  CHECK(check(11_h).verdict == Verdict::holds);
  CHECK(contains(check(11_h).where, "never"));
}

TEST_CASE("quarantine check: enough, hardly enough, too few; outside the measured temperatures no verdict") {
  const Frequency arrivals = 5.0 * units::per_day;
  complete(quarantine_check(arrivals, 40_d, 250));
  CHECK(contains(quarantine_check(arrivals, 40_d, 250).caution, "air the room"));
  CHECK_FALSE(contains(quarantine_check(arrivals, 40_d, 250).source, "Barton"));
  CHECK(contains(quarantine_check(arrivals, 27_degC, 250).source, "Barton"));
  CHECK(quarantine_check(arrivals, 40_d, 250).verdict == Verdict::holds);
  CHECK(quarantine_check(arrivals, 40_d, 210).verdict == Verdict::marginal);
  CHECK(quarantine_check(arrivals, 40_d, 190).verdict == Verdict::fails);
  CHECK(quarantine_check(arrivals, 27_degC, 250).verdict == Verdict::holds);  // 38 d
  CHECK(quarantine_check(arrivals, 24_degC, 250).verdict == Verdict::fails);  // 64 d
  const Check outside = quarantine_check(arrivals, 29_degC, 250);
  CHECK(outside.verdict == Verdict::outside_validity);
  CHECK(contains(outside.caution, "Barton"));
}

TEST_CASE("grazer, labour, cost and rotation checks on both sides of the criterion") {
  const MassFlux turf = 1.05 * units::gram_per_square_metre_day;
  const MassFlow each = 1.0 * units::gram_per_day;
  complete(grazer_check("T1", grazing(4_m2, turf, 2, each)));
  CHECK(grazer_check("T1", grazing(4_m2, turf, 2, each)).verdict == Verdict::fails);
  CHECK(grazer_check("T1", grazing(4_m2, turf, 5, each)).verdict == Verdict::marginal);
  CHECK(grazer_check("T1", grazing(4_m2, turf, 9, each)).verdict == Verdict::holds);

  const std::array tasks{Task{"all", 8_h, 1.0 * units::per_week}};
  complete(labour_check(tasks, 10_h));
  CHECK(labour_check(tasks, 10_h).verdict == Verdict::holds);
  CHECK(labour_check(tasks, 9.5_h).verdict == Verdict::marginal);
  CHECK(labour_check(tasks, 9_h).verdict == Verdict::fails);

  Economics money{};
  money.cost_per_sold = 10_USD;
  complete(cost_check(money, 14_USD));
  CHECK(cost_check(money, 14_USD).verdict == Verdict::holds);
  CHECK(cost_check(money, 14_USD, 0.5).verdict == Verdict::marginal);
  CHECK(cost_check(money, 9_USD).verdict == Verdict::fails);

  const std::vector<long> unequal{250, 250, 340}, equal{250, 250, 250};
  complete(rotation_fit_check(worst_move(equal, 1, 0.92)));
  CHECK(rotation_fit_check(worst_move(equal, 1, 0.92)).verdict == Verdict::holds);
  CHECK(rotation_fit_check(worst_move(unequal, 1, 0.92)).verdict == Verdict::fails);
  CHECK(contains(rotation_fit_check(worst_move(equal, 1, 0.92)).caution, "not established"));
}

TEST_CASE("farm checks: bad input is refused by name") {
  CHECK(contains(message_of<InvalidInput>([] { aisle_check({StripKind::aisle, 0_in, "a"}); }), "aisle width"));
  CHECK(contains(message_of<InvalidInput>([] { aisle_check({StripKind::aisle, 9_in, "a"}, 0_in); }), "required"));
  CHECK(contains(message_of<InvalidInput>([] { work_height_check("", pheasant_male_95(), 1_m, WorkKind::light, 0_m); }),
                 "tolerance"));
  CHECK(contains(message_of<InvalidInput>([] { circuit_check("", {.continuous = 1_W}, 120_V, 0_A); }), "breaker"));
  CHECK(contains(message_of<InvalidInput>([] { headroom_check("", -1_m); }), "underside"));
  CHECK(contains(message_of<InvalidInput>([] { room_fit_check("", {0_m, 1_m, 1_m}); }), "used"));
  CHECK(contains(message_of<InvalidInput>([] { labour_check({}, 0_h); }), "hired"));
  CHECK(contains(message_of<InvalidInput>([] { labour_check({}, 1_h, 1.5); }), "utilisation limit"));
  CHECK(contains(message_of<InvalidInput>([] { quarantine_check(1.0 * units::per_day, 1_d, -1.0); }), "slots"));
  CHECK(contains(message_of<InvalidInput>([] { cost_check({}, -1_USD); }), "price"));
}
