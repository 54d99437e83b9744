#include "theca/structure/motion_checks.hpp"

#include "subject_name.hpp"
#include "theca/require.hpp"

namespace theca::structure {
namespace {
constexpr const char* crush_caution =
    "A tank that slides or tips crushes people and floods. This is a static equivalent for an unanchored rigid body; "
    "local seismic rules come first, and a licensed engineer must review it and the anchorage.";

CheckText words_of(const std::string& subject, const char* what, std::string question, std::string where,
                   std::string source, std::string caution) {
  return {detail::subject_name(subject, what), std::move(question), std::move(where), std::move(source),
          std::move(caution)};
}
}  // namespace

Check sliding_check(const std::string& subject, const Stability& s, double least_factor, const std::string& source) {
  require::positive("least factor", least_factor);
  return make_check(words_of(subject, "sliding", "Does friction hold it against the push?", "plane it stands on",
                             "statics; factor: " + source, crush_caution),
                    measure(least_factor), measure(s.sliding_factor), 0.3);
}

Check tipping_check(const std::string& subject, const Stability& s, double least_factor, const std::string& source) {
  require::positive("least factor", least_factor);
  return make_check(words_of(subject, "tipping", "Does its weight hold it upright against the push?",
                             "edge it would tip over", "statics; factor: " + source, crush_caution),
                    measure(least_factor), measure(s.tipping_factor), 0.2);
}

Check hand_wave_check(const std::string& subject, const HandWave& wave, const Length& freeboard) {
  require::not_negative("freeboard", freeboard);
  CheckText words = words_of(subject, "hand wave", "Do the strokes of a hand drive a wave over the rim?",
                             "end wall, first slosh mode", "linear wave theory with viscous damping",
                             "Water over the rim reaches electrics and floors. A person can change the stroke rate: "
                             "stop and wait when the water starts to swing.");
  const Measure demand = measure(wave.amplitude, units::inch), capacity = measure(freeboard, units::inch);
  if (wave.linear) return make_check(std::move(words), demand, capacity, 0.5);
  Check numbers = make_check(words, demand, capacity, 0.5);
  Check c =
      outside_validity(std::move(words), "The wave is too high for linear theory: k a is " + number(wave.steepness, 2) +
                                             ", the limit is 0.2, or its amplitude "
                                             "is over a fifth of the depth.");
  c.demand = numbers.demand;
  c.capacity = numbers.capacity;
  c.utilisation = numbers.utilisation;
  c.uncertainty = numbers.uncertainty;
  return c;
}

}  // namespace theca::structure
