// The known word most like a misspelt one, for "did you mean" in messages.
#pragma once

#include <algorithm>
#include <cstddef>
#include <string_view>
#include <vector>

namespace theca::detail {

/// Levenshtein distance, letters compared without case.
inline std::size_t edit_distance(std::string_view a, std::string_view b) {
  const auto lower = [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; };
  std::vector<std::size_t> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t replaced = diagonal + (lower(a[i - 1]) == lower(b[j - 1]) ? 0 : 1);
      diagonal = row[j];
      row[j] = std::min({row[j] + 1, row[j - 1] + 1, replaced});
    }
  }
  return row[b.size()];
}

/// How many letters may be wrong for a proposal to be worth making: a third of them, none of a single letter.
inline std::size_t letters_that_may_differ(std::string_view word) {
  return std::clamp<std::size_t>((word.size() + 2) / 3, 0, word.size() > 1 ? word.size() - 1 : 0);
}

/// Words longer than this are no misspelling of anything here, and comparing them would take long.
inline constexpr std::size_t longest_word_compared = 64;

/// The nearest of `known` (a range of string views), empty when none is near.
template <class Known>
std::string_view nearest_word(std::string_view word, const Known& known) {
  std::string_view best;
  if (word.size() > longest_word_compared) return best;
  std::size_t best_distance = letters_that_may_differ(word) + 1;
  for (const std::string_view candidate : known) {
    if (const auto d = edit_distance(word, candidate); d < best_distance) {
      best_distance = d;
      best = candidate;
    }
  }
  return best;
}

}  // namespace theca::detail
