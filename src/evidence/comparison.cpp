// SPDX-License-Identifier: MIT
#include "evidence/comparison.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <utility>

#include "book/csv_scanner.hpp"
#include "diagnostic/characters.hpp"
#include "diagnostic/diagnostic.hpp"
#include "diagnostic/joined.hpp"
#include "evidence/json_members.hpp"
#include "quantity/number.hpp"
#include "system/held_file.hpp"

namespace driftwarden {
namespace {

constexpr std::string_view nothing = "(nothing)";

// Figures have a point or an exponent: names and numbers of things, however long, have to be the same.
bool differ_in_last_digits(std::string_view a, std::string_view b) {
  constexpr double closest = 1e-12;
  if ((std::string(a) + std::string(b)).find_first_of(".eE") == std::string::npos) return false;
  const std::optional<double> first = number_from(a);
  const std::optional<double> second = number_from(b);
  return first && second && *first != *second && std::fabs(*first - *second) <= closest * std::fabs(*first);
}

std::string reworded(std::string text, std::span<const Rewording> rewordings) {
  for (const Rewording& rewording : rewordings) {
    for (std::size_t at = 0; (at = text.find(rewording.before, at)) != std::string::npos; at += rewording.now.size())
      text.replace(at, rewording.before.size(), rewording.now);
  }
  return text;
}

// Where two values stand in their texts.
struct Where {
  std::string place;
  std::string about;
};

class Comparer {
 public:
  Comparer(const std::string& file, std::size_t most, std::span<const Rewording> rewordings)
      : file_(file), most_(most), rewordings_(rewordings) {}

  void compare(const Where& where, std::string_view packed, std::string_view now) {
    if (packed == now) return;
    if (differ_in_last_digits(packed, now)) {
      ++result.last_digits;
    } else if (reworded(std::string(packed), rewordings_) == now) {
      ++result.reworded;
    } else {
      differ(where, packed, now);
    }
  }
  void differ(const Where& where, std::string_view packed, std::string_view now) {
    ++result.count;
    if (result.differences.size() < most_)
      result.differences.push_back({file_, where.place, std::string(packed), std::string(now), where.about});
  }

  TextComparison result;

