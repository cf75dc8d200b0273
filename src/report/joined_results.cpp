// SPDX-License-Identifier: MIT
#include "report/joined_results.hpp"

#include <algorithm>
#include <charconv>
#include <ostream>
#include <vector>

#include "book/csv_scanner.hpp"
#include "diagnostic/suggestion.hpp"

namespace driftwarden {
namespace {

std::string_view row_text(const CsvScanner& scanner) {
  return {scanner.row_begin(), static_cast<std::size_t>(scanner.position() - scanner.row_begin())};
}

// The next line of a text that is eaten from the front.
std::string_view next_line(std::string_view& text) {
  const std::size_t end = std::min(text.find('\n'), text.size());
  const std::string_view line = text.substr(0, end);
  text.remove_prefix(std::min(end + 1, text.size()));
  return line;
}

// A part counted from 1; 0 where the text is none.
std::size_t part_named(std::string_view line, std::size_t parts) {
  std::size_t part = 0;
  const auto [end, fault] = std::from_chars(line.data(), line.data() + line.size(), part);
  const bool is_one = fault == std::errc{} && end == line.data() + line.size() && part <= parts;
  return is_one ? part : 0;
}

// How many rows each part should have, by the order.
Result<std::vector<std::size_t>> rows_by_order(std::string_view order, const std::string& name, std::size_t parts) {
  std::vector<std::size_t> rows(parts, 0);
  for (std::uint32_t number = 1; !order.empty(); ++number) {
    const std::string_view line = next_line(order);
    const std::size_t part = part_named(line, parts);
    if (part == 0) {
      return error("join/order", {name, number, 1},
                   in_quotes(line) + " is none of the " + std::to_string(parts) + " parts",
                   "give the file 'order' of the split, and the results of all its parts");
    }
    ++rows[part - 1];
  }
  return rows;
}

std::size_t rows_of(const PartResult& part) {
  CsvScanner scanner(part.text, ',');
  std::size_t rows = 0;
  while (scanner.next()) ++rows;
  return rows == 0 ? 0 : rows - 1;
}

std::string_view headings_of(const PartResult& part) {
  CsvScanner scanner(part.text, ',');
  return scanner.next() ? row_text(scanner) : std::string_view();
}

Diagnostics misfits(std::span<const PartResult> parts, const std::vector<std::size_t>& expected,
                    const std::string& order_name) {
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (headings_of(parts[i]).empty() || headings_of(parts[i]) != headings_of(parts[0])) {
      return {error("join/headings", {parts[i].name, 1, 0}, "the headings are not those of the other parts",
                    "give results of screen --format csv, of one version of the program")};
    }
    const std::size_t rows = rows_of(parts[i]);
    if (rows == expected[i]) continue;
    return {error("join/rows", {parts[i].name, 0, 0},
                  "the part has " + std::to_string(rows) + " rows, and by " + in_quotes(order_name) + " should have " +
                      std::to_string(expected[i]),
                  "give the results of all parts of one split, in their order")};
  }
  return {};
}

}  // namespace

Result<std::size_t> join_results(std::string_view order, const std::string& order_name,
                                 std::span<const PartResult> parts, std::ostream& out) {
  const Result<std::vector<std::size_t>> expected = rows_by_order(order, order_name, parts.size());
  if (!expected) return expected.faults();
  Diagnostics faults = misfits(parts, *expected, order_name);
  if (!faults.empty()) return faults;
  std::vector<CsvScanner> scanners;
  for (const PartResult& part : parts) {
    scanners.emplace_back(part.text, ',');
    scanners.back().next();
  }
  out << headings_of(parts[0]);
  std::size_t rows = 0;
  for (; !order.empty(); ++rows) {
    CsvScanner& part = scanners[part_named(next_line(order), parts.size()) - 1];
    part.next();
    out << row_text(part);
  }
  return rows;
}

}  // namespace driftwarden
