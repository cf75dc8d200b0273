// SPDX-License-Identifier: MIT
#include "book/decimal_form.hpp"

#include <algorithm>
#include <cmath>

#include "book/plain_text.hpp"
#include "quantity/number.hpp"

namespace driftwarden {
namespace {

constexpr std::size_t rows_looked_at = 1000;
constexpr double largest_part = 65534;  // of a DecimalColumn
constexpr int most_decimals = 9;

bool is_same_unit(const Unit& a, const Unit& b) { return a.name == b.name && a.dimension == b.dimension; }

// The numbers seen so far.
struct Seen {
  int decimals = 0;
  double least = std::numeric_limits<double>::infinity();
  double most = -std::numeric_limits<double>::infinity();

  void add(std::string_view written, double number, char decimal_sign) {
    const std::size_t sign = written.find(decimal_sign);
    const bool has_decimals = sign != std::string_view::npos;
    decimals = std::max(decimals, has_decimals ? static_cast<int>(written.size() - sign - 1) : 0);
    least = std::min(least, number);
    most = std::max(most, number);
  }
  std::optional<DecimalForm> form(const Unit& unit) const {
    if (!(least <= most) || decimals > most_decimals) return std::nullopt;
    const double scale = power_of_ten[static_cast<std::size_t>(decimals)];
    const double range = (most - least) * scale;
    if (!(range < largest_part / 2) || !(std::abs(most) * scale < 1e15)) return std::nullopt;
    // What comes later may lie below or above: the room that is left is shared out evenly.
    return DecimalForm{unit, decimals,
                       static_cast<std::int64_t>(std::floor(least * scale - (largest_part - range) / 2))};
  }
};

Seen first_numbers(const TableFile& file, std::size_t column) {
  const char decimal_sign = file.manner.decimal;
  Seen seen;
  const std::string_view head = file.bytes.head();
  if (head.size() <= file.layout.rows_begin) return seen;
  CsvScanner scanner(head.substr(file.layout.rows_begin), file.layout.separator);
  for (std::size_t row = 0; row < rows_looked_at && scanner.next(); ++row) {
    if (column >= scanner.cell_count()) continue;
    const std::string_view written = trimmed(scanner.text(column));
    std::string with_point(written);
    std::replace(with_point.begin(), with_point.end(), decimal_sign, '.');
    if (const std::optional<double> number = number_from(with_point)) seen.add(written, *number, decimal_sign);
  }
  return seen;
}

}  // namespace

std::optional<DecimalForm> decimal_form_of(const std::vector<TableFile>& files, int field) {
  const auto f = static_cast<std::size_t>(field);
  const TableFile* first = nullptr;
  for (const TableFile& file : files) {
    if (!file.layout.has(field)) continue;
    if (first == nullptr) first = &file;
    if (!is_same_unit(first->layout.unit_of_field[f], file.layout.unit_of_field[f])) return std::nullopt;
  }
  if (first == nullptr) return std::nullopt;
  const auto column = static_cast<std::size_t>(first->layout.column_of_field[f]);
  return first_numbers(*first, column).form(first->layout.unit_of_field[f]);
}

}  // namespace driftwarden
