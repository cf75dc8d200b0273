// SPDX-License-Identifier: MIT
#include "diagnostic/suggestion.hpp"

#include <algorithm>
#include <cstddef>
#include <limits>

#include "diagnostic/joined.hpp"
#include "diagnostic/letters.hpp"

namespace driftwarden {

namespace {

constexpr std::size_t longest_word = 100;  // bytes; nobody mistypes a longer one and wants to hear of it
constexpr std::size_t most_unknown = 100;
constexpr std::size_t most_candidates = 20000;
constexpr std::size_t short_list = 12;  // candidates that are still worth listing

bool same_letter(char a, char b) { return small_letter(a) == small_letter(b); }

bool is_near(std::size_t distance, std::string_view word, std::string_view candidate) {
  return 3 * distance <= std::max(word.size(), candidate.size());
}

bool may_be_near(std::string_view word, std::string_view candidate) {
  const std::size_t shorter = std::min(word.size(), candidate.size());
  const std::size_t longer = std::max(word.size(), candidate.size());
  return longer <= longest_word && is_near(longer - shorter, word, candidate);
}

template <class Candidates>
std::string nearest_of(std::string_view word, const Candidates& candidates) {
  std::string_view best;
  std::size_t best_distance = std::numeric_limits<std::size_t>::max();
  for (const std::string_view candidate : candidates) {
    if (!may_be_near(word, candidate)) continue;
    const std::size_t distance = edit_distance(word, candidate);
    if (distance >= best_distance || !is_near(distance, word, candidate)) continue;
    best = candidate;
    best_distance = distance;
  }
  return std::string(best);
}

template <class Candidates>
std::string did_you_mean_of(std::string_view word, const Candidates& candidates) {
  const std::string near = nearest_of(word, candidates);
  if (!near.empty()) return "did you mean '" + near + "'?";
  if (candidates.empty() || candidates.size() > short_list) return {};
  return "known are " + joined(candidates, ", ");
}

}  // namespace

// The distance between the first i letters of a and the first j letters of b, row by row in i. No letter is changed
// twice (so "ca" is three steps from "abc", not two: optimal string alignment).
std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> before_last(b.size() + 1);
  std::vector<std::size_t> last(b.size() + 1);
  std::vector<std::size_t> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    before_last.swap(last);
    last.swap(row);
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t changed = last[j - 1] + (same_letter(a[i - 1], b[j - 1]) ? 0 : 1);
      row[j] = std::min({changed, last[j] + 1, row[j - 1] + 1});
      const bool swapped = i > 1 && j > 1 && same_letter(a[i - 1], b[j - 2]) && same_letter(a[i - 2], b[j - 1]);
      if (swapped) row[j] = std::min(row[j], before_last[j - 2] + 1);
    }
  }
  return row[b.size()];
}

std::string nearest(std::string_view word, std::span<const std::string> candidates) {
  return nearest_of(word, candidates);
}
std::string nearest(std::string_view word, std::span<const std::string_view> candidates) {
  return nearest_of(word, candidates);
}

std::map<std::string, std::string> nearest_to_each(const std::set<std::string>& words,
                                                   std::span<const std::string_view> candidates) {
  std::map<std::string, std::string> meant;
  if (words.size() > most_unknown) return meant;
  const auto looked_at = candidates.first(std::min(candidates.size(), most_candidates));
  for (const std::string& word : words) meant[word] = nearest(word, looked_at);
  return meant;
}

std::string did_you_mean(std::string_view word, std::span<const std::string> candidates) {
  return did_you_mean_of(word, candidates);
}
std::string did_you_mean(std::string_view word, std::span<const std::string_view> candidates) {
  return did_you_mean_of(word, candidates);
}

}  // namespace driftwarden
