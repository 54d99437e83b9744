#include "theca/study/tornado.hpp"

#include <algorithm>
#include <cmath>

#include "support/near.hpp"
#include "theca/farm/economics.hpp"
#include "theca/study/design_file.hpp"
#include "theca/study/parts.hpp"

using namespace theca;
using namespace theca::study;
using test::contains;
using test::message_of;
using test::near;
using test::within;

namespace {
const Design& demo() {
  static const Design design = read_design(THECA_DEMO_TOML);
  return design;
}
const TornadoBar& of(const Tornado& result, std::string_view key) {
  return *std::find_if(result.bars.begin(), result.bars.end(), [&](const TornadoBar& b) { return b.key == key; });
}
std::vector<TornadoInput> scaled(const std::vector<std::string>& keys, double low, double high) {
  std::vector<TornadoInput> inputs;
  for (const std::string& key : keys) inputs.push_back(scaled_input(demo(), key, low, high));
  return inputs;
}
constexpr double year_s = 365.0 * 86400.0;
}  // namespace

TEST_CASE("tornado: the bar of the price is what all fragments bring over the life [capital recovery, closed form]") {
  const auto inputs = scaled({"money.price"}, 0.8, 1.3);
  const Tornado result = tornado(demo(), inputs);
  const double price = si(demo().money.price), sold = si(farm_yield(demo()).sold) * year_s;
  const Capital& capital = demo().money.capital;
  const double recovery = farm::capital_recovery_factor(capital.discount_rate, si(capital.life) / year_s);
  const TornadoBar& bar = of(result, "money.price");
  CHECK(near(bar.swing, 0.5 * price * sold / recovery, 1e-9));
  CHECK(near(bar.at_high.si_value - result.nominal.si_value, 0.3 * price * sold / recovery, 1e-9));
  CHECK(near(result.nominal.si_value, si(economics(demo()).net_present_value), 1e-12));
  // what a fragment costs does not depend on what it is sold for
  CHECK(tornado(demo(), inputs, EconomicMeasure::cost_per_sold).bars[0].swing == 0.0);
  CHECK(near(tornado(demo(), inputs, EconomicMeasure::profit).bars[0].swing * year_s, 0.5 * price * sold, 1e-9));
}

TEST_CASE("tornado: bars are sorted by their length, whatever the order of the inputs, and each is its own what-if") {
  const std::vector<std::string> keys{"money.rent", "production.growth_rate", "money.price", "production.survival",
                                      "money.electricity"};
  std::vector<TornadoInput> inputs = scaled(keys, 0.9, 1.1);
  const Tornado forwards = tornado(demo(), inputs, EconomicMeasure::cost_per_sold);
  std::reverse(inputs.begin(), inputs.end());
  const Tornado backwards = tornado(demo(), inputs, EconomicMeasure::cost_per_sold);
  REQUIRE(forwards.bars.size() == keys.size());
  for (std::size_t i = 0; i < keys.size(); ++i) {
    const TornadoBar& bar = forwards.bars[i];
    CHECK(bar.key == backwards.bars[i].key);
    if (i > 0) CHECK(bar.swing <= forwards.bars[i - 1].swing);
    CHECK(near(bar.at_low.si_value, si(economics(with_input(demo(), bar.key, bar.low)).cost_per_sold), 1e-12));
    CHECK(near(bar.at_high.si_value, si(economics(with_input(demo(), bar.key, bar.high)).cost_per_sold), 1e-12));
    CHECK(bar.swing >= std::abs(bar.at_high.si_value - bar.at_low.si_value) * (1.0 - 1e-12));
  }
  CHECK(forwards.bars.back().key == "money.price");
  const TornadoBar& growth = of(forwards, "production.growth_rate");
  CHECK(growth.at_low.si_value > forwards.nominal.si_value);  // slow growth: fewer to share the cost
  CHECK(growth.at_high.si_value < forwards.nominal.si_value);
}

