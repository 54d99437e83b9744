// The fewest luminaires and their dimming: against all choices tried one by one, against bounds, and re-checked.
#include "theca/light/luminaire_choice.hpp"

#include <bit>
#include <chrono>
#include <cmath>
#include <limits>

#include "demo_luminaire.hpp"
#include "support/near.hpp"

using namespace theca;
using namespace theca::light;
using namespace theca::literals;
using test::contains;
using test::message_of;
using test::near;

namespace {

LitPlane rack(int nx = 24, int ny = 8) { return {.water = test::demo_water(), .depth = 8_in, .nx = nx, .ny = ny}; }

std::vector<PlacedLuminaire> places(const Length& height, int along, int across = 1) {
  const Waterbody water = test::demo_water();
  return candidate_places(test::demo_luminaire(), water.length, water.width, height, along, across, 90_deg);
}

Power power_of(const Placement& placement) {
  Power sum{};
  for (const auto& placed : placement.luminaires) sum += electrical_power(placed);
  return sum;
}

}  // namespace

TEST_CASE("fewest of 11 places that cannot be dimmed: as few as all 2047 choices tried one by one") {
  const auto candidates = places(30_in, 11);
  const LitPlane plane = rack(12, 4);
  PpfdTarget target = test::demo_target();
  const ChoiceRules full{.least_dimming = 1.0};
  std::vector<PpfdMap> each;
  for (const auto& candidate : candidates)
    each.push_back(map(std::vector{candidate}, plane.water, plane.depth, plane.nx, plane.ny));
  for (const double evenness : {0.3, 0.5, 0.6, 0.65}) {
    CAPTURE(evenness);
    target.min_over_mean = evenness;
    int fewest = 99;
    for (unsigned choice = 1; choice < 1u << 11; ++choice) {
      PpfdMap sum = each[0];
      std::fill(sum.values.begin(), sum.values.end(), 0.0);
      for (std::size_t k = 0; k < 11; ++k)
        if (choice >> k & 1u)
          for (std::size_t c = 0; c < sum.values.size(); ++c) sum.values[c] += each[k].values[c];
      if (meets(sum, target)) fewest = std::min(fewest, std::popcount(choice));
    }
    const auto found = fewest_luminaires(target, candidates, plane, full);
    CHECK(found.has_value() == (fewest < 99));
    if (!found) continue;
    CHECK(static_cast<int>(found->luminaires.size()) == fewest);
    CHECK(meets(found->map, target));
    for (const auto& placed : found->luminaires) CHECK(placed.dimming == 1.0);
  }
}

TEST_CASE(
    "fewest of the demo tank's 19 places, dimmed: no more than the even row takes, re-checked, in under a second") {
  for (const Length& height : {20_in, 30_in, 36_in}) {
    const auto start = std::chrono::steady_clock::now();
    const auto found = fewest_luminaires(test::demo_target(), places(height, 19), rack());
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
    MESSAGE(si(height), " m: ", took.count(), " s");
    CHECK(took.count() < 1.0);
    REQUIRE(found);
    CHECK(meets(found->map, test::demo_target()));
    const auto row = fewest_luminaires(test::demo_target(), test::demo_luminaire(), rack(), height, 15, 90_deg);
    REQUIRE(row);
    CHECK(found->luminaires.size() <= row->luminaires.size());
    // Least power reaches no more than the least mean asked for, unless evenness or a least dimming wants more.
    CHECK(found->map.mean() <= row->map.mean());
    for (std::size_t a = 0; a < found->luminaires.size(); ++a)
      for (std::size_t b = 0; b < a; ++b) CHECK_FALSE(apertures_overlap(found->luminaires[a], found->luminaires[b]));
  }
}

TEST_CASE("dimming: the least power for the mean asked for, by hand, where one place is enough") {
  // One candidate, no other limit: its dimming is the mean asked for over its own.
  const auto candidates = places(30_in, 1);
  const PhotonFluxDensity alone = map(candidates, rack().water, rack().depth, 24, 8).mean();
  const PpfdTarget target{.lower_mean = 0.37 * alone, .upper_mean = 1.01 * alone, .highest = 100.0 * alone};
  const auto found = fewest_luminaires(target, candidates, rack());
  REQUIRE(found);
  CHECK(near(found->luminaires[0].dimming, 0.37, 2e-6));  // kept 1e-6 inside
  CHECK(near(power_of(*found), 0.37 * 84_W, 2e-6));
  CHECK_FALSE(fewest_luminaires(target, candidates, rack(), {.least_dimming = 1.0, .most_luminaires = 1}) ==
              std::nullopt);
}

