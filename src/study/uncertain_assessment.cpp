#include "theca/study/uncertain_assessment.hpp"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <exception>
#include <limits>
#include <map>
#include <set>
#include <thread>

#include "text_forms.hpp"
#include "theca/require.hpp"

namespace theca::study {
namespace {

/// Utilisation of each check of the nominal assessment, NaN where it came to no verdict; or why there is none.
struct Sample {
  std::vector<double> utilisation;
  std::string refused;
};

struct Samples {
  Assessment nominal;
  std::vector<Sample> list;
};

/// Calls work(i) for every i below `count`, each once, on so many threads.
template <class Work>
void share_out(std::size_t count, int threads, const Work& work) {
  std::atomic<std::size_t> next{0};
  const auto take = [&next, count, &work] {
    for (std::size_t i = next++; i < count; i = next++) work(i);
  };
  std::vector<std::thread> others;
  for (int t = 1; t < threads; ++t) others.emplace_back(take);
  take();
  for (std::thread& other : others) other.join();
}

void require_inputs(std::span<const UncertainInput> inputs, int threads) {
  require::that(!inputs.empty(), "uncertain inputs", 0, "at least one");
  require::that(threads >= 1 && threads <= 1024, "threads", threads, "1 to 1024");
  std::set<std::string_view> keys;
  for (const UncertainInput& input : inputs)
    if (!keys.insert(input.key).second)
      throw InvalidInput("uncertain input", text_forms::in_quotes(input.key), "each key once");
}

Samples assess_points(const Design& design, std::span<const UncertainInput> inputs, const std::vector<double>& points,
                      int threads) {
  Samples samples{assess(design), {}};
  std::map<std::string_view, std::size_t> place;
  for (const Check& check : samples.nominal.checks) place.emplace(check.name, place.size());
  const std::size_t dimensions = inputs.size(), count = points.size() / dimensions;
  samples.list.resize(count);
  share_out(count, threads, [&](std::size_t i) {
    Sample& sample = samples.list[i];
    try {
      const auto point = std::span(points).subspan(i * dimensions, dimensions);
      sample.utilisation.assign(place.size(), std::numeric_limits<double>::quiet_NaN());
      for (const Check& check : assess(sampled_design(design, inputs, point)).checks)
        if (const auto at = place.find(check.name); at != place.end() && check.verdict != Verdict::outside_validity)
          sample.utilisation[at->second] = check.utilisation;
    } catch (const std::exception& e) {
      sample.refused = e.what();
    }
  });
  return samples;
}

CheckOdds odds(const Check& nominal, std::vector<double> utilisation) {
  CheckOdds o;
  o.name = nominal.name;
  o.nominal = nominal.verdict;
  o.nominal_utilisation = nominal.utilisation;
  o.judged = utilisation.size();
  if (utilisation.empty()) return o;
  std::sort(utilisation.begin(), utilisation.end());
  const auto count = static_cast<double>(utilisation.size());
  const auto over = utilisation.end() - std::upper_bound(utilisation.begin(), utilisation.end(), 1.0);
  o.failing = static_cast<double>(over) / count;
  o.failing_error = std::sqrt(o.failing * (1.0 - o.failing) / count);
  // between the two order statistics that the share lies between [Hyndman & Fan 1996, type 7]
  const auto at = [&](double share) {
    const double rank = share * (count - 1.0);
    const auto below = static_cast<std::size_t>(rank);
    const auto above = std::min(below + 1, utilisation.size() - 1);
    return std::lerp(utilisation[below], utilisation[above], rank - static_cast<double>(below));
  };
  o.lowest = utilisation.front();
  o.low = at(0.05);
  o.median = at(0.5);
  o.high = at(0.95);
  o.highest = utilisation.back();
  return o;
}

}  // namespace

Design sampled_design(const Design& design, std::span<const UncertainInput> inputs, std::span<const double> point) {
  require::that(point.size() == inputs.size(), "coordinates of the point", static_cast<double>(point.size()),
                "as many as uncertain inputs, " + std::to_string(inputs.size()));
  Design sampled = design;
  for (std::size_t i = 0; i < inputs.size(); ++i)
    sampled = with_input(sampled, inputs[i].key, quantile(inputs[i].distribution, point[i]));
  return sampled;
}

UncertainAssessment uncertain_assessment(const Design& design, std::span<const UncertainInput> inputs,
                                         const Sampling& sampling, int threads) {
  require_inputs(inputs, threads);
  const Samples samples = assess_points(design, inputs, unit_samples(sampling, inputs.size()), threads);
  UncertainAssessment result;
  result.samples = samples.list.size();
  for (std::size_t i = 0; i < samples.list.size(); ++i)
    if (!samples.list[i].refused.empty()) result.refused.push_back({i, samples.list[i].refused});
  for (std::size_t c = 0; c < samples.nominal.checks.size(); ++c) {
    std::vector<double> utilisation;
    for (const Sample& sample : samples.list)
      if (sample.refused.empty() && !std::isnan(sample.utilisation[c])) utilisation.push_back(sample.utilisation[c]);
    result.checks.push_back(odds(samples.nominal.checks[c], std::move(utilisation)));
  }
  return result;
}

std::vector<CheckSensitivity> check_sensitivities(const Design& design, std::span<const UncertainInput> inputs,
                                                  const Sampling& sampling, int threads) {
  require_inputs(inputs, threads);
  const Samples samples = assess_points(design, inputs, sobol_index_points(sampling, inputs.size()), threads);
  for (const Sample& sample : samples.list)
    if (!sample.refused.empty())
      throw InvalidInput("uncertain inputs", "a sample that cannot be assessed (" + sample.refused + ")",
                         "distributions all of whose values make a design");
  std::vector<CheckSensitivity> sensitivities;
  for (std::size_t c = 0; c < samples.nominal.checks.size(); ++c) {
    std::vector<double> utilisation;
    for (const Sample& sample : samples.list)
      if (const double u = sample.utilisation[c]; std::isfinite(u)) utilisation.push_back(u);
    // a check over zero capacity carries the largest double, which has no variance to share out
    const bool everywhere =
        utilisation.size() == samples.list.size() && *std::max_element(utilisation.begin(), utilisation.end()) < 1e100;
    if (everywhere)
      sensitivities.push_back({samples.nominal.checks[c].name, sobol_indices(utilisation, inputs.size())});
  }
  return sensitivities;
}

}  // namespace theca::study
