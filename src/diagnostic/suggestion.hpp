// SPDX-License-Identifier: MIT
#pragma once

#include <map>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace driftwarden {

// Edit distance (Damerau-Levenshtein, neighbours swapped count once), without regard to ASCII case.
std::size_t edit_distance(std::string_view a, std::string_view b);

// The candidate nearest to a mistyped word, or "" where none is near (more than a third of the letters differ).
std::string nearest(std::string_view word, std::span<const std::string> candidates);
std::string nearest(std::string_view word, std::span<const std::string_view> candidates);

// The nearest candidate to each word, where that is worth the search: where many words are unknown it is something else
// than typing, and among the candidates only the first twenty thousand are looked at, so that the cost stays level.
std::map<std::string, std::string> nearest_to_each(const std::set<std::string>& words,
                                                   std::span<const std::string_view> candidates);

// "did you mean 'x'?" or "known are a, b, c" (where nothing is near and the list is short), or "".
std::string did_you_mean(std::string_view word, std::span<const std::string> candidates);
std::string did_you_mean(std::string_view word, std::span<const std::string_view> candidates);

}  // namespace driftwarden