 private:
  const std::string& file_;
  std::size_t most_;
  std::span<const Rewording> rewordings_;
};

std::optional<std::string_view> taken_line(std::string_view& text) {
  if (text.empty()) return std::nullopt;
  const std::size_t end = std::min(text.find('\n'), text.size() - 1);
  const std::string_view line = text.substr(0, end + 1);
  text.remove_prefix(end + 1);
  return line;
}

void compare_lines(std::string_view packed, std::string_view now, Comparer& comparer) {
  for (std::size_t line = 1; !packed.empty() || !now.empty(); ++line) {
    const std::optional<std::string_view> before = taken_line(packed);
    const std::optional<std::string_view> after = taken_line(now);
    const Where where{"line " + std::to_string(line), ""};
    if (before && after) {
      comparer.compare(where, *before, *after);
    } else {
      comparer.differ(where, before.value_or(nothing), after.value_or(nothing));
    }
  }
}

// Of what may be one; whoever compares two asks whether they are.
std::size_t length_of_figure(std::string_view text) {
  return std::min(text.find_first_not_of("0123456789.eE+-"), text.size());
}

// Whether two texts are the same character by character, but for the last digits of figures.
bool same_but_for_last_digits(std::string_view a, std::string_view b) {
  while (!a.empty() || !b.empty()) {
    const std::string_view piece = a.substr(0, std::max<std::size_t>(length_of_figure(a), 1));
    const std::string_view other = b.substr(0, std::max<std::size_t>(length_of_figure(b), 1));
    if (piece != other && !differ_in_last_digits(piece, other)) return false;
    a.remove_prefix(piece.size());
    b.remove_prefix(other.size());
  }
  return true;
}

// A table whose first column names its rows.
struct Table {
  std::vector<std::string> headings;
  std::map<std::string, std::vector<std::string>> rows;
};

// Nothing where names are there twice or a row has more or fewer cells than headings.
std::optional<Table> table_of(std::string_view text) {
  std::string padded(text);
  padded.append(HeldFile::padding, '\0');
  CsvScanner scanner(std::string_view(padded).substr(0, text.size()), ',');
  const auto cells = [&scanner] {
    std::vector<std::string> row;
    for (std::size_t i = 0; i < scanner.cell_count(); ++i) row.emplace_back(scanner.text(i));
    return row;
  };
  Table table;
  if (!scanner.next() || scanner.fault() != CsvFault::none) return std::nullopt;
  table.headings = cells();
  while (scanner.next()) {
    std::vector<std::string> row = cells();
    if (scanner.fault() != CsvFault::none || row.size() != table.headings.size()) return std::nullopt;
    std::string name = row.front();
    if (!table.rows.emplace(std::move(name), std::move(row)).second) return std::nullopt;
  }
  return table;
}

void compare_cells(const std::string& row, const Table& packed, const Table& now, Comparer& comparer) {
  const std::vector<std::string>& before = packed.rows.at(row);
  const std::vector<std::string>& after = now.rows.at(row);
  const std::string who = packed.headings.front() + " " + in_quotes(row) + ", ";
  for (std::size_t i = 1; i < packed.headings.size(); ++i) {
    const auto found = std::find(now.headings.begin(), now.headings.end(), packed.headings[i]);
    if (found == now.headings.end()) continue;
    comparer.compare({who + packed.headings[i], packed.headings[i]}, before[i],
                     after[static_cast<std::size_t>(found - now.headings.begin())]);
  }
}

void compare_tables(std::string_view packed_text, std::string_view now_text, Comparer& comparer) {
  const std::optional<Table> packed = table_of(packed_text);
  const std::optional<Table> now = table_of(now_text);
  if (!packed || !now) return;
  if (packed->headings != now->headings)
    comparer.differ({"line 1", ""}, joined(packed->headings, ","), joined(now->headings, ","));
  for (const auto& [name, row] : packed->rows) {
    if (now->rows.count(name) > 0) {
      compare_cells(name, *packed, *now, comparer);
    } else {
      comparer.differ({packed->headings.front() + " " + in_quotes(name), ""}, joined(row, ","), nothing);
    }
  }
  for (const auto& [name, row] : now->rows) {
    if (packed->rows.count(name) == 0)
      comparer.differ({packed->headings.front() + " " + in_quotes(name), ""}, nothing, joined(row, ","));
  }
}

// "flow_l_min" of "samples[3].flow_l_min".
std::string member_of(const std::string& path) { return path.substr(path.rfind('.') + 1); }

void compare_members(const std::string& path, const JsonMember& packed, const JsonMember& now, Comparer& comparer) {
  const Where where{path, member_of(path)};
  if (packed.is_text == now.is_text) return comparer.compare(where, packed.text, now.text);
  comparer.differ(where, packed.text, now.text);
}

void compare_json(std::string_view packed_text, std::string_view now_text, Comparer& comparer) {
  const std::optional<JsonMembers> packed = json_members(packed_text);
  const std::optional<JsonMembers> now = json_members(now_text);
  if (!packed || !now) return;
  for (const auto& [path, member] : *packed) {
    const auto found = now->find(path);
    if (found == now->end()) {
      comparer.differ({path, member_of(path)}, member.text, nothing);
    } else {
      compare_members(path, member, found->second, comparer);
    }
  }
  for (const auto& [path, member] : *now) {
    if (packed->count(path) == 0) comparer.differ({path, member_of(path)}, nothing, member.text);
  }
}

}  // namespace

std::string to_text(const TextDifference& difference) {
  return (shows_itself(difference.file) ? difference.file : in_quotes(difference.file)) + ": " +
         (shows_itself(difference.where) ? difference.where : in_quotes(difference.where)) + ": packed " +
         in_quotes(difference.packed) + ", now " + in_quotes(difference.now);
}

TextComparison compared(const std::string& file, std::string_view packed, std::string_view now, std::size_t most,
                        std::span<const Rewording> rewordings) {
  Comparer comparer(file, most, rewordings);
  if (packed == now) return std::move(comparer.result);
  const bool is_table = file.ends_with(".csv");
  const bool is_json = file.ends_with(".json");
  if (is_table) compare_tables(packed, now, comparer);
  if (is_json) compare_json(packed, now, comparer);
  const TextComparison& result = comparer.result;
  const bool has_last_digits_alone = result.last_digits > 0 && same_but_for_last_digits(packed, now);
  // A table or a document may be written in another way and say the same: rows in another order, a member twice.
  if (result.count == 0 && !has_last_digits_alone) {
    comparer.result = {};
    compare_lines(packed, now, comparer);
  }
  return std::move(comparer.result);
}

}  // namespace driftwarden