TEST_CASE("tornado: in a sum the squares of the bars share the variance as first-order Sobol indices do") {
  // the present value is linear in each price, so equal quantiles make bars in proportion to standard deviations
  std::vector<UncertainInput> uncertain;
  std::vector<TornadoInput> inputs;
  for (const auto& [key, off] : {std::pair{"money.rent", 0.4}, {"money.electricity", 0.3}, {"money.plug", 0.9}}) {
    const TornadoInput ends = scaled_input(demo(), key, 1.0 - off, 1.0 + off);
    uncertain.push_back({key, {.kind = DistributionKind::uniform, .first = ends.low, .last = ends.high}});
    inputs.push_back(quantile_input(uncertain.back(), 0.1));
  }
  const std::vector<double> rows = sobol_index_points({SamplingKind::sobol, 1024, 1}, uncertain.size());
  std::vector<double> values;
  for (std::size_t row = 0; row < rows.size(); row += uncertain.size())
    values.push_back(
        si(economics(sampled_design(demo(), uncertain, std::span(&rows[row], uncertain.size()))).net_present_value));
  const SobolIndices indices = sobol_indices(values, uncertain.size());
  const Tornado result = tornado(demo(), inputs);
  double squares = 0.0;
  for (const TornadoBar& bar : result.bars) squares += bar.swing * bar.swing;
  for (std::size_t i = 0; i < uncertain.size(); ++i) {
    const double swing = of(result, uncertain[i].key).swing;
    CHECK(within(indices.first_order[i], swing * swing / squares, 0.01));  // 1024 points
  }
}

TEST_CASE("tornado: quantiles of an uncertain input are its ends, counts may vary too") {
  const TornadoInput ends = scaled_input(demo(), "money.price", 0.5, 1.5);
  const UncertainInput price{"money.price", {.kind = DistributionKind::uniform, .first = ends.low, .last = ends.high}};
  const TornadoInput tenth = quantile_input(price);
  CHECK(near(tenth.low.si_value, 0.6 * si(demo().money.price), 1e-9));
  CHECK(near(tenth.high.si_value, 1.4 * si(demo().money.price), 1e-9));
  CHECK(near(quantile_input(price, 0.0).high.si_value, ends.high.si_value, 1e-12));
  const Measure one{1.0, "", 1.0, ""}, four{4.0, "", 4.0, ""};
  const TornadoInput units{"rooms.hall.dehumidifier.budgeted", one, four};
  const Tornado result = tornado(demo(), std::vector<TornadoInput>{units});
  CHECK(result.bars[0].at_high.si_value < result.bars[0].at_low.si_value);
}

TEST_CASE("tornado: bad input is refused by name") {
  const auto refused = [](const std::vector<TornadoInput>& inputs) {
    return message_of<InvalidInput>([&] { tornado(demo(), inputs); });
  };
  CHECK(contains(refused({}), "inputs of the tornado"));
  const TornadoInput price = scaled_input(demo(), "money.price", 0.9, 1.1);
  CHECK(contains(refused({price, price}), "each key once"));
  TornadoInput above = price;
  above.low = above.high;
  CHECK(contains(refused({above}), "around what the design states"));
  TornadoInput bare = price;
  bare.low.si_unit = "";
  CHECK(contains(refused({bare}), "USD"));
  CHECK(contains(message_of<InvalidInput>([] { scaled_input(demo(), "money.prize", 0.9, 1.1); }), "money.price"));
  CHECK(contains(message_of<InvalidInput>([] { scaled_input(demo(), "money.price", 1.1, 1.2); }), "low factor"));
  CHECK(contains(message_of<InvalidInput>([] { scaled_input(demo(), "money.price", 0.9, 0.95); }), "high factor"));
  CHECK(contains(message_of<InvalidInput>([] { scaled_input(demo(), "site.water.temperature", 0.9, 1.1); }),
                 "temperature"));
  CHECK(contains(message_of<InvalidInput>([&] { quantile_input({"money.price", {}}, 0.5); }), "tail"));
}
