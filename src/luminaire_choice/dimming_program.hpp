// The mixed-integer linear program behind a choice of luminaires, in raw numbers.
#pragma once

#include <cstddef>
#include <optional>
#include <utility>
#include <vector>

#include "theca/light/luminaire_choice.hpp"

namespace theca::light {

/// Columns: the dimming of each candidate, then whether it is chosen (0 or 1). Light is counted in the target's lower
/// mean, so that all coefficients are near 1.
class DimmingProgram {
 public:
  DimmingProgram(const PpfdTarget& target, const ChoiceRules& rules);
  /// A candidate with its light at full power in every cell, mol/(m2 s).
  void add(const std::vector<double>& cells, double power_W);
  /// Of these two at most one may be chosen.
  void exclude(std::size_t a, std::size_t b);
  /// Dimming of each candidate; nothing where no choice meets the target.
  std::optional<std::vector<double>> solve();

 private:
  struct Row {
    std::vector<std::pair<std::size_t, double>> terms;
    double low, high;
  };

  std::size_t count() const { return light_.size(); }
  std::vector<std::vector<std::size_t>> cliques() const;
  std::vector<Row> rules_rows() const;
  Row brightness_row(std::size_t cell) const;
  Row evenness_row(std::size_t cell) const;
  /// Adds the cells where the field of these dimmings misses the target most; false where it meets it everywhere.
  bool add_missed_cells(const std::vector<double>& dimming);
  /// @param chosen  the candidates to dim to the least power; nullptr to choose the fewest
  std::optional<std::vector<double>> optimum(const std::vector<bool>* chosen) const;
  std::optional<std::vector<double>> meeting_everywhere(const std::vector<bool>* chosen);

  PpfdTarget target_;
  ChoiceRules rules_;
  double unit_;  // mol/(m2 s)
  std::vector<std::vector<double>> light_;
  std::vector<double> mean_, power_W_;
  std::vector<std::vector<bool>> excluded_;
  std::vector<Row> cell_rows_;
};

}  // namespace theca::light