TEST_CASE("no choice where the target is out of reach: too much light, too even, or too few allowed") {
  PpfdTarget target = test::demo_target();
  target.lower_mean = 2000_umol_m2_s;
  target.upper_mean = target.highest = 4000_umol_m2_s;
  CHECK_FALSE(fewest_luminaires(target, places(30_in, 19), rack()));
  target = test::demo_target();
  target.min_over_mean = 0.99;
  CHECK_FALSE(fewest_luminaires(target, places(30_in, 19), rack()));
  CHECK_FALSE(fewest_luminaires(test::demo_target(), places(30_in, 19), rack(), {.most_luminaires = 2}));
}

TEST_CASE("mounting height left open: no more luminaires and power than at any of the heights") {
  const std::vector<Length> heights{14_in, 20_in, 26_in, 32_in};
  const auto candidates = places(1_m, 15);
  const auto best = fewest_luminaires_at_best_height(test::demo_target(), candidates, rack(), heights);
  REQUIRE(best);
  CHECK(meets(best->map, test::demo_target()));
  for (const Length& height : heights) {
    const auto found = fewest_luminaires(test::demo_target(), places(height, 15), rack());
    if (!found) continue;
    CHECK(best->luminaires.size() <= found->luminaires.size());
    if (best->luminaires.size() == found->luminaires.size())
      CHECK(si(power_of(*best)) <= si(power_of(*found)) * (1.0 + 1e-6));
  }
}

TEST_CASE("apertures_overlap: side by side, crossed and turned [by hand]") {
  PlacedLuminaire a{.luminaire = test::demo_luminaire(), .x = 1_m, .y = 1_m, .mounting_height = 1_m};  // 18 x 6 in
  PlacedLuminaire b = a;
  b.x = a.x + 18_in;
  CHECK_FALSE(apertures_overlap(a, b));
  b.x = a.x + 17.9_in;
  CHECK(apertures_overlap(a, b));
  b.heading = 90_deg;
  b.x = a.x + 12_in;  // 9 + 3
  CHECK_FALSE(apertures_overlap(a, b));
  b.x = a.x + 11.9_in;
  CHECK(apertures_overlap(a, b));
  // Turned by 45 deg its shadow on the x axis is 6 sqrt(2) to each side, but its corner points past a's corner.
  b.heading = 45_deg;
  b.x = a.x + 9_in + 6_in;
  CHECK(apertures_overlap(a, b));
  b.y = a.y - 9_in;
  CHECK_FALSE(apertures_overlap(a, b));
}

TEST_CASE("luminaire choice: impossible input is refused by name") {
  const auto candidates = places(30_in, 3);
  const auto refused = [&](ChoiceRules rules) {
    return message_of<InvalidInput>([&] { fewest_luminaires(test::demo_target(), candidates, rack(4, 2), rules); });
  };
  CHECK(contains(refused({.least_dimming = 0.0}), "least dimming"));
  CHECK(contains(refused({.least_dimming = std::numeric_limits<double>::quiet_NaN()}), "least dimming"));
  CHECK(contains(refused({.most_luminaires = 0}), "most luminaires"));
  CHECK(contains(refused({.most_branches = 0}), "most branches"));
  CHECK(contains(message_of<InvalidInput>(
                     [&] { fewest_luminaires(test::demo_target(), std::vector<PlacedLuminaire>{}, rack(4, 2)); }),
                 "number of candidates"));
  CHECK(contains(message_of<InvalidInput>([&] {
                   fewest_luminaires_at_best_height(test::demo_target(), candidates, rack(4, 2), std::vector<Length>{});
                 }),
                 "number of heights"));
  CHECK(contains(message_of<InvalidInput>([&] { dimming_of_fewest(test::demo_target(), candidates, {}); }),
                 "number of maps"));
  CHECK(contains(message_of<InvalidInput>([&] { places(30_in, 0); }), "places along"));
}
