// SPDX-License-Identifier: MIT
#include "evidence/change_log.hpp"

#include <algorithm>
#include <array>
#include <set>

#include "diagnostic/letters.hpp"

namespace driftwarden {
namespace {

constexpr std::size_t most_named = 3;

std::string_view line_off(std::string_view& text) {
  const std::size_t end = std::min(text.find('\n'), text.size());
  const std::string_view line = text.substr(0, end);
  text.remove_prefix(std::min(end + 1, text.size()));
  return line;
}

// Words that say what a text is about: long ones, but for those that stand in every other entry, without the s of a
// plural.
std::set<std::string> telling_words(std::string_view text) {
  constexpr std::size_t shortest = 4;
  constexpr std::array<std::string_view, 12> empty_words{"with",    "that", "from",    "this",    "sample", "line",
                                                         "nothing", "data", "percent", "results", "which",  "where"};
  std::set<std::string> words;
  std::string word;
  for (const char c : in_small_letters(text) + ' ') {
    if (c >= 'a' && c <= 'z') {
      word += c;
      continue;
    }
    if (word.ends_with('s')) word.pop_back();
    if (word.size() >= shortest && std::find(empty_words.begin(), empty_words.end(), word) == empty_words.end())
      words.insert(word);
    word.clear();
  }
  return words;
}

std::size_t shared_words(const std::set<std::string>& words, const std::string& entry) {
  return static_cast<std::size_t>(std::count_if(
      words.begin(), words.end(), [&](const std::string& word) { return entry.find(word) != std::string::npos; }));
}

// The text between the next two `…`, taken off the front.
std::string quoted(std::string_view& text) {
  const std::size_t begin = text.find('`');
  const std::size_t end = begin == std::string_view::npos ? begin : text.find('`', begin + 1);
  if (end == std::string_view::npos) return "";
  const std::string inside(text.substr(begin + 1, end - begin - 1));
  text.remove_prefix(end + 1);
  return inside;
}

}  // namespace

std::string name_of(const LoggedChange& change) {
  const auto& [first, second, third] = change.version;
  return std::to_string(first) + "." + std::to_string(second) + "." + std::to_string(third) + ", " +
         std::to_string(change.number);
}

std::vector<LoggedChange> changes_after(const Version& version, std::string_view heading, std::string_view log) {
  std::vector<LoggedChange> changes;
  std::optional<Version> of;
  std::size_t number = 0;
  bool is_wanted = false;
  bool is_inside = false;  // an entry
  while (!log.empty()) {
    const std::string_view line = line_off(log);
    if (line.starts_with("## ")) {
      of = version_from(line.substr(3, line.find(',') - 3));
      number = 0;
    }
    if (line.starts_with("#")) is_wanted = line == "### " + std::string(heading) && of && *of > version;
    const bool is_first = line.starts_with("- ") || line.starts_with("* ");
    is_inside = is_wanted && (is_first || (is_inside && line.starts_with("  ")));
    if (!is_inside) continue;
    if (is_first) changes.push_back({*of, ++number, ""});
    changes.back().text += (changes.back().text.empty() ? "" : " ") + std::string(line.substr(2));
  }
  return changes;
}

std::vector<Rewording> rewordings_after(const Version& version, std::string_view log) {
  std::vector<Rewording> rewordings;
  for (const LoggedChange& change : changes_after(version, "Wording", log)) {
    std::string_view text = change.text;
    Rewording rewording;
    rewording.before = quoted(text);
    rewording.now = quoted(text);
    if (!rewording.before.empty() && !rewording.now.empty()) rewordings.push_back(std::move(rewording));
  }
  return rewordings;
}

std::vector<LoggedChange> may_account_for(const TextDifference& difference, const std::vector<LoggedChange>& changes) {
  const bool is_named = !difference.about.empty();
  const std::set<std::string> words =
      telling_words(is_named ? difference.about : difference.packed + " " + difference.now);
  const std::size_t least = is_named ? 1 : 2;  // a whole line shares a word with much
  std::vector<std::pair<std::size_t, const LoggedChange*>> ranked;
  for (const LoggedChange& change : changes) {
    const std::size_t shared = shared_words(words, in_small_letters(change.text));
    if (shared >= least) ranked.emplace_back(shared, &change);
  }
  std::stable_sort(ranked.begin(), ranked.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
  std::vector<LoggedChange> likeliest;
  for (std::size_t i = 0; i < std::min(most_named, ranked.size()); ++i) likeliest.push_back(*ranked[i].second);
  return likeliest;
}

}  // namespace driftwarden
