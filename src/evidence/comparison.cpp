// SPDX-License-Identifier: MIT
#include "driftwarden/evidence/comparison.hpp"

#include <algorithm>
#include <map>
#include <optional>
#include <utility>

#include "driftwarden/book/csv_scanner.hpp"
#include "driftwarden/book/mapped_file.hpp"
#include "driftwarden/diagnostic/characters.hpp"
#include "driftwarden/diagnostic/diagnostic.hpp"
#include "evidence/json_members.hpp"

namespace driftwarden {
namespace {

constexpr std::string_view nothing = "(nothing)";

class Comparer {
 public:
  Comparer(const std::string& file, std::size_t most) : file_(file), most_(most) {}

  void differ(std::string where, std::string_view packed, std::string_view now, bool is_figure) {
    ++result.count;
    result.figures += is_figure ? 1U : 0U;
    if (result.differences.size() < most_)
      result.differences.push_back({file_, std::move(where), std::string(packed), std::string(now), is_figure});
  }

  TextComparison result;

 private:
  const std::string& file_;
  std::size_t most_;
};

void compare_lines(std::string_view packed, std::string_view now, Comparer& comparer) {
  for (std::size_t line = 1; !packed.empty() || !now.empty(); ++line) {
    const auto next = [](std::string_view& text) -> std::optional<std::string_view> {
      if (text.empty()) return std::nullopt;
      const std::size_t end = std::min(text.find('\n'), text.size() - 1);
      const std::string_view taken = text.substr(0, end + 1);
      text.remove_prefix(end + 1);
      return taken;
    };
    const std::optional<std::string_view> before = next(packed);
    const std::optional<std::string_view> after = next(now);
    if (before != after)
      comparer.differ("line " + std::to_string(line), before.value_or(nothing), after.value_or(nothing), false);
  }
}

// A table whose first column names its rows.
struct Table {
  std::vector<std::string> headings;
  std::map<std::string, std::vector<std::string>> rows;
};

// Nothing where names are there twice or a row has more or fewer cells than headings.
std::optional<Table> table_of(std::string_view text) {
  std::string padded(text);
  padded.append(MappedFile::padding, '\0');
  CsvScanner scanner(std::string_view(padded).substr(0, text.size()), ',');
  const auto cells = [&scanner] {
    std::vector<std::string> row;
    for (std::size_t i = 0; i < scanner.cell_count(); ++i) row.emplace_back(scanner.cells()[i].text);
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

std::string joined(const std::vector<std::string>& cells) {
  std::string text;
  for (const std::string& cell : cells) text += (text.empty() ? "" : ",") + cell;
  return text;
}

void compare_cells(const std::string& row, const Table& packed, const Table& now, Comparer& comparer) {
  const std::vector<std::string>& before = packed.rows.at(row);
  const std::vector<std::string>& after = now.rows.at(row);
  const std::string who = packed.headings.front() + " " + in_quotes(row) + ", ";
  for (std::size_t i = 1; i < packed.headings.size(); ++i) {
    const auto found = std::find(now.headings.begin(), now.headings.end(), packed.headings[i]);
    if (found == now.headings.end()) continue;
    const std::string& other = after[static_cast<std::size_t>(found - now.headings.begin())];
    if (before[i] != other) comparer.differ(who + packed.headings[i], before[i], other, true);
  }
}

bool compare_tables(std::string_view packed_text, std::string_view now_text, Comparer& comparer) {
  const std::optional<Table> packed = table_of(packed_text);
  const std::optional<Table> now = table_of(now_text);
  if (!packed || !now) return false;
  if (packed->headings != now->headings)
    comparer.differ("line 1", joined(packed->headings), joined(now->headings), false);
  for (const auto& [name, row] : packed->rows) {
    if (now->rows.count(name) > 0) {
      compare_cells(name, *packed, *now, comparer);
    } else {
      comparer.differ(packed->headings.front() + " " + in_quotes(name), joined(row), nothing, true);
    }
  }
  for (const auto& [name, row] : now->rows) {
    if (packed->rows.count(name) == 0)
      comparer.differ(packed->headings.front() + " " + in_quotes(name), nothing, joined(row), true);
  }
  return true;
}

bool compare_json(std::string_view packed_text, std::string_view now_text, Comparer& comparer) {
  const std::optional<JsonMembers> packed = json_members(packed_text);
  const std::optional<JsonMembers> now = json_members(now_text);
  if (!packed || !now) return false;
  for (const auto& [path, member] : *packed) {
    const auto found = now->find(path);
    if (found == now->end()) {
      comparer.differ(path, member.text, nothing, false);
    } else if (found->second != member) {
      comparer.differ(path, member.text, found->second.text, !member.is_text);
    }
  }
  for (const auto& [path, member] : *now) {
    if (packed->count(path) == 0) comparer.differ(path, nothing, member.text, false);
  }
  return true;
}

}  // namespace

std::string to_text(const TextDifference& difference) {
  return (shows_itself(difference.file) ? difference.file : in_quotes(difference.file)) + ": " +
         (shows_itself(difference.where) ? difference.where : in_quotes(difference.where)) + ": packed " +
         in_quotes(difference.packed) + ", now " + in_quotes(difference.now);
}

TextComparison compared(const std::string& file, std::string_view packed, std::string_view now, std::size_t most) {
  Comparer comparer(file, most);
  if (packed == now) return std::move(comparer.result);
  if (file.ends_with(".csv")) compare_tables(packed, now, comparer);
  if (file.ends_with(".json")) compare_json(packed, now, comparer);
  // A table or a document may be written in another way and say the same.
  if (comparer.result.count == 0) compare_lines(packed, now, comparer);
  return std::move(comparer.result);
}

}  // namespace driftwarden
