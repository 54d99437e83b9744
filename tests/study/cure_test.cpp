#include "theca/study/cure.hpp"

#include <algorithm>
#include <set>

#include "support/near.hpp"
#include "theca/study/design_file.hpp"
#include "theca/study/design_input.hpp"

using namespace theca;
using namespace theca::study;

namespace {
const Design& demo() {
  static const Design design = read_design(THECA_DEMO_TOML);
  return design;
}
const Cure* by(const std::vector<Cure>& list, std::string_view what) {
  for (const Cure& cure : list)
    if (cure.change.rfind(what, 0) == 0) return &cure;
  return nullptr;
}
Check check_after(const Design& design, std::string_view name) { return assess(design).at(name); }
}  // namespace

TEST_CASE("cures: one more lighting circuit cures the fullest one, and one is the least [counting]") {
  const std::string check = "farm: lighting circuits";
  const auto found = cures(demo(), check);
  REQUIRE(found.size() == 1);
  CHECK(found[0].change == "lighting circuits: 4 to 5");
  CHECK(found[0].utilisation_before > 1.0);
  CHECK(found[0].utilisation_after ==
        check_after(with_input(demo(), "electricity.lighting_circuits", {5, ""}), check).utilisation);
  CHECK(found[0].utilisation_after <= 1.0);
}

TEST_CASE("cures: the step before the cure still fails") {
  // quarantine: 5 slots at a time from 230
  const std::string check = "farm: quarantine places";
  const auto found = cures(demo(), check);
  REQUIRE(found.size() == 1);
  const int slots = std::stoi(found[0].change.substr(found[0].change.find("to ") + 3));
  CHECK((slots - 230) % 5 == 0);
  CHECK(check_after(with_input(demo(), "stock.quarantine.slots", {double(slots), ""}), check).utilisation <= 1.0);
  CHECK(check_after(with_input(demo(), "stock.quarantine.slots", {double(slots - 5), ""}), check).utilisation > 1.0);
}

TEST_CASE("cures: wider headers are a size of the trade, and that they drain more into the sump is told") {
  const auto found = cures(demo(), "hydraulics: branch balance");
  const Cure* headers = by(found, "headers: ");
  REQUIRE(headers != nullptr);
  CHECK(headers->change == "headers: 2 in Schedule 40 to 3 in Schedule 40");
  CHECK(std::any_of(headers->side_effects.begin(), headers->side_effects.end(), [](const SideEffect& e) {
    return e.check == "hydraulics: power-off drain-back" && e.utilisation_after > e.utilisation_before;
  }));
}

TEST_CASE("cures: a tank that is out of level is shimmed just far enough [1/32 in steps]") {
  const auto found = cures(demo(), "structure: tank B level");
  REQUIRE(found.size() == 1);
  CHECK(found[0].change.rfind("tank B, out of level, end to end: 0.16 in to 0.", 0) == 0);
  CHECK(found[0].utilisation_after <= 1.0);
  CHECK(found[0].utilisation_after > 0.7);
}

TEST_CASE("cures: a check that holds needs none, one that nobody knows is refused") {
  CHECK(cures(demo(), "hydraulics: gravity main").empty());
  CHECK_THROWS_AS(cures(demo(), "farm: weather"), InvalidInput);
}

TEST_CASE("cures: what fails anew is told first and puts a cure behind those that do no harm") {
  for (const char* name : {"structure: tank A earthquake wave", "hydraulics: power-off drain-back"}) {
    std::ptrdiff_t before = 0;
    for (const Cure& cure : cures(demo(), name)) {
      const auto anew = [](const SideEffect& e) { return e.after == Verdict::fails && e.before != Verdict::fails; };
      const std::ptrdiff_t harm = std::count_if(cure.side_effects.begin(), cure.side_effects.end(), anew);
      CHECK(harm >= before);
      before = harm;
      CHECK(std::is_partitioned(cure.side_effects.begin(), cure.side_effects.end(), anew));
      CHECK(cure.utilisation_after <= 1.0);
    }
  }
}
