#include "theca/study/design_input.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "support/near.hpp"
#include "theca/study/design_file.hpp"

using namespace theca;
using namespace theca::study;

namespace {
const Design& demo() {
  static const Design design = read_design(THECA_DEMO_TOML);
  return design;
}
Measure value_of(const Design& design, std::string_view key) {
  for (const DesignInput& input : design_inputs(design))
    if (input.key == key) return input.value;
  FAIL("no input of that key");
  return {};
}
}  // namespace

TEST_CASE("design inputs: every number of the demo has a key of its own and lies in its accepted range") {
  std::set<std::string> keys;
  for (const DesignInput& input : design_inputs(demo())) {
    CAPTURE(input.key);
    CHECK(keys.insert(input.key).second);
    CHECK(with_input(demo(), input.key, input.value) == demo());
  }
  CHECK(keys.size() > 300);
}

TEST_CASE("design inputs: a changed number is that number alone") {
  const Design changed = with_input(demo(), "tanks.A.water_depth", {0.3, "m"});
  CHECK(value_of(changed, "tanks.A.water_depth").si_value == 0.3);
  const auto before = design_inputs(demo()), after = design_inputs(changed);
  REQUIRE(before.size() == after.size());
  int different = 0;
  for (std::size_t i = 0; i < before.size(); ++i) different += before[i].value.si_value != after[i].value.si_value;
  CHECK(different == 1);
}

TEST_CASE("design inputs: numbers in lists, in named tables, temperatures, humidities and counts are reached") {
  std::set<std::string> units;
  bool in_list = false, count = false;
  for (const DesignInput& input : design_inputs(demo())) {
    units.insert(input.value.si_unit);
    in_list = in_list || input.key.find('[') != std::string::npos;
    count = count || input.key == "production.rotation.fallow_tanks";
  }
  CHECK(in_list);
  CHECK(count);
  for (const char* unit : {"", "m", "K", "kg", "W", "s", "m3/s"}) {
    CAPTURE(unit);
    CHECK(units.count(unit) == 1);
  }
}

TEST_CASE("design inputs: a mistaken key, unit or value is refused and the right one named") {
  using test::message_of;
  const auto refused = [](std::string_view key, const Measure& value) {
    return message_of<InvalidInput>([&] { with_input(demo(), key, value); });
  };
  CHECK(refused("tanks.A.water_deptth", {0.3, "m"}).find("tanks.A.water_depth") != std::string::npos);
  CHECK(refused("tanks.A.water_depth", {0.3, "kg"}).find("m") != std::string::npos);
  CHECK(refused("tanks.A.water_depth", {-0.3, "m"}).find("> 0") != std::string::npos);
  CHECK(refused("tanks.A.water_depth", {std::nan(""), "m"}).find("> 0") != std::string::npos);
  CHECK(refused("production.rotation.fallow_tanks", {1.5, ""}).find("whole") != std::string::npos);
  CHECK(refused("production.occupancy", {1.2, ""}).find("1") != std::string::npos);
  CHECK(refused("", {1.2, ""}).find("design_inputs") != std::string::npos);
}
