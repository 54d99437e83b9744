#include "dimming_program.hpp"

#include <CbcModel.hpp>
#include <CoinPackedMatrix.hpp>
#include <OsiClpSolverInterface.hpp>
#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "theca/error.hpp"

namespace theca::light {
namespace {

constexpr double unbounded = std::numeric_limits<double>::max();
// The program keeps this share off every limit of the target, so that the solver's own tolerance of 1e-7 cannot carry
// the field across it.
constexpr double inside = 1e-6;
constexpr int most_rounds = 200;
constexpr std::size_t cells_each_round = 6;

}  // namespace

DimmingProgram::DimmingProgram(const PpfdTarget& target, const ChoiceRules& rules)
    : target_(target), rules_(rules), unit_(std::max(si(target.lower_mean), 1e-3 * si(target.highest))) {
  if (!(unit_ > 0.0)) unit_ = 1.0;
}

void DimmingProgram::add(const std::vector<double>& cells, double power_W) {
  light_.push_back(cells);
  for (double& value : light_.back()) value /= unit_;
  mean_.push_back(std::accumulate(light_.back().begin(), light_.back().end(), 0.0) / static_cast<double>(cells.size()));
  power_W_.push_back(power_W);
  for (auto& row : excluded_) row.push_back(false);
  excluded_.emplace_back(light_.size(), false);
}

void DimmingProgram::exclude(std::size_t a, std::size_t b) { excluded_[a][b] = excluded_[b][a] = true; }

/// Groups of which one at most may be chosen, each pair that excludes one another in at least one: fewer and tighter
/// rows than the pairs themselves.
std::vector<std::vector<std::size_t>> DimmingProgram::cliques() const {
  std::vector<std::vector<std::size_t>> groups;
  auto open = excluded_;
  for (std::size_t a = 0; a < count(); ++a)
    for (std::size_t b = a + 1; b < count(); ++b) {
      if (!open[a][b]) continue;
      std::vector<std::size_t> group{a, b};
      for (std::size_t c = 0; c < count(); ++c)
        if (std::all_of(group.begin(), group.end(), [&](std::size_t m) { return m != c && excluded_[m][c]; }))
          group.push_back(c);
      for (const std::size_t m : group)
        for (const std::size_t n : group) open[m][n] = false;
      groups.push_back(std::move(group));
    }
  return groups;
}

DimmingProgram::Row DimmingProgram::brightness_row(std::size_t cell) const {
  Row row{{}, -unbounded, (1.0 - inside) * si(target_.highest) / unit_};
  for (std::size_t k = 0; k < count(); ++k) row.terms.emplace_back(k, light_[k][cell]);
  return row;
}

DimmingProgram::Row DimmingProgram::evenness_row(std::size_t cell) const {
  Row row{{}, 0.0, unbounded};
  for (std::size_t k = 0; k < count(); ++k)
    row.terms.emplace_back(k, light_[k][cell] - (1.0 + inside) * target_.min_over_mean * mean_[k]);
  return row;
}

std::vector<DimmingProgram::Row> DimmingProgram::rules_rows() const {
  std::vector<Row> rows;
  Row means{{}, (1.0 + inside) * si(target_.lower_mean) / unit_, (1.0 - inside) * si(target_.upper_mean) / unit_};
  if (means.low > means.high) means.low = means.high = 0.5 * (means.low + means.high);
  Row number{{}, 1.0, static_cast<double>(rules_.most_luminaires)};
  for (std::size_t k = 0; k < count(); ++k) {
    means.terms.emplace_back(k, mean_[k]);
    number.terms.emplace_back(count() + k, 1.0);
    rows.push_back({{{k, 1.0}, {count() + k, -1.0}}, -unbounded, 0.0});
    rows.push_back({{{k, 1.0}, {count() + k, -rules_.least_dimming}}, 0.0, unbounded});
  }
  rows.push_back(std::move(means));
  rows.push_back(std::move(number));
  for (const auto& group : cliques()) {
    rows.push_back({{}, -unbounded, 1.0});
    for (const std::size_t k : group) rows.back().terms.emplace_back(count() + k, 1.0);
  }
  return rows;
}

bool DimmingProgram::add_missed_cells(const std::vector<double>& dimming) {
  const std::size_t cells = light_.front().size();
  std::vector<double> field(cells, 0.0);
  for (std::size_t k = 0; k < count(); ++k)
    for (std::size_t c = 0; c < cells; ++c) field[c] += dimming[k] * light_[k][c];
  const double mean = std::accumulate(field.begin(), field.end(), 0.0) / static_cast<double>(cells);
  const double highest = si(target_.highest) / unit_, lowest = target_.min_over_mean * mean;
  std::vector<std::pair<double, std::size_t>> bright, dark;
  for (std::size_t c = 0; c < cells; ++c) {
    if (field[c] > highest) bright.emplace_back(field[c] - highest, c);
    if (field[c] < lowest) dark.emplace_back(lowest - field[c], c);
  }
  const auto worst = [](std::vector<std::pair<double, std::size_t>>& missed) {
    std::sort(missed.rbegin(), missed.rend());
    if (missed.size() > cells_each_round) missed.resize(cells_each_round);
  };
  worst(bright);
  worst(dark);
  for (const auto& miss : bright) cell_rows_.push_back(brightness_row(miss.second));
  for (const auto& miss : dark) cell_rows_.push_back(evenness_row(miss.second));
  return !bright.empty() || !dark.empty();
}

std::optional<std::vector<double>> DimmingProgram::optimum(const std::vector<bool>* chosen) const {
  const std::size_t n = count();
  std::vector<Row> rows = rules_rows();
  rows.insert(rows.end(), cell_rows_.begin(), cell_rows_.end());
  std::vector<int> row_of, column_of;
  std::vector<double> values, row_low, row_high;
  for (const Row& row : rows) {
    for (const auto& term : row.terms) {
      row_of.push_back(static_cast<int>(row_low.size()));
      column_of.push_back(static_cast<int>(term.first));
      values.push_back(term.second);
    }
    row_low.push_back(row.low);
    row_high.push_back(row.high);
  }
  const CoinPackedMatrix matrix(false, row_of.data(), column_of.data(), values.data(),
                                static_cast<CoinBigIndex>(values.size()));
  std::vector<double> low(2 * n, 0.0), high(2 * n, 1.0), cost(2 * n, 0.0);
  for (std::size_t k = 0; k < n; ++k) {
    if (chosen) {
      low[n + k] = high[n + k] = (*chosen)[k] ? 1.0 : 0.0;
      cost[k] = power_W_[k] / power_W_.front();
    } else {
      cost[n + k] = 1.0;
    }
  }
  OsiClpSolverInterface program;
  program.setHintParam(OsiDoReducePrint, true, OsiHintTry);
  program.messageHandler()->setLogLevel(0);
  program.loadProblem(matrix, low.data(), high.data(), cost.data(), row_low.data(), row_high.data());
  if (chosen) {
    program.initialSolve();
    if (program.isProvenPrimalInfeasible()) return std::nullopt;
    if (!program.isProvenOptimal())
      throw NotConverged("dimming of luminaires, linear program", program.getObjValue(), program.getIterationCount());
    return std::vector<double>(program.getColSolution(), program.getColSolution() + n);
  }
  for (std::size_t k = 0; k < n; ++k) program.setInteger(static_cast<int>(n + k));
  CbcModel search(program);
  search.setLogLevel(0);
  search.setMaximumNodes(rules_.most_branches);
  search.branchAndBound();
  if (search.isProvenInfeasible()) return std::nullopt;
  if (!search.isProvenOptimal() || !search.bestSolution())
    throw NotConverged("choice of luminaires, branch and bound", search.getBestPossibleObjValue(),
                       search.getNodeCount());
  return std::vector<double>(search.bestSolution(), search.bestSolution() + 2 * n);
}

std::optional<std::vector<double>> DimmingProgram::meeting_everywhere(const std::vector<bool>* chosen) {
  for (int round = 0; round < most_rounds; ++round) {
    auto found = optimum(chosen);
    if (!found || !add_missed_cells(*found)) return found;
  }
  throw NotConverged("choice of luminaires, cells written out", static_cast<double>(cell_rows_.size()), most_rounds);
}

std::optional<std::vector<double>> DimmingProgram::solve() {
  const auto fewest = meeting_everywhere(nullptr);
  if (!fewest) return std::nullopt;
  std::vector<bool> chosen;
  for (std::size_t k = 0; k < count(); ++k) chosen.push_back((*fewest)[count() + k] > 0.5);
  auto dimming = meeting_everywhere(&chosen);
  if (!dimming) throw NotConverged("dimming of the luminaires chosen, which has no solution", 0.0, 1);
  for (std::size_t k = 0; k < count(); ++k)
    (*dimming)[k] = chosen[k] ? std::clamp((*dimming)[k], rules_.least_dimming, 1.0) : 0.0;
  return dimming;
}

}  // namespace theca::light
